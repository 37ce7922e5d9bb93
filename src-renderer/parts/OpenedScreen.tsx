import type { Answers } from '../../src-core/bridge/contract'
import type { OpenedView } from '../../src-core/bridge/visitView'
import type { Change, Paper } from '../windowState'
import { Figures } from './Figures'
import { Logs } from './Logs'
import { Lows } from './Lows'
import { Pages } from './Pages'
import { Picture } from './Picture'
import { StandsOut } from './StandsOut'
import { Trust } from './Trust'
import { useFocusOn } from './useFocusOn'

interface Props {
  readonly view: OpenedView
  readonly answers: Answers
  readonly busy: boolean
  readonly paper: Paper
  readonly label: string
  readonly change: (change: Change) => void
  readonly onAskAgain: () => void
  readonly onRemove: (position: number) => void
}

/** The visit: lows first, then the day, the figures, the pages to be made, and the logs behind it all. */
export function OpenedScreen(props: Props) {
  const { view, answers, busy, paper, label, change, onAskAgain, onRemove } = props
  const heading = useFocusOn<HTMLHeadingElement>(view)
  return (
    <div className="opened">
      {view.latest !== null && (
        <p className="latest" role="alert">
          {view.latest}
        </p>
      )}
      <div className="opened-heading">
        <h2 ref={heading} tabIndex={-1}>
          {view.period}
        </h2>
        <p className="quiet">{view.extent}</p>
      </div>
      <Lows lows={view.lows} unit={view.unit} />
      <div className="opened-rest">
        <Picture picture={view.picture} unit={view.unit} />
        <Figures figures={view.figures} />
        <StandsOut findings={view.standsOut} />
        <Trust sentences={view.trust} />
        <Pages paper={paper} label={label} change={change} />
        <Logs logs={view.logs} answers={answers} busy={busy} onAskAgain={onAskAgain} onRemove={onRemove} />
      </div>
    </div>
  )
}
