import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { VisitState } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { PageSettings } from '../parts/PageSettings'
import { PdfSheet } from '../parts/PdfSheet'
import { useFocusOn } from '../parts/useFocusOn'
import { printPages } from '../printPages'
import { savePdf } from '../savePdf'
import { type ShownPdf, usePdf } from '../usePdf'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly opened: OpenedView
}

const ZOOMS = [
  { value: 'width', label: 'Width of the window', zoom: null },
  { value: '1', label: '100 %', zoom: 1 },
  { value: '1.5', label: '150 %', zoom: 1.5 },
  { value: '2', label: '200 %', zoom: 2 },
] as const

/** The very pages that are printed and saved, one by one. */
export function PagesScreen({ bridge, visit, state, opened }: Props) {
  const heading = useFocusOn<HTMLHeadingElement>(null)
  const { shown, fault } = usePdf(bridge, state.revision, visit.refresh)
  return (
    <section className="pages" aria-labelledby="pages-heading">
      <h2 id="pages-heading" ref={heading} tabIndex={-1}>
        Pages
      </h2>
      <PageSettings visit={visit} document={state.visit} unit={opened.unit} />
      {fault !== '' && <p role="alert">{fault}</p>}
      {shown ? (
        <Sheets shown={shown} paper={state.visit.paper} visit={visit} />
      ) : (
        fault === '' && <p className="quiet">Making the pages …</p>
      )}
    </section>
  )
}

function Sheets(props: {
  readonly shown: ShownPdf
  readonly paper: 'A4' | 'Letter'
  readonly visit: VisitHold
}) {
  const { shown, paper, visit } = props
  const { pages, fileName, bytes } = shown
  const [chosen, setChosen] = useState(1)
  const [zoom, setZoom] = useState<(typeof ZOOMS)[number]>(ZOOMS[0])
  const number = Math.min(chosen, pages.count)
  return (
    <>
      <div className="sheet-bar" role="group" aria-label="Page shown">
        <button type="button" aria-disabled={number === 1} onClick={() => setChosen(Math.max(1, number - 1))}>
          Previous
        </button>
        <span role="status">
          Page {number} of {pages.count}
        </span>
        <button
          type="button"
          aria-disabled={number === pages.count}
          onClick={() => setChosen(Math.min(pages.count, number + 1))}
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
        <button
          type="button"
          aria-disabled={visit.busy !== ''}
          onClick={() =>
            visit.run('pages', async () => {
              await printPages(pages, paper)
              return `Print in actual size, on ${paper}.`
            })
          }
        >
          Print
        </button>
        <button type="button" onClick={() => savePdf(fileName, bytes)}>
          Save PDF
        </button>
      </div>
      <PdfSheet pages={pages} number={number} zoom={zoom.zoom} />
    </>
  )
}
