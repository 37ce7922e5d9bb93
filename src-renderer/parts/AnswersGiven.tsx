import type { Answers } from '../../src-core/bridge/contract'

interface Props {
  readonly answers: Answers
  readonly busy: boolean
  readonly onAskAgain: () => void
}

const DATES = { ymd: 'year first', dmy: 'day first', mdy: 'month first' } as const

/** What a person answered about the logs, and the way to take it back. */
export function AnswersGiven({ answers, busy, onAskAgain }: Props) {
  const given = [
    answers.unit && `unit ${answers.unit}`,
    answers.dates && `dates ${DATES[answers.dates]}`,
    answers.columns && `columns ${answers.columns}`,
  ].filter((answer) => answer !== undefined)
  if (given.length === 0) return null
  return (
    <p className="log-row">
      <span>Your answers: {given.join('; ')}</span>
      <button type="button" className="link" aria-disabled={busy} onClick={onAskAgain}>
        Ask again
      </button>
    </p>
  )
}
