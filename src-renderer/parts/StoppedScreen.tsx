import type { Answers, LogFile } from '../../src-core/bridge/contract'
import type { QuestionView, RefusalView, StoppedView } from '../../src-core/bridge/stoppedView'
import { AnswersGiven } from './AnswersGiven'
import { useFocusOn } from './useFocusOn'

interface Props {
  readonly view: StoppedView
  readonly logs: readonly LogFile[]
  readonly answers: Answers
  readonly busy: boolean
  readonly onAnswer: (asks: QuestionView['asks'], answer: string) => void
  readonly onAskAgain: () => void
  readonly onRemove: (position: number) => void
}

/** What a log leaves open, asked in place; and logs that could not be read, with the reason. */
export function StoppedScreen({ view, logs, answers, busy, onAnswer, onAskAgain, onRemove }: Props) {
  const top = useFocusOn<HTMLHeadingElement>(view)
  const asked = view.refusals.filter(({ question }) => question !== null).length
  return (
    <section className="stopped" aria-labelledby="stopped-heading">
      <h2 id="stopped-heading" ref={top} tabIndex={-1}>
        {heading(asked)}
      </h2>
      {view.refusals.map((refusal, position) => (
        <Refused key={position} refusal={refusal} busy={busy} onAnswer={onAnswer} />
      ))}
      <h3>Logs</h3>
      {logs.length > 1 && (
        <p className="quiet together">
          They open together once each of them can be read. One that cannot is taken out here.
        </p>
      )}
      <ul className="rows">
        {logs.map((log, position) => (
          <li key={position} className="log-row">
            <span>{log.name}</span>
            <button type="button" className="link" aria-disabled={busy} onClick={() => onRemove(position)}>
              Remove <span className="unseen">{log.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <AnswersGiven answers={answers} busy={busy} onAskAgain={onAskAgain} />
    </section>
  )
}

function heading(asked: number): string {
  if (asked === 0) return 'Not opened'
  return asked === 1 ? 'One thing to tell first' : 'Some things to tell first'
}

function Refused({
  refusal,
  busy,
  onAnswer,
}: { readonly refusal: RefusalView } & Pick<Props, 'busy' | 'onAnswer'>) {
  const { log, line, message, question } = refusal
  return (
    <article className="refusal">
      <h3>
        {log}
        {line !== null && <span className="quiet">, line {line}</span>}
      </h3>
      {question === null ? (
        <p>{message}</p>
      ) : (
        <fieldset>
          <legend>{question.text}</legend>
          {question.choices.map((choice) => (
            <button
              key={choice.answer}
              type="button"
              className="choice"
              aria-disabled={busy}
              onClick={() => onAnswer(question.asks, choice.answer)}
            >
              <b>{choice.label}</b>{' '}
              <span className="quiet">
                {[choice.example, choice.effect].filter((part) => part !== '').join(' · ')}
              </span>
            </button>
          ))}
        </fieldset>
      )}
    </article>
  )
}
