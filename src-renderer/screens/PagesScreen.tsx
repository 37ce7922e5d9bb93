import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { VisitState } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { PageSettings } from '../parts/PageSettings'
import { PrintedTicks } from '../parts/PrintedTicks'
import { PdfSheet } from '../parts/PdfSheet'
import { useFocusOn } from '../parts/useFocusOn'
import type { PagesOut } from '../usePagesOut'
import { usePdf } from '../usePdf'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly opened: OpenedView
  readonly out: PagesOut
}

/** Sizes of a page; null takes the width of the window. */
const ZOOMS = [null, 1, 1.5, 2] as const
type Zoom = (typeof ZOOMS)[number]

/**
 * The very pages that are printed and saved, one by one. Pages of another state of the visit than the one that the
 * window shows are never seen: until the new ones are there, that is said in their place.
 */
export function PagesScreen({ bridge, visit, state, opened, out }: Props) {
  const { pagesScreen, windowFrame, windowWork } = useWords()
  const heading = useFocusOn<HTMLHeadingElement>(null)
  const { shown, fault, again } = usePdf(bridge, state.revision, out.chosen, visit.refresh)
  const [chosen, setChosen] = useState(1)
  const [zoom, setZoom] = useState<Zoom>(null)
  const isChanging = visit.busy === 'computing' || visit.busy === 'reading' || visit.busy === 'opening'
  const pages = shown?.revision === state.revision && !isChanging ? shown.pages : null
  const count = pages?.count ?? 0
  const number = Math.min(chosen, Math.max(1, count))
  return (
    <section className="pages" aria-labelledby="pages-heading">
      <h2 id="pages-heading" ref={heading} tabIndex={-1}>
        {pagesScreen.PAGES}
      </h2>
      <PageSettings visit={visit} document={state.visit} unit={opened.unit} />
      <div className="sheet-bar" role="group" aria-label={pagesScreen.PAGE_SHOWN}>
        <button
          type="button"
          aria-disabled={number <= 1}
          onClick={() => pages && setChosen(Math.max(1, number - 1))}
        >
          {pagesScreen.PREVIOUS}
        </button>
        <span role="status">
          {pages
            ? pagesScreen.pageText(number, count)
            : fault === ''
              ? windowWork.BUSY.pages
              : pagesScreen.PAGES_FAILED}
        </span>
        <button
          type="button"
          aria-disabled={number >= count}
          onClick={() => pages && setChosen(Math.min(count, number + 1))}
        >
          {pagesScreen.NEXT}
        </button>
        <label>
          {pagesScreen.SIZE}{' '}
          <select
            value={String(zoom)}
            onChange={({ currentTarget }) =>
              setZoom(ZOOMS.find((each) => String(each) === currentTarget.value) ?? null)
            }
          >
            {ZOOMS.map((each) => (
              <option key={each} value={String(each)}>
                {each === null ? pagesScreen.WHOLE_WIDTH : pagesScreen.sizeText(100 * each)}
              </option>
            ))}
          </select>
        </label>
        <button type="button" onClick={out.print}>
          {pagesScreen.PRINT}
        </button>
        <button type="button" onClick={out.save}>
          {windowFrame.SAVE_PDF}
        </button>
      </div>
      <PrintedTicks out={out} hasFile={state.file.name !== null} />
      {fault !== '' && (
        <p role="alert">
          {fault}{' '}
          <button type="button" className="link" onClick={again}>
            {pagesScreen.MAKE_AGAIN}
          </button>
        </p>
      )}
      {shown && (
        <div className="sheet" data-current={pages !== null}>
          <PdfSheet pages={shown.pages} number={number} zoom={zoom} />
        </div>
      )}
    </section>
  )
}
