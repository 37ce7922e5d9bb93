import type { Bridge } from '../../src-core/bridge/contract'
import type { DrawnTable, PictureScreenView } from '../../src-core/bridge/pictureScreen'
import type { VisitState } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { Compared } from '../parts/Compared'
import { Figures } from '../parts/Figures'
import { LargeFigures } from '../parts/LargeFigures'
import { Lows, LowsHeadline } from '../parts/Lows'
import { OutsideDays } from '../parts/OutsideDays'
import { PeriodPicker } from '../parts/PeriodPicker'
import { Picture } from '../parts/Picture'
import { StandsOut } from '../parts/StandsOut'
import { Trust } from '../parts/Trust'
import { useFocusOn } from '../parts/useFocusOn'
import type { Step } from '../steps'
import { useAsked } from '../useAsked'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly opened: OpenedView
  readonly onStep: (step: Step, list?: 'lows') => void
}

/** Lows first, then the figures, the day, the days, and two periods side by side. */
export function PictureScreen({ bridge, visit, state, opened, onStep }: Props) {
  const { pictureScreen } = useWords()
  const { revision } = state
  const heading = useFocusOn<HTMLHeadingElement>(null)
  const { view, isCurrent, fault } = useAsked<PictureScreenView>(
    String(revision),
    () => bridge.picture({ revision }),
    visit.refresh,
  )
  return (
    <div className="opened">
      <div className="opened-heading">
        <h2 ref={heading} tabIndex={-1}>
          {opened.period}
        </h2>
        <p className="quiet">{opened.extent}</p>
        <OutsideDays opened={opened} visit={visit} />
      </div>
      <LowsHeadline lows={opened.lows} unit={opened.unit} />
      <div className="opened-figures">
        {view && isCurrent && <LargeFigures large={view.large} markers={view.markers} unit={opened.unit} />}
      </div>
      <Lows lows={opened.lows} onOpen={() => onStep('readings', 'lows')} />
      <div className="opened-rest">
        {fault !== '' && <p role="alert">{fault}</p>}
        {!isCurrent && fault === '' && <p className="quiet">{pictureScreen.DRAWING}</p>}
        {view && (
          <div className="drawn" data-current={isCurrent}>
            <Drawn view={view} unit={opened.unit} />
          </div>
        )}
        <PeriodPicker visit={visit} document={state.visit} days={opened.days} />
        {view?.compared && isCurrent && <Compared compared={view.compared} unit={opened.unit} />}
      </div>
    </div>
  )
}

function Drawn({ view, unit }: { readonly view: PictureScreenView; readonly unit: string }) {
  const { DAY, DAYS, SPREAD, inUnit } = useWords().pictureScreen
  const { day } = view
  return (
    <>
      <section className="picture" aria-labelledby="day-heading">
        <h3 id="day-heading">
          {DAY.heading} <span className="quiet">{inUnit(unit)}</span>
        </h3>
        {'none' in day ? (
          <p>{day.none}</p>
        ) : (
          <DrawnWithTable drawn={day} name={DAY.name} caption={DAY.table} unit={unit} />
        )}
      </section>
      <StandsOut findings={view.standsOut} />
      <Figures figures={view.figures} />
      <Trust sentences={view.trust} />
      <section aria-labelledby="days-heading">
        <h3 id="days-heading">
          {DAYS.heading} <span className="quiet">{inUnit(unit)}</span>
        </h3>
        <DrawnWithTable drawn={view.days} name={DAYS.name} caption={DAYS.table} unit={unit} />
      </section>
      <section aria-labelledby="spread-heading">
        <h3 id="spread-heading">
          {SPREAD.heading} <span className="quiet">{inUnit(unit)}</span>
        </h3>
        <DrawnWithTable drawn={view.spread} name={SPREAD.name} caption={SPREAD.table} unit={unit} />
      </section>
    </>
  )
}

function DrawnWithTable(props: {
  readonly drawn: DrawnTable
  readonly name: string
  readonly caption: string
  readonly unit: string
}) {
  const { pictureScreen } = useWords()
  const { drawn, name, caption, unit } = props
  const table = { rows: drawn.table, caption: pictureScreen.tableCaption(caption, unit), note: drawn.note }
  return <Picture picture={drawn.picture} name={name} table={table} />
}
