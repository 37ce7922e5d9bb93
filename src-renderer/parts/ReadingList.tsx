import { useVirtualizer } from '@tanstack/react-virtual'
import { type KeyboardEvent, type MouseEvent, useEffect, useRef } from 'react'
import type { RowView } from '../../src-core/bridge/readingRows'
import type { Rows } from '../useRows'
import { useWords } from '../words'

interface Props {
  readonly rows: Rows
  readonly label: string
  /** Place in the list of the row in hand. */
  readonly position: number
  readonly onMove: (position: number) => void
}

/** Height of a row in rem; a million of them stay below what a browser can scroll. */
const ROW_REM = 2
/** Chromium draws nothing beyond 2^25 pixels. */
const TALLEST_PX = 33_000_000
const PAGE_ROWS = 10

/** All readings listed, drawn only where they are looked at. One stop of the Tab key; arrows move within. */
export function ReadingList({ rows, label, position, onMove }: Props) {
  const { readingsScreen } = useWords()
  const frame = useRef<HTMLDivElement>(null)
  const rowHeight = ROW_REM * parseFloat(getComputedStyle(document.documentElement).fontSize)
  const count = Math.min(rows.total, Math.floor(TALLEST_PX / rowHeight))
  // eslint-disable-next-line react-hooks/incompatible-library -- what it returns is used here alone and never kept
  const virtual = useVirtualizer({
    count,
    getScrollElement: () => frame.current,
    estimateSize: () => rowHeight,
    overscan: 12,
  })
  const drawn = virtual.getVirtualItems()
  const first = drawn[0]?.index ?? 0
  const last = drawn.at(-1)?.index ?? 0
  useEffect(() => rows.need(first, last))

  function move(to: number) {
    const within = Math.max(0, Math.min(to, count - 1))
    virtual.scrollToIndex(within)
    onMove(within)
  }

  function pressed(event: KeyboardEvent) {
    const to = MOVES[event.key]?.(position, count)
    if (to === undefined) return
    event.preventDefault()
    move(to)
  }

  function clicked(event: MouseEvent) {
    const row = event.target instanceof Element ? event.target.closest('[data-position]') : null
    if (row) onMove(Number(row.getAttribute('data-position')))
  }

  const inHand = drawn.some(({ index }) => index === position)
  return (
    <div
      ref={frame}
      className="grid"
      role="grid"
      aria-label={label}
      aria-rowcount={rows.total + 1}
      aria-activedescendant={inHand ? `row-${position}` : undefined}
      tabIndex={0}
      onKeyDown={pressed}
      onClick={clicked}
    >
      <div role="rowgroup" className="grid-head">
        <div role="row" aria-rowindex={1} className="grid-row">
          <span role="columnheader">{readingsScreen.COLUMNS.when}</span>
          <span role="columnheader" className="number">
            {readingsScreen.COLUMNS.value}
          </span>
          <span role="columnheader">{readingsScreen.COLUMNS.beside}</span>
          <span role="columnheader">{readingsScreen.COLUMNS.decided}</span>
        </div>
      </div>
      <div role="rowgroup" className="grid-body" style={{ height: virtual.getTotalSize() }}>
        {drawn.map(({ index, start }) => (
          <ListRow
            key={index}
            row={rows.at(index)}
            position={index}
            top={start}
            selected={index === position}
          />
        ))}
      </div>
    </div>
  )
}

const MOVES: Readonly<Record<string, (position: number, count: number) => number>> = {
  ArrowDown: (position) => position + 1,
  ArrowUp: (position) => position - 1,
  PageDown: (position) => position + PAGE_ROWS,
  PageUp: (position) => position - PAGE_ROWS,
  Home: () => 0,
  End: (_, count) => count - 1,
}

function ListRow(props: {
  readonly row: RowView | undefined
  readonly position: number
  readonly top: number
  readonly selected: boolean
}) {
  const { DECIDED, HEARD } = useWords().readingsScreen
  const { row, position, top, selected } = props
  return (
    <div
      role="row"
      id={`row-${position}`}
      aria-rowindex={position + 2}
      aria-selected={selected}
      data-position={position}
      className={row?.bracketed ? 'grid-row bracketed' : 'grid-row'}
      style={{ transform: `translateY(${top}px)` }}
    >
      <span role="gridcell" className="quiet">
        {row?.when ?? '…'}
      </span>
      <span role="gridcell" className="number">
        {row?.low && (
          <>
            <span className="square" aria-hidden="true" />
            <span className="unseen">{HEARD.low} </span>
          </>
        )}
        <b>{row?.value}</b>
        <span className="mark" aria-hidden="true">
          {row?.doubtful && '?'}
        </span>
        {row?.doubtful && <span className="unseen"> {HEARD.doubtful}</span>}
        {row?.bracketed && <span className="unseen"> {HEARD.bracketed}</span>}
      </span>
      <span role="gridcell" className="beside" title={row?.beside}>
        {row?.beside}
      </span>
      <span role="gridcell" className="quiet">
        {row?.decided && DECIDED[row.decided]}
      </span>
    </div>
  )
}
