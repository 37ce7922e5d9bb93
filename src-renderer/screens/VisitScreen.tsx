import type { Bridge } from '../../src-core/bridge/contract'
import type { VisitState } from '../../src-core/bridge/visitState'
import { FileSection } from '../parts/FileSection'
import type { FileAsk } from '../useFile'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly ask: FileAsk
  readonly onOpen: () => void
}

/** What belongs to the visit besides its logs: its file, and what the person tells. */
export function VisitScreen({ bridge, visit, state, ask, onOpen }: Props) {
  return (
    <div className="visit-screen">
      <section className="section" aria-labelledby="section-heading">
        <FileSection bridge={bridge} visit={visit} file={state.file} ask={ask} onOpen={onOpen} />
      </section>
    </div>
  )
}
