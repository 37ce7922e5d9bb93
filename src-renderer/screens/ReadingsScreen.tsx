import { useEffect, useRef, useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { ReadingFilter } from '../../src-core/bridge/readingRows'
import type { ReadingView } from '../../src-core/bridge/readingView'
import type { VisitState } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { CorrectReading } from '../parts/CorrectReading'
import { Filters } from '../parts/Filters'
import { ReadingDetail } from '../parts/ReadingDetail'
import { ReadingList } from '../parts/ReadingList'
import { useFocusOn } from '../parts/useFocusOn'
import { useAsked } from '../useAsked'
import { useForm } from '../useForm'
import { useRows } from '../useRows'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly opened: OpenedView
  /** The list as it was left; null where there is none yet. */
  readonly list: ListInHand | null
  readonly onList: (list: ListInHand) => void
  /** Goes to the readings typed by hand. */
  readonly onTyped: () => void
}

/** What is listed, and the place in it. */
export interface ListInHand {
  readonly filter: ReadingFilter
  readonly position: number
}

const EVERYTHING = { text: '', meal: null, meter: null, fromHour: null } as const

/** A list without a search, at its top. */
export function listOf(show: ReadingFilter['show']): ListInHand {
  return { filter: { ...EVERYTHING, show }, position: 0 }
}

/** All readings at the left, the one in hand at the right. */
export function ReadingsScreen({ bridge, visit, state, opened, list, onList, onTyped }: Props) {
  const { readingsScreen } = useWords()
  const { revision } = state
  const { others } = opened.counts
  const heading = useFocusOn<HTMLHeadingElement>(null)
  const [usual] = useState(() =>
    listOf(opened.counts.doubtful + opened.counts.others > 0 ? 'doubtful' : 'all'),
  )
  const { filter, position } = list ?? usual
  const setPosition = (to: number) => onList({ filter, position: to })
  const rows = useRows(bridge, revision, filter, visit.refresh)
  const row = rows.current ? rows.at(position) : undefined
  // What stands at the right stays while the list is read anew.
  const [index, setIndex] = useState<number | null>(null)
  if (row && row.index !== index) setIndex(row.index)
  /** How often the next reading was gone to. */
  const [gone, setGone] = useState(0)
  const next = position + 1 < rows.total ? position + 1 : null
  const goToNext = () => {
    if (next === null) return
    setGone(gone + 1)
    setPosition(next)
  }
  // When a decision is made the person may have gone elsewhere already.
  const inHand = useRef({ index, goToNext })
  useEffect(() => {
    inHand.current = { index, goToNext }
  })

  /** That all were looked at, or what is left at the end of the doubtful ones; '' on the way. */
  function progressTold(): string {
    const { open } = opened.counts
    if (open === 0) return readingsScreen.allLookedAt(others)
    return position + 1 === rows.total ? readingsScreen.lastOne(open) : ''
  }

  return (
    <div className="readings-screen">
      <section className="list" aria-labelledby="list-heading">
        <h2 id="list-heading" ref={heading} tabIndex={-1}>
          {readingsScreen.listHeading(filter.show, others)}
        </h2>
        <p className="quiet" role="status">
          {rows.told}
        </p>
        <Filters
          filter={filter}
          choices={opened.filters}
          counts={opened.counts}
          onChange={(changed) => onList({ filter: changed, position: 0 })}
        />
        {opened.toldOnce.map((told) => (
          <p key={told} className="told-once">
            {told}
          </p>
        ))}
        {rows.fault !== '' && <p role="alert">{rows.fault}</p>}
        {rows.current && rows.total === 0 && <p>{readingsScreen.NONE_LISTED[filter.show]}</p>}
        <ReadingList rows={rows} label={readingsScreen.LIST} position={position} onMove={setPosition} />
      </section>
      {index !== null && rows.total > 0 && (
        <ReadingInHand
          bridge={bridge}
          visit={visit}
          revision={revision}
          index={index}
          onTyped={onTyped}
          told={filter.show === 'doubtful' ? progressTold() : ''}
          nextName={
            filter.show === 'doubtful' ? readingsScreen.nextToDecide(others) : readingsScreen.NEXT_READING
          }
          onNext={next === null ? null : goToNext}
          onDecided={() => inHand.current.index === index && inHand.current.goToNext()}
          gone={gone}
        />
      )}
    </div>
  )
}

function ReadingInHand(props: {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly revision: number
  readonly index: number
  readonly nextName: string
  readonly told: string
  readonly onNext: (() => void) | null
  readonly onDecided: () => void
  readonly gone: number
  readonly onTyped: () => void
}) {
  const { bridge, visit, revision, index, nextName, told, onNext, onDecided, gone, onTyped } = props
  const fill = useForm(bridge, visit)
  const { view, fault } = useAsked<ReadingView>(
    `${revision} ${index}`,
    () => bridge.reading({ revision, index }),
    visit.refresh,
  )
  if (fault !== '') return <p role="alert">{fault}</p>
  if (view === null) return null
  return (
    <ReadingDetail
      view={view}
      visit={visit}
      onNext={onNext}
      onDecided={onDecided}
      gone={gone}
      nextName={nextName}
      told={told}
    >
      <CorrectReading key={`correct ${view.index}`} view={view} fill={fill} onTyped={onTyped} />
    </ReadingDetail>
  )
}
