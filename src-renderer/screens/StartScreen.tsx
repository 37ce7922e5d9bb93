import type { Bridge } from '../../src-core/bridge/contract'
import { Beginning } from '../parts/Beginning'
import { useFocusOn } from '../parts/useFocusOn'
import type { FileAsk } from '../useFile'
import { useWords } from '../words'

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
  const { windowFrame } = useWords()
  const top = useFocusOn<HTMLHeadingElement>(null)
  return (
    <section className="start" aria-labelledby="start-heading">
      <h2 id="start-heading" ref={top} tabIndex={-1}>
        {windowFrame.CHOOSE_HEADING}
      </h2>
      <p>{windowFrame.CHOOSE_LEAD}</p>
      <p className="actions">
        <button type="button" className="main-action" aria-disabled={busy} onClick={onChoose}>
          {windowFrame.CHOOSE_LOGS}
        </button>
        <button type="button" aria-disabled={busy} onClick={busy ? undefined : onSample}>
          {windowFrame.TRY_SAMPLE}
        </button>
        <button type="button" aria-disabled={busy} onClick={busy ? undefined : onOpen}>
          {windowFrame.OPEN_VISIT}
        </button>
        <button type="button" onClick={onType}>
          {windowFrame.TYPE_READINGS}
        </button>
      </p>
      <p className="quiet">{windowFrame.STAYS_HERE}</p>
      <Beginning bridge={bridge} ask={ask} busy={busy} turn={done} />
    </section>
  )
}
