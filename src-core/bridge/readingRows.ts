import { MEAL_MOMENTS, type MealMoment } from '../reference/mealMoment'
import { z } from 'zod'
import type { Analysis } from '../analysis/analysis'
import { mealMoment } from '../log/mealWords'
import { FLAG, hasClockTime, hasFlag, isLow, type Readings } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import { BLOCK_HOURS } from '../reference/dayParts'
import { clock, dayOf, secondOfDay } from '../units/wallClock'
import { metersOnPaper } from '../kit/metersOnPaper'
import { MESSAGE_LIMITS } from './limits'
import { searchedFor } from './readingSearch'
import { othersReadings } from '../told/othersReadings'
import { yearsOf } from '../told/years'
import type { Words } from '../wording/words'

/** Which readings are listed; null leaves a part open. */
export const READING_FILTER = z.strictObject({
  show: z.enum(['all', 'doubtful', 'lows', 'decided']),
  /** Looked for in value, date, meal, note and meter; see `searchedFor`. */
  text: z.string().max(MESSAGE_LIMITS.label),
  meal: z.enum(MEAL_MOMENTS).nullable(),
  /** Index of the meter in the logbook. */
  meter: z.int().min(0).nullable(),
  /** First hour of a block of three. */
  fromHour: z.int().min(0).max(23).nullable(),
})
export type ReadingFilter = z.infer<typeof READING_FILTER>

/** A stretch of the list. */
export interface RowsView {
  readonly kind: 'rows'
  readonly total: number
  /** '12 of 438 readings'; of the doubtful ones how many are kept besides. */
  readonly told: string
  readonly from: number
  readonly rows: readonly RowView[]
}

export interface RowView {
  /** Index in the logbook. */
  readonly index: number
  /** '7 Mar 20:28'. */
  readonly when: string
  readonly value: string
  readonly low: boolean
  /** By the program's mark; not where the person keeps it. */
  readonly doubtful: boolean
  /** Doubtful within a stretch that is told once: a bracket stands in the place of the mark. */
  readonly bracketed: boolean
  readonly decided: 'keep' | 'leave-out' | null
  /** Meal and note as the log has them. */
  readonly beside: string
  readonly meter: string
}

/** What the list can be filtered by, of this logbook. */
export interface FilterChoices {
  readonly meals: readonly { readonly value: MealMoment; readonly label: string }[]
  readonly meters: readonly { readonly value: number; readonly label: string }[]
  readonly hours: readonly { readonly value: number; readonly label: string }[]
}

export function filterChoices(words: Words, { readings }: Analysis): FilterChoices {
  const tags = new Map<string, MealMoment | null>()
  for (let i = 0; i < readings.n; i++) {
    const tag = readings.meal(i)
    if (tag !== '' && !tags.has(tag)) tags.set(tag, mealMoment(tag))
  }
  const found = new Set(tags.values())
  return {
    meals: MEAL_MOMENTS.filter((value) => found.has(value)).map((value) => ({
      value,
      label: words.meals.momentName(value),
    })),
    meters: metersOnPaper(readings.meters).map((label, value) => ({ value, label })),
    hours: Array.from({ length: 24 / BLOCK_HOURS }, (_, block) => ({
      value: block * BLOCK_HOURS,
      label: words.day.hoursText(block * BLOCK_HOURS, (block + 1) * BLOCK_HOURS),
    })),
  }
}

/**
 * Indexes of the listed readings in order of time; those to decide are of the report's days: the doubtful ones, lows first,
 * then those whose note says that they may be somebody else's.
 */
export function listedReadings(words: Words, analysis: Analysis, filter: ReadingFilter): Uint32Array {
  const { readings } = analysis
  const shown = indexesOf(analysis, filter.show)
  const fits = searchedFor(words, analysis, filter.text)
  const { meal, meter, fromHour } = filter
  return shown.filter((i) => {
    if (meter !== null && readings.meter[i] !== meter) return false
    if (fromHour !== null) {
      const hour = secondOfDay(readings.at[i]) / 3600
      if (!hasClockTime(readings, i) || hour < fromHour || hour >= fromHour + BLOCK_HOURS) return false
    }
    if (meal !== null && mealMoment(readings.meal(i)) !== meal) return false
    return fits(i)
  })
}

