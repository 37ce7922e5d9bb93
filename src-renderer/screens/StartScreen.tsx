import { useFocusOn } from '../parts/useFocusOn'

interface Props {
  readonly busy: boolean
  readonly onChoose: () => void
  readonly onSample: () => void
}

/** What stands in the window before any log is open. */
export function StartScreen({ busy, onChoose, onSample }: Props) {
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
      </p>
      <p className="quiet">
        Readings stay on this computer. Unit, dates and columns are read from the files; where a file leaves
        something open, the window asks.
      </p>
    </section>
  )
}
