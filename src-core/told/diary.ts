import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { tellsMeals } from '../day/meals'
import type { LogEntry } from '../log/entries'
import { mealMoment } from '../log/mealWords'
import { hasClockTime, isLow, isMarker, type Readings } from '../log/readings'
import { BLOCK_HOURS, HOURS_PER_DAY } from '../reference/dayParts'
import { USUAL_DIARY_DAYS } from '../reference/paper'
import type { RepeatSet } from '../technique/technique'
import { type DayNumber, dayOf, secondOfDay } from '../units/wallClock'
import { sequenceOf, withGaps } from './lowEvents'

// The diary: one row for each of the latest days with readings, columns by part of the day.

/** A cell shows every low, and of the other tests no more than these. */
const MOST_OTHERS = 6
/** More columns leave no room for the notes, on A4 either. */
const MOST_COLUMNS = 9
/** Tests without a tag stand in columns of so many hours: the finest that leave room. */
const HOURS_OF_UNTAGGED = [BLOCK_HOURS, 2 * BLOCK_HOURS] as const

/** The moments that have a column, with the hour from which such tests are usual: for the order alone. Design choice. */
const MEAL_COLUMNS = [
  { moment: 'night', fromHour: 0 },
  { moment: 'before-breakfast', fromHour: 6 },
  { moment: 'after-breakfast', fromHour: 9 },
  { moment: 'before-lunch', fromHour: 11.5 },
  { moment: 'after-lunch', fromHour: 13.5 },
  { moment: 'before-dinner', fromHour: 17 },
  { moment: 'after-dinner', fromHour: 19.5 },
  { moment: 'bedtime', fromHour: 21.5 },
] as const
type MealColumn = (typeof MEAL_COLUMNS)[number]['moment']

/** What stands in a column: tests by the log's own tags, by their hours, all without a tag, those without a time. */
export type DiaryColumn =
  | { readonly of: 'meal'; readonly moment: MealColumn }
  | { readonly of: 'hours'; readonly from: number; readonly to: number }
  | { readonly of: 'untagged' | 'no-time' }

/** A single test, or a set of repeats that counts as one, told at its first test. */
export interface DiaryItem {
  readonly first: number
  readonly set: RepeatSet | null
}

/** A day; or, `isGap`, days one after the other without readings and entries. */
export interface DiaryRow {
  readonly from: DayNumber
  readonly to: DayNumber
  readonly isGap: boolean
  /** The tests in order of time, and those of each column. */
  readonly items: readonly DiaryItem[]
  readonly cells: readonly (readonly DiaryItem[])[]
  readonly entries: readonly LogEntry[]
}

export interface Diary {
  readonly from: DayNumber
  readonly to: DayNumber
  readonly columns: readonly DiaryColumn[]
  readonly rows: readonly DiaryRow[]
}

/** Null where none is kept: a sensor's log has too many readings. `days`: so many of the latest; left out, four weeks. */
export function diaryTold(analysis: Analysis, period: PeriodFigures, days = USUAL_DIARY_DAYS): Diary | null {
  const { readings } = analysis
  const indexes = periodReadings(analysis, period)
  const last = indexes.at(-1)
  if (period.kind === 'sensor' || days === 0 || last === undefined) return null
  const to = dayOf(readings.at[last])
  const from = Math.max(period.from, to - days + 1)
  const items = itemsOf(analysis, period, indexes).filter(({ first }) => dayOf(readings.at[first]) >= from)
  const columns = columnsOf(
    readings,
    items.map(({ first }) => first),
    tellsMeals(period.byMeal),
  )
  const itemsOn = byDay(items, ({ first }) => dayOf(readings.at[first]))
  const entriesOn = byDay(analysis.entries, ({ at }) => dayOf(at))
  const isEmpty = (day: DayNumber) => !itemsOn.has(day) && !entriesOn.has(day)
  const rows: DiaryRow[] = []
  for (let day = from; day <= to; day = rows[rows.length - 1].to + 1) {
    const isGap = isEmpty(day)
    let end = day
    while (isGap && end < to && isEmpty(end + 1)) end++
    const tests = itemsOn.get(day) ?? []
    const cells = columns.map(({ holds }) => tests.filter(({ first }) => holds(first)))
    rows.push({ from: day, to: end, isGap, items: tests, cells, entries: entriesOn.get(day) ?? [] })
  }
  return { from, to, columns: columns.map(({ column }) => column), rows }
}

function byDay<T>(list: readonly T[], dayOfOne: (one: T) => DayNumber): ReadonlyMap<DayNumber, readonly T[]> {
  const days = new Map<DayNumber, T[]>()
  for (const one of list) {
    const day = dayOfOne(one)
    const known = days.get(day)
    if (known === undefined) days.set(day, [one])
    else known.push(one)
  }
  return days
}

