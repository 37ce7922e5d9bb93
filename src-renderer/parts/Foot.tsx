import type { LogView } from '../../src-core/bridge/logsView'
import { useWords } from '../words'

/** More logs than this have their guesses beside them only. */
const MOST_LOGS = 3

/**
 * The line at the foot: what was just done, what the figures are for, and on demand every guess made about the logs.
 */
export function Foot({ logs, status }: { readonly logs: readonly LogView[]; readonly status: string }) {
  const { windowFrame } = useWords()
  return (
    <footer className="foot">
      <p className="status" role="status" title={status === '' ? undefined : status}>
        {status}
      </p>
      {logs.length > 0 && (
        <details className="guessed">
          <summary>{windowFrame.HOW_READ}</summary>
          <ul className="guesses" aria-label={windowFrame.HOW_READ}>
            {logs.length <= MOST_LOGS ? (
              logs.map((log, position) => (
                <li key={position}>
                  {logs.length > 1 ? windowFrame.guessesOf(log.name, log.guesses) : log.guesses}
                </li>
              ))
            ) : (
              <li>{windowFrame.readBesideText(logs.length)}</li>
            )}
          </ul>
        </details>
      )}
      <p className="caution">
        <span className="purpose">{windowFrame.PURPOSE} </span>
        {windowFrame.NO_DOSING}
      </p>
    </footer>
  )
}
