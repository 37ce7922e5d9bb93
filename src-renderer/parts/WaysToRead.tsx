import type { Bridge } from '../../src-core/bridge/contract'
import type { MoveView, WaysSubject, WaysView } from '../../src-core/bridge/waysView'
import type { Answers } from '../../src-core/bridge/windowEdit'
import { useAsked } from '../useAsked'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly revision: number
  readonly sha256: string
  readonly subject: Exclude<WaysSubject, { readonly of: 'move' }>
  readonly legend: string
  readonly onChoose: (answers: Answers, label: string) => void
}

/** The ways to read a log that it allows, each with two rows as it would have them read and what would come of it. */
export function WaysToRead({ bridge, visit, revision, sha256, subject, legend, onChoose }: Props) {
  const { logsScreen } = useWords()
  const { view, fault } = useAsked<WaysView | MoveView>(
    `${revision} ${sha256} ${JSON.stringify(subject)}`,
    () => bridge.waysToRead({ revision, sha256, subject }),
    visit.refresh,
  )
  if (fault !== '') return <p role="alert">{fault}</p>
  if (view?.kind !== 'ways') return <p role="status">{logsScreen.TRYING_WAYS}</p>
  const isChoice = view.ways.some(({ answers }) => answers !== null)
  return (
    <fieldset>
      <legend>{legend}</legend>
      {(isChoice ? view.ways : []).map(({ label, rows, effect, answers }) => {
        const told = (
          <>
            <b>{answers === null ? logsScreen.asItIs(label) : label}</b>
            {rows.map((row) => (
              <span key={row} className="row-read">
                {row}
              </span>
            ))}
            <span className="quiet row-read">{effect}</span>
          </>
        )
        return answers === null ? (
          <p key={label} className="choice as-it-is">
            {told}
          </p>
        ) : (
          <button
            key={label}
            type="button"
            className="choice"
            aria-disabled={visit.busy !== ''}
            onClick={() => onChoose(answers, label)}
          >
            {told}
          </button>
        )
      })}
      {view.said !== '' && <p className="quiet">{view.said}</p>}
    </fieldset>
  )
}
