import type { LogView } from '../../src-core/bridge/logsView'

/** More logs than this have their guesses beside them only. */
const MOST_LOGS = 3

/**
 * The line at the foot: what was just done, what the figures are for, and on demand every guess made about the logs.
 */
export function Foot({ logs, status }: { readonly logs: readonly LogView[]; readonly status: string }) {
  return (
    <footer className="foot">
      <p className="status" role="status" title={status === '' ? undefined : status}>
        {status}
      </p>
      {logs.length > 0 && (
        <details className="guessed">
          <summary>How the logs were read</summary>
          <ul className="guesses" aria-label="How the logs were read">
            {logs.length <= MOST_LOGS ? (
              logs.map((log, position) => (
                <li key={position}>
                  {logs.length > 1 && `${log.name}: `}
                  {log.guesses}
                </li>
              ))
            ) : (
              <li>How each of the {logs.length} logs was read stands beside it.</li>
            )}
          </ul>
        </details>
      )}
      <p className="caution">
        <span className="purpose">For discussion with the care team. </span>Not for dosing decisions.
      </p>
    </footer>
  )
}