function indexesOf(analysis: Analysis, show: ReadingFilter['show']): Uint32Array {
  const { readings, technique, bracketed, periods } = analysis
  const [{ start, end }] = periods
  switch (show) {
    case 'all':
      return Uint32Array.from({ length: readings.n }, (_, i) => i)
    case 'lows':
      return countedLows(readings)
    case 'decided':
      return Uint32Array.from(technique.decided.map(({ index }) => index))
    case 'doubtful': {
      // What was decided stays in the list: else each answer would make the next one jump.
      const all = [...technique.doubtful, ...technique.kept].map(({ index }) => index)
      const lowsFirst = (i: number) => (isLow(readings, i) ? 0 : 1)
      // What is told together comes after what is looked at one by one.
      const markedFirst = (i: number) => (bracketed.has(i) ? 1 : 0)
      const doubtful = all
        .filter((i) => i >= start && i < end)
        .sort((a, b) => lowsFirst(a) - lowsFirst(b) || markedFirst(a) - markedFirst(b) || a - b)
      const isListed = new Set(doubtful)
      const others = othersReadings(analysis, periods[0]).filter((i) => !isListed.has(i))
      return Uint32Array.from([...doubtful, ...others])
    }
  }
}

/** Lows as everywhere else: beside finger-sticks a sensor's are in no count. */
function countedLows(readings: Readings): Uint32Array {
  const all = Uint32Array.from({ length: readings.n }, (_, i) => i)
  const fingerSticks = all.filter((i) => !hasFlag(readings, i, FLAG.sensor))
  return (fingerSticks.length > 0 ? fingerSticks : all).filter((i) => isLow(readings, i))
}

const LONGEST_BESIDE = 120

/** The rows `[from, from + count)` of the readings listed to show these. */
export function rowsView(
  words: Words,
  { readings, technique, marked, bracketed, settings: { unit } }: Analysis,
  show: ReadingFilter['show'],
  listed: Uint32Array,
  from: number,
  count: number,
): RowsView {
  const isDoubtful = (index: number) => marked.has(index) || bracketed.has(index)
  const kept = new Set(technique.kept.map(({ index }) => index))
  const toDecide = {
    doubtful: listed.filter(isDoubtful).length,
    kept: listed.filter((index) => kept.has(index)).length,
    others: listed.filter((index) => !isDoubtful(index) && !kept.has(index)).length,
  }
  const decided = new Map(technique.decided.map((decision) => [decision.index, decision]))
  const meters = metersOnPaper(readings.meters)
  const years = yearsOf(readings)
  return {
    kind: 'rows',
    total: listed.length,
    told:
      show === 'doubtful'
        ? words.window.doubtfulListText(toDecide)
        : words.window.listedText(listed.length, readings.n),
    from,
    rows: Array.from(listed.subarray(from, from + count), (index): RowView => {
      const day = words.dates.shortDayText(dayOf(readings.at[index]), years)
      const decision = decided.get(index)
      return {
        index,
        when: hasClockTime(readings, index) ? `${day} ${clock(readings.at[index])}` : day,
        value: words.numbers.readingText(readings, index, unit),
        low: isLow(readings, index),
        doubtful: marked.has(index),
        bracketed: bracketed.has(index),
        decided: decision?.choice ?? null,
        beside: [
          isTyped(readings, index) ? words.tables.TYPED : '',
          readings.meal(index),
          readings.note(index),
        ]
          .filter((part) => part !== '')
          .join(' · ')
          .slice(0, LONGEST_BESIDE),
        meter: meters[readings.meter[index]],
      }
    }),
  }
}