/** The tests in order of time, sets of repeats as one. */
function itemsOf(
  { technique }: Analysis,
  { start, end }: PeriodFigures,
  indexes: readonly number[],
): readonly DiaryItem[] {
  const setOf = new Map(technique.repeatSets.flatMap((set) => set.members.map((member) => [member, set])))
  return indexes.flatMap((first) => {
    const set = setOf.get(first) ?? null
    // The rest of a set stands with its first test, also where that was before midnight.
    const isRest = set !== null && set.members[0] !== first
    return isRest && set.members[0] >= start && set.members[0] < end ? [] : [{ first, set }]
  })
}

interface Column {
  readonly column: DiaryColumn
  readonly holds: (index: number) => boolean
}

/** Columns for the tests `shown`: by the log's own tags where it tells meals, a test without one by its hour. */
function columnsOf(readings: Readings, shown: readonly number[], byMeals: boolean): readonly Column[] {
  const mealOf = new Map(shown.map((index) => [index, byMeals ? mealColumnOf(readings.meal(index)) : null]))
  const untagged = (index: number) => mealOf.get(index) === null
  const timed = (index: number) => hasClockTime(readings, index)
  const meals = MEAL_COLUMNS.filter(({ moment }) => [...mealOf.values()].includes(moment)).map(
    ({ moment, fromHour }) => ({
      column: { of: 'meal', moment } as const,
      holds: (index: number) => mealOf.get(index) === moment,
      fromHour,
    }),
  )
  const hours = (length: number) =>
    Array.from({ length: HOURS_PER_DAY / length }, (_, part) => ({
      column: { of: 'hours', from: part * length, to: (part + 1) * length } as const,
      holds: (index: number) =>
        untagged(index) &&
        timed(index) &&
        Math.floor(secondOfDay(readings.at[index]) / 3600 / length) === part,
      fromHour: part * length,
    }))
  const byHours = HOURS_OF_UNTAGGED.map((length) =>
    hours(length).filter(({ holds }) => shown.some(holds)),
  ).find(({ length }) => length + meals.length <= MOST_COLUMNS)
  const columns: readonly Column[] =
    meals.length === 0
      ? hours(BLOCK_HOURS)
      : byHours === undefined
        ? [...meals, { column: { of: 'untagged' }, holds: (index) => untagged(index) && timed(index) }]
        : [...meals, ...byHours].sort((a, b) => a.fromHour - b.fromHour)
  const holdsTimeless = (index: number) => untagged(index) && !timed(index)
  return shown.some(holdsTimeless)
    ? [...columns, { column: { of: 'no-time' }, holds: holdsTimeless }]
    : columns
}

/** A tag that names no meal puts a test nowhere. */
function mealColumnOf(tag: string): MealColumn | null {
  const told = mealMoment(tag)
  return MEAL_COLUMNS.find(({ moment }) => moment === told)?.moment ?? null
}

export function holdsLow(readings: Readings, { first, set }: DiaryItem): boolean {
  return set === null ? isLow(readings, first) : set.holdsLow
}

/** The tests of a cell that are shown: every low, and the first of the others. */
export function shownInCell(readings: Readings, items: readonly DiaryItem[]): readonly DiaryItem[] {
  let others = 0
  return items.filter((item) => holdsLow(readings, item) || ++others <= MOST_OTHERS)
}

/**
 * How a set is shown: its tests in their order (null: some left out) where a low, a doubt or a dispute is among them; else its
 * mean, mg/dL, or the marker that it holds, for a mean with a test beyond the meter's limit would be no measured value.
 */
export function setTold(
  { readings, marked, bracketed }: Analysis,
  { members, agree, holdsLow: low, meanMgDl, consensusMgDl }: RepeatSet,
):
  | { readonly sequence: readonly (number | null)[] }
  | { readonly marker: number }
  | { readonly mgDl: number } {
  if (low) return { sequence: sequenceOf(readings, members) }
  if (!agree || members.some((index) => marked.has(index)))
    return { sequence: doubtsAndEnds(members, marked) }
  const marker = members.find((index) => isMarker(readings, index))
  if (marker !== undefined) return { marker }
  return { mgDl: members.some((index) => bracketed.has(index)) ? meanMgDl : consensusMgDl }
}

/** Of a long set every doubtful test and the first and last of the others; null for what is left out between them. */
function doubtsAndEnds(members: readonly number[], marked: ReadonlySet<number>): readonly (number | null)[] {
  if (members.length <= MOST_OTHERS) return members
  const sound = members.filter((index) => !marked.has(index))
  const ends = [sound[0], sound[sound.length - 1]]
  return withGaps(members, (index) => marked.has(index) || ends.includes(index))
}
