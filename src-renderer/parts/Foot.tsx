import type { LogView } from '../../src-core/bridge/logsView'

/** More logs than this have their guesses beside them only. */
const MOST_LOGS = 3

/** The line at the foot: what was just done, every guess made about the logs, and what the figures are for. */
export function Foot({ logs, status }: { readonly logs: readonly LogView[]; readonly status: string }) {
  return (
    <footer className="foot">
      <p className="status" role="status">
        {status}
      </p>
      {logs.length > 0 && logs.length <= MOST_LOGS && (
        <ul className="guesses" aria-label="How the logs were read">
          {logs.map((log, position) => (
            <li key={position}>
              {logs.length > 1 && `${log.name}: `}
              {log.guesses}
            </li>
          ))}
        </ul>
      )}
      {logs.length > MOST_LOGS && <p>How each of the {logs.length} logs was read stands beside it.</p>}
      <p className="caution">For discussion with the care team. Not for dosing decisions.</p>
    </footer>
  )
}
