import type { Bridge } from '../../src-core/bridge/contract'
import { Beginning } from '../parts/Beginning'
import { useFocusOn } from '../parts/useFocusOn'
import type { FileAsk } from '../useFile'

interface Props {
  readonly bridge: Bridge
  readonly busy: boolean
  readonly done: string
  readonly ask: FileAsk
  readonly onChoose: () => void
  readonly onSample: () => void
  readonly onOpen: () => void
  readonly onType: () => void
}

/** What stands in the window before any log is open. */
export function StartScreen({ bridge, busy, done, ask, onChoose, onSample, onOpen, onType }: Props) {
  const top = useFocusOn<HTMLHeadingElement>(null)
  return (
    <section className="start" aria-labelledby="start-heading">
      <h2 id="start-heading" ref={top} tabIndex={-1}>
        Choose the logs of your meters
      </h2>
      <p>Drop the CSV files anywhere in this window, or choose them here; several meters go together.</p>
      <p className="actions">
        <button type="button" className="main-action" aria-disabled={busy} onClick={onChoose}>
          Choose logs
        </button>
        <button type="button" aria-disabled={busy} onClick={busy ? undefined : onSample}>
          Try it with a sample
        </button>
        <button type="button" aria-disabled={busy} onClick={busy ? undefined : onOpen}>
          Open a visit
        </button>
        <button type="button" onClick={onType}>
          Type readings
        </button>
      </p>
      <p className="quiet">
        Readings stay on this computer. Unit, dates and columns are read from the files; where a file leaves
        something open, the window asks.
      </p>
      <Beginning bridge={bridge} ask={ask} busy={busy} turn={done} />
    </section>
  )
}
