import type { Answers } from '../../src-core/bridge/contract'
import type { LogView, SetAsideView } from '../../src-core/bridge/logsView'
import { AnswersGiven } from './AnswersGiven'

interface Props {
  readonly logs: readonly LogView[]
  readonly answers: Answers
  readonly busy: boolean
  readonly onAskAgain: () => void
  readonly onRemove: (position: number) => void
}

/** The logs behind the figures, what was decided about each, and every row that gave no reading. */
export function Logs({ logs, answers, busy, onAskAgain, onRemove }: Props) {
  return (
    <section className="logs" aria-labelledby="logs-heading">
      <h3 id="logs-heading">Logs</h3>
      <ul className="rows">
        {logs.map((log, position) => (
          <li key={position}>
            <div className="log-row">
              <b>{log.name}</b>
              <button type="button" className="link" aria-disabled={busy} onClick={() => onRemove(position)}>
                Remove <span className="unseen">{log.name}</span>
              </button>
            </div>
            <p className="quiet">
              {log.guesses} {log.rows}
            </p>
            {log.notes.map((note) => (
              <p key={note}>{note}</p>
            ))}
            {log.setAside.map((reason) => (
              <SetAside key={reason.heading} reason={reason} />
            ))}
          </li>
        ))}
      </ul>
      <AnswersGiven answers={answers} busy={busy} onAskAgain={onAskAgain} />
    </section>
  )
}

function SetAside({ reason }: { readonly reason: SetAsideView }) {
  return (
    <details>
      <summary>{reason.heading}</summary>
      <ol className="set-aside">
        {reason.rows.map((row) => (
          <li key={row.line}>
            <span className="quiet">line {row.line}</span> <code>{row.text}</code>
          </li>
        ))}
      </ol>
      {reason.unlisted > 0 && <p className="quiet">and {reason.unlisted} more</p>}
    </details>
  )
}
