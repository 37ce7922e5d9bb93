import { conceptsOf } from '../words/concepts'
import { kindMeaning } from '../words/kinds'
import { isNoTick, isTick, tickMeaning } from '../words/rowMarks'
import { type ColumnProfile, fitsGlucose } from './columnProfile'
import type { TableColumn } from './tableColumn'

/** Most different kinds of entry that a column of kinds holds. */
const MOST_KINDS = 40
/** Share of the rows that must be of other measures where no kind says glucose. A design choice. */
const SOME_OTHERS = 0.2

/**
 * The column that says of what kind each row is: by its header, or by cells that name glucose and other measures.
 * Null where there is none.
 */
export function findKinds(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
): number | null {
  const named = columns.find((column) => column.named && column.role === 'kind')
  if (named) return named.index
  const scored = columns
    .filter(
      ({ role, named: byPerson }) =>
        !byPerson &&
        role !== 'unit' &&
        role !== 'glucose' &&
        role !== 'date' &&
        role !== 'time' &&
        role !== 'timestamp',
    )
    .map((column) => ({ index: column.index, score: kindScore(column, profiles[column.index]) }))
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || a.index - b.index)
  return scored.at(0)?.index ?? null
}

function kindScore({ role, words, header }: TableColumn, profile: ColumnProfile): number {
  if (profile.filled === 0 || profile.holdsDates || words.status) return 0
  // 'Control?' with ticks below marks rows, it names no kinds.
  if (
    tickMeaning(header) !== null &&
    [...profile.distinct.keys()].every((cell) => isTick(cell) || isNoTick(cell))
  )
    return 0
  const meanings = [...profile.distinct].map(([text, times]) => ({ meaning: kindMeaning(text), times }))
  const share = (meaning: string): number =>
    meanings.filter((one) => one.meaning === meaning).reduce((sum, { times }) => sum + times, 0) /
    profile.filled
  const glucose = share('glucose')
  const telling = glucose + share('other') + share('control') + share('sensor')
  const few = profile.distinct.size <= Math.min(MOST_KINDS, Math.max(3, 0.5 * profile.filled))
  if (role === 'kind') return profile.holdsNumbers && !few ? 0 : 1 + 2 * telling
  // A note that says sugar is no kind: kinds stand in almost every row, and are few.
  if (role === 'meter') return glucose > 0 && share('sensor') > 0 ? 2 : 0
  if (role === 'note' || role === 'meal') return 0
  if (role === 'event') {
    // 'Walk' and 'snack' stand beside a reading; doses and other measures are entries of their own.
    const isFull = few && !profile.holdsNumbers && profile.filled >= 0.8 * profile.rows
    return glucose > 0 ? 1 + telling : isFull && measures(profile) >= SOME_OTHERS ? 0.2 : 0
  }
  if (profile.holdsNumbers || !few || profile.filled < 0.8 * profile.rows) return 0
  if (glucose > 0 && telling >= 0.5) return 1 + telling
  if (telling >= 0.8) return 0.5 + telling
  // Other measures in several rows make it one of kinds, though its word for glucose be unknown.
  const isUnknown = words.role === null && share('unknown') > 0
  return isUnknown && share('other') >= SOME_OTHERS ? 0.2 + telling : 0
}

/** Share of a column's cells that name a measure, a dose, a goal or a mean: no reading of glucose. */
function measures({ distinct, filled }: ColumnProfile): number {
  let times = 0
  for (const [text, count] of distinct) {
    const concepts = conceptsOf(text)
    if (MEASURES.some((concept) => concepts.has(concept))) times += count
  }
  return times / filled
}
const MEASURES = ['other', 'insulin', 'carbohydrate', 'goal', 'statistic'] as const

/** Whether values of kinds that nobody knows may be of different measures. */
export function kindsDiffer(kinds: ColumnProfile, values: ColumnProfile): boolean {
  const groups = new Map<string, number[]>()
  kinds.cells.forEach((kind, i) => {
    const value = Number(values.cells[i].replace(',', '.'))
    if (kind === '' || values.cells[i] === '' || Number.isNaN(value)) return
    const group = groups.get(kind)
    if (group === undefined) groups.set(kind, [value])
    else group.push(value)
  })
  const medians: number[] = []
  for (const list of groups.values()) {
    if (!fitsGlucose(list)) return true
    medians.push([...list].sort((a, b) => a - b)[list.length >> 1])
  }
  return medians.length > 1 && Math.max(...medians) > 2 * Math.min(...medians)
}
