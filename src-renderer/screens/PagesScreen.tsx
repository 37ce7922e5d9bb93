import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { VisitState } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { MAKING_PAGES, PAGES_FAILED } from '../words'
import { PageSettings } from '../parts/PageSettings'
import { PdfSheet } from '../parts/PdfSheet'
import { useFocusOn } from '../parts/useFocusOn'
import type { PagesOut } from '../usePagesOut'
import { usePdf } from '../usePdf'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly opened: OpenedView
  readonly out: PagesOut
}

const ZOOMS = [
  { value: 'width', label: 'Width of the window', zoom: null },
  { value: '1', label: '100 %', zoom: 1 },
  { value: '1.5', label: '150 %', zoom: 1.5 },
  { value: '2', label: '200 %', zoom: 2 },
] as const

/**
 * The very pages that are printed and saved, one by one. Pages of another state of the visit than the one that the
 * window shows are never seen: until the new ones are there, that is said in their place.
 */
export function PagesScreen({ bridge, visit, state, opened, out }: Props) {
  const heading = useFocusOn<HTMLHeadingElement>(null)
  const { shown, fault, again } = usePdf(bridge, state.revision, visit.refresh)
  const [chosen, setChosen] = useState(1)
  const [zoom, setZoom] = useState<(typeof ZOOMS)[number]>(ZOOMS[0])
  const isChanging = visit.busy === 'computing' || visit.busy === 'reading' || visit.busy === 'opening'
  const pages = shown?.revision === state.revision && !isChanging ? shown.pages : null
  const count = pages?.count ?? 0
  const number = Math.min(chosen, Math.max(1, count))
  return (
    <section className="pages" aria-labelledby="pages-heading">
      <h2 id="pages-heading" ref={heading} tabIndex={-1}>
        Pages
      </h2>
      <PageSettings visit={visit} document={state.visit} unit={opened.unit} />
      <div className="sheet-bar" role="group" aria-label="Page shown">
        <button
          type="button"
          aria-disabled={number <= 1}
          onClick={() => pages && setChosen(Math.max(1, number - 1))}
        >
          Previous
        </button>
        <span role="status">
          {pages ? `Page ${number} of ${count}` : fault === '' ? MAKING_PAGES : PAGES_FAILED}
        </span>
        <button
          type="button"
          aria-disabled={number >= count}
          onClick={() => pages && setChosen(Math.min(count, number + 1))}
        >
          Next
        </button>
        <label>
          Size{' '}
          <select
            value={zoom.value}
            onChange={({ currentTarget }) =>
              setZoom(ZOOMS.find(({ value }) => value === currentTarget.value) ?? ZOOMS[0])
            }
          >
            {ZOOMS.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </label>
        <button type="button" onClick={out.print}>
          Print
        </button>
        <button type="button" onClick={out.save}>
          Save PDF
        </button>
      </div>
      {fault !== '' && (
        <p role="alert">
          {fault}{' '}
          <button type="button" className="link" onClick={again}>
            Make the pages again
          </button>
        </p>
      )}
      {shown && (
        <div className="sheet" data-current={pages !== null}>
          <PdfSheet pages={shown.pages} number={number} zoom={zoom.zoom} />
        </div>
      )}
    </section>
  )
}
