import { FEWEST_DAYS } from '../statistics/bootstrapByDays'
import type { PeriodFigures } from '../analysis/analysis'
import type { Settings } from '../analysis/settings'
import type { DaySpan, Readings } from '../log/readings'
import { SHARES, total } from '../statistics/dayTotals'
import { newcombeInterval } from '../statistics/newcombe'
import { randomSource } from '../statistics/randomSource'
import type { Summary } from '../statistics/summary'
import { blockChanges } from './blockChanges'
import {
  type BlockChange,
  type Change,
  type Comparison,
  type Interval,
  type MeasureChange,
  type MeasureName,
  type MeterShare,
  type SameTimesOfDay,
  type Verdict,
  verdictOf,
} from './comparison'
import { type DayTable, dayTable } from './dayTable'
import { resampleDays, type ResampledIntervals } from './resampleDays'
import { commonWeights, standardisedMean } from './sameTimesOfDay'

/** Streams of chance, so that one part's draws do not depend on another's. */
const STREAM = { intervals: 1, blocks: 2 } as const

/** Where each measure stands in a summary. */
const IN_SUMMARY: Readonly<Record<MeasureName, keyof Summary>> = {
  meanMgDl: 'mean',
  medianMgDl: 'median',
  sdMgDl: 'sd',
  cvPercent: 'cvPercent',
  percentBelow54: 'percentBelow54',
  percentBelow70: 'percentBelow70',
  percentInTarget: 'percentInTarget',
  percentAbove180: 'percentAbove180',
  percentAbove250: 'percentAbove250',
}

/**
 * Sets two periods side by side, as logged: differences are first - second. Both must hold a reading without a
 * bit of `leaveOut`. The periods may share days; then the intervals are wider than they need be.
 */
export function comparePeriods(
  readings: Readings,
  leaveOut: number,
  [first, second]: readonly [PeriodFigures, PeriodFigures],
  settings: Settings,
): Comparison {
  // Computed earlier - later and turned round in the end: the naming of the periods must not move a draw.
  const firstIsEarlier = first.from < second.from || (first.from === second.from && first.to <= second.to)
  if (!firstIsEarlier) return swapped(comparePeriods(readings, leaveOut, [second, first], settings))
  const a = dayTable(readings, first, leaveOut, settings)
  const b = dayTable(readings, second, leaveOut, settings)
  const weights = commonWeights(a, b)
  const enoughDays = a.days >= FEWEST_DAYS && b.days >= FEWEST_DAYS
  const intervals = enoughDays
    ? resampleDays(a, b, weights, randomSource(settings.seed, STREAM.intervals))
    : null
  return {
    measures: (Object.keys(IN_SUMMARY) as MeasureName[]).map((measure) =>
      measureChange(measure, [first, second], [a, b], intervals),
    ),
    sameTimesOfDay:
      weights === null
        ? null
        : {
            ...changeOf(
              standardisedMean(a, weights),
              standardisedMean(b, weights),
              intervals?.sameTimesOfDay ?? null,
            ),
            fromHours: weights.map(({ block }) => first.timeOfDay.blocks[block].fromHour),
          },
    blocks: blockChanges(a, b, randomSource(settings.seed, STREAM.blocks)),
    meters: meterShares(readings, leaveOut, [first, second]),
    sharedDays: sharedDays(first, second),
  }
}

function measureChange(
  measure: MeasureName,
  [first, second]: readonly [PeriodFigures, PeriodFigures],
  tables: readonly [DayTable, DayTable],
  intervals: ResampledIntervals | null,
): MeasureChange {
  const a = first.asLogged[IN_SUMMARY[measure]] as number | null
  const b = second.asLogged[IN_SUMMARY[measure]] as number | null
  const ci95 = intervals === null ? null : (atAnEnd(measure, tables) ?? intervals.measures[measure])
  return { measure, ...changeOf(a, b, ci95) }
}

/** The interval of a share that is 0 or 100 % in a period, where resampling days shows no spread; else null. */
function atAnEnd(measure: MeasureName, tables: readonly [DayTable, DayTable]): Interval | null {
  const share = SHARES.findIndex((name) => name === measure)
  if (share === -1) return null
  const [first, second] = tables.map((table) => ({ count: total(table.counts[share]), n: total(table.n) }))
  if (![first, second].some(({ count, n }) => count === 0 || count === n)) return null
  const interval = newcombeInterval(first, second)
  return interval && [100 * interval[0], 100 * interval[1]]
}

function changeOf(first: number | null, second: number | null, ci95: Interval | null): Change {
  return {
    first,
    second,
    difference: first === null || second === null ? null : first - second,
    ci95,
    verdict: verdictOf(ci95),
  }
}

function meterShares(
  readings: Readings,
  leaveOut: number,
  periods: readonly [PeriodFigures, PeriodFigures],
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

/** The same comparison with the periods named the other way round. */
function swapped(comparison: Comparison): Comparison {
  const { measures, sameTimesOfDay, blocks, meters, sharedDays } = comparison
  return {
    measures: measures.map(swappedChange),
    sameTimesOfDay: sameTimesOfDay && (swappedChange(sameTimesOfDay) satisfies SameTimesOfDay),
    blocks: blocks.map((block): BlockChange => ({
      ...block,
      firstN: block.secondN,
      secondN: block.firstN,
      first: block.second,
      second: block.first,
      difference: negated(block.difference),
      verdict: OPPOSITE[block.verdict],
    })),
    meters: meters.map(({ meter, firstPercent, secondPercent }) => ({
      meter,
      firstPercent: secondPercent,
      secondPercent: firstPercent,
    })),
    sharedDays,
  }
}

const OPPOSITE: Readonly<Record<Verdict, Verdict>> = { higher: 'lower', lower: 'higher', unclear: 'unclear' }

function swappedChange<C extends Change>(change: C): C {
  return {
    ...change,
    first: change.second,
    second: change.first,
    difference: change.difference === null ? null : negated(change.difference),
    ci95: change.ci95 && [negated(change.ci95[1]), negated(change.ci95[0])],
    verdict: OPPOSITE[change.verdict],
  }
}

/** Never -0. */
function negated(value: number): number {
  return 0 - value
}
