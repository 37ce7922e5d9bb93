import type { Settings } from '../model/settings'
import type { DaySpan, Readings } from '../log/readings'
import { BLOCK_HOURS } from '../reference/dayParts'
import { dayEstimates, medianEstimate } from '../statistics/dayEstimates'
import { SHARES } from '../statistics/dayTotals'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { benjaminiHochberg } from '../statistics/benjaminiHochberg'
import {
  differenceInterval,
  differenceP,
  type Estimate,
  shareDifferenceInterval,
  shareDifferenceP,
} from '../statistics/estimates'
import { blockChanges } from './blockChanges'
import {
  changeOf,
  type Comparison,
  ERROR_OF_ALL_ROWS,
  FEWEST_TAGGED_PERCENT,
  type Interval,
  COMPARED_MEASURES,
  type MeasureName,
  isWithheld,
  type MeterShare,
  type NoSameMeals,
  type RowsTogether,
  type SameMeals,
  type SameTimesOfDay,
} from './comparison'
import { type DayTable, dayTable } from './dayTable'
import { type ComparedPeriod, lowsOfPeriod } from './lowsOfTwo'
import { commonWeights, standardisedChange } from './standardised'
import {
  areTimesKnown,
  habitChanges,
  mixMoved,
  MOMENTS,
  testingHabit,
  type TestingHabit,
} from './testingHabit'

/**
 * Sets two periods side by side, as logged: differences are first - second. Both must hold a reading without a
 * bit of `leaveOut`. The periods may share days; then the intervals are wider than they need be.
 */
export function comparePeriods(
  readings: Readings,
  leaveOut: number,
  [first, second]: readonly [ComparedPeriod, ComparedPeriod],
  settings: Settings,
): Comparison {
  const tableOf = (period: ComparedPeriod) =>
    dayTable(readings, period, leaveOut, settings, period.asLogged.meanMgDl ?? NaN)
  const tables = [tableOf(first), tableOf(second)] as const
  const habits = [testingHabit(readings, first, leaveOut), testingHabit(readings, second, leaveOut)] as const
  const enoughDays = tables.every(({ days }) => days >= FEWEST_DAYS)
  const differences = enoughDays ? judgedDifferences(...tables) : null
  const rows = {
    measures: COMPARED_MEASURES.map((measure) => {
      const { ci95 = null, p = null } = differences?.[measure] ?? {}
      return { measure, ...changeOf(first.asLogged[measure], second.asLogged[measure], ci95, p) }
    }),
    sameTimesOfDay: sameTimesOfDay(tables, habits, enoughDays),
    sameMeals: sameMeals(tables, habits, enoughDays),
    habitChanges: habitChanges(...habits),
  }
  return {
    ...rows,
    lows: [lowsOfPeriod(first, areTimesKnown(habits[0])), lowsOfPeriod(second, areTimesKnown(habits[1]))],
    together: rowsTogether(rows),
    habits,
    blocks: blockChanges(tables[0].byBlock, tables[1].byBlock, habits),
    meters: meterShares(readings, leaveOut, [first, second]),
    sharedDays: sharedDays(first, second),
  }
}

/**
 * All rows that are not withheld as one, by Simes: so many of them at so small a p are more than chance gives. Rows that go
 * up and down together, as these do, make it err less, not more.
 */
function rowsTogether(
  rows: Pick<Comparison, 'measures' | 'sameTimesOfDay' | 'sameMeals' | 'habitChanges'>,
): RowsTogether | null {
  const { measures, sameTimesOfDay, sameMeals } = rows
  const ps = [
    ...(isWithheld.measures(rows) ? [] : measures.map(({ p }) => p)),
    ...(sameTimesOfDay === null || isWithheld.sameTimes(rows) ? [] : [sameTimesOfDay.p]),
    ...(typeof sameMeals === 'string' || isWithheld.sameMeals(rows) ? [] : [sameMeals.p]),
  ].filter((p) => p !== null)
  if (ps.length === 0) return null
  // The smallest adjusted p of Benjamini and Hochberg is Simes's.
  const p = Math.min(...benjaminiHochberg(ps))
  return { rows: ps.length, p, clear: p <= ERROR_OF_ALL_ROWS }
}

