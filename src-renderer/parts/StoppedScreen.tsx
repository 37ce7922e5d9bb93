import type { Answers, LogFile } from '../../src-core/bridge/contract'
import type { QuestionView, RefusalView, StoppedView } from '../../src-core/bridge/stoppedView'
import { AnswersGiven } from './AnswersGiven'
import { useFocusOnMount } from './useFocusOnMount'

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
  const heading = useFocusOnMount<HTMLHeadingElement>()
  const asks = view.refusals.some(({ question }) => question !== null)
  return (
    <section className="stopped" aria-labelledby="stopped-heading">
      <h2 id="stopped-heading" ref={heading} tabIndex={-1}>
        {asks ? 'One thing to tell first' : 'Not opened'}
      </h2>
      {view.refusals.map((refusal, position) => (
        <Refused key={position} refusal={refusal} busy={busy} onAnswer={onAnswer} />
      ))}
      <h3>Logs</h3>
      <ul className="rows">
        {logs.map((log, position) => (
          <li key={position} className="log-row">
            <span>{log.name}</span>
            <button type="button" className="link" disabled={busy} onClick={() => onRemove(position)}>
              Remove <span className="unseen">{log.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <AnswersGiven answers={answers} busy={busy} onAskAgain={onAskAgain} />
    </section>
  )
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
              disabled={busy}
              onClick={() => onAnswer(question.asks, choice.answer)}
            >
              <b>{choice.label}</b> <span className="quiet">{choice.example}</span>
            </button>
          ))}
        </fieldset>
      )}
    </article>
  )
}
