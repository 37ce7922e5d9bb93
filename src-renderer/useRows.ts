import { useRef, useState } from 'react'
import type { Bridge } from '../src-core/bridge/contract'
import type { ReadingFilter, RowView } from '../src-core/bridge/readingRows'
import { faultSentence } from './useVisit'
import { useWords } from './words'

/** Rows asked for at once. */
const CHUNK = 200

interface Held {
  readonly key: string
  readonly total: number
  readonly told: string
  readonly chunks: ReadonlyMap<number, readonly RowView[]>
}

const NOTHING: Held = { key: '', total: 0, told: '', chunks: new Map() }

/** The rows of a list as far as they were looked at, however long the list is. */
export interface Rows {
  readonly total: number
  readonly told: string
  /** Whether these are the rows of the filter asked for, not of the one before. */
  readonly current: boolean
  readonly fault: string
  at(position: number): RowView | undefined
  /** Sees to it that these rows come. */
  need(from: number, to: number): void
}

export function useRows(bridge: Bridge, revision: number, filter: ReadingFilter, onStale: () => void): Rows {
  const words = useWords()
  const key = JSON.stringify([revision, filter])
  const [held, setHeld] = useState<Held>(NOTHING)
  const [fault, setFault] = useState('')
  const asked = useRef({ key: '', chunks: new Set<number>() })

  function ask(chunk: number) {
    if (asked.current.key !== key) asked.current = { key, chunks: new Set() }
    const { chunks } = asked.current
    if (chunks.has(chunk)) return
    chunks.add(chunk)
    bridge.readings({ revision, filter, from: chunk * CHUNK, count: CHUNK }).then(
      (view) => {
        if (asked.current.key !== key) return
        if (view.kind === 'stale') return onStale()
        const { total, told, rows } = view
        setHeld((before) => ({
          key,
          total,
          told,
          chunks: new Map(before.key === key ? before.chunks : []).set(chunk, rows),
        }))
      },
      (error: unknown) => setFault(faultSentence(words, error)),
    )
  }

  return {
    total: held.total,
    told: held.told,
    current: held.key === key,
    fault,
    at: (position) => held.chunks.get(Math.floor(position / CHUNK))?.[position % CHUNK],
    need: (from, to) => {
      for (let chunk = Math.floor(from / CHUNK); chunk * CHUNK <= to; chunk++) ask(chunk)
    },
  }
}