/** A difference, first - second, by its 95 % interval and its p; percentages in points. */
interface Judged {
  readonly ci95: Interval
  readonly p: number
}

function judgedDifferences(first: DayTable, second: DayTable): Readonly<Record<MeasureName, Judged>> {
  const a = dayEstimates(first)
  const b = dayEstimates(second)
  const shares = SHARES.map((name, i) => {
    const [low, high] = shareDifferenceInterval(a.shares[i], b.shares[i])
    return [name, { ci95: [100 * low, 100 * high], p: shareDifferenceP(a.shares[i], b.shares[i]) }] as const
  })
  const judged = (one: Estimate, other: Estimate): Judged => ({
    ci95: differenceInterval(one, other),
    p: differenceP(one, other),
  })
  return {
    meanMgDl: judged(a.mean, b.mean),
    medianMgDl: judged(
      medianEstimate(first.values, first.dayOfValues),
      medianEstimate(second.values, second.dayOfValues),
    ),
    sdMgDl: judged(a.sd, b.sd),
    cvPercent: judged(a.cvPercent, b.cvPercent),
    ...(Object.fromEntries(shares) as Record<(typeof SHARES)[number], Judged>),
  }
}

function sameTimesOfDay(
  [first, second]: readonly [DayTable, DayTable],
  habits: readonly [TestingHabit, TestingHabit],
  enoughDays: boolean,
): SameTimesOfDay | null {
  const weights = commonWeights(first.byBlock, second.byBlock)
  if (weights === null) return null
  const change = standardisedChange(first.byBlock, second.byBlock, weights, enoughDays)
  const moved = mixMoved(
    ...habits,
    weights.map(({ cell, weight }) => ({ block: cell, weight })),
  )
  return {
    ...change,
    verdict: moved ? 'unclear' : change.verdict,
    verdictReason: moved ? 'mix-moved' : null,
    fromHours: weights.map(({ cell }) => cell * BLOCK_HOURS),
  }
}

function sameMeals(
  [first, second]: readonly [DayTable, DayTable],
  habits: readonly [TestingHabit, TestingHabit],
  enoughDays: boolean,
): SameMeals | NoSameMeals {
  if (habits.some(({ tagged, n }) => 100 * tagged < FEWEST_TAGGED_PERCENT * n)) return 'few-tags'
  const [a, b] = [first.byBlockAndMoment, second.byBlockAndMoment]
  const weights = commonWeights(a, b)
  if (weights === null) return 'few-cells'
  return {
    ...standardisedChange(a, b, weights, enoughDays),
    cells: weights.map(({ cell }) => ({
      fromHour: Math.floor(cell / MOMENTS.length) * BLOCK_HOURS,
      moment: MOMENTS[cell % MOMENTS.length],
    })),
  }
}

function meterShares(
  readings: Readings,
  leaveOut: number,
  periods: readonly [ComparedPeriod, ComparedPeriod],
): readonly MeterShare[] {
  const [first, second] = periods.map(({ start, end, asLogged }) => {
    const counts = new Float64Array(readings.meters.length)
    for (let i = start; i < end; i++) if ((readings.flags[i] & leaveOut) === 0) counts[readings.meter[i]]++
    return counts.map((count) => (100 * count) / asLogged.n)
  })
  return readings.meters
    .map((_, meter) => ({ meter, firstPercent: first[meter], secondPercent: second[meter] }))
    .filter(({ firstPercent, secondPercent }) => firstPercent + secondPercent > 0)
}

function sharedDays(first: DaySpan, second: DaySpan): DaySpan | null {
  const from = Math.max(first.from, second.from)
  const to = Math.min(first.to, second.to)
  return from > to ? null : { from, to }
}
