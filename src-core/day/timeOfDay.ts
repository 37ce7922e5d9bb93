import type { Counted } from '../model/counted'
import { FLAG, isAbove, isLow, type Readings } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY, HOURS_PER_DAY } from '../reference/dayParts'
import { LIMITS } from '../reference/limits'
import { medianIntervalOf, shareIntervalOf } from '../statistics/intervals'
import { mean, sampleSd } from '../statistics/moments'
import { quantileR7 } from '../statistics/quantile'
import { type CurvePoint, dayCurve } from './curve'
import type { Interval } from '../statistics/wilson'
import { dayOf, secondOfDay, type WallSeconds } from '../units/wallClock'

/** Figures of one hour of the clock; quantiles null without readings. mg/dL. */
export interface HourFigures {
  /** 0 to 23. */
  readonly hour: number
  readonly n: number
  readonly p10: number | null
  readonly q1: number | null
  readonly median: number | null
  readonly q3: number | null
  readonly p90: number | null
}

/** Figures of one three-hour block of the day. mg/dL. */
export interface BlockFigures extends Counted {
  /** 0, 3, ... 21. */
  readonly fromHour: number
  /** 3, 6, ... 24. */
  readonly toHour: number
  /** Days with readings in it. */
  readonly days: number
  readonly meanMgDl: number | null
  readonly sdMgDl: number | null
  readonly q1MgDl: number | null
  readonly medianMgDl: number | null
  readonly q3MgDl: number | null
  readonly percentBelow70: number | null
  readonly percentAbove180: number | null
  /** 95 % intervals by days; null where too few days have readings in the block. */
  readonly ci95: {
    readonly medianMgDl: Interval | null
    readonly percentBelow70: Interval | null
    readonly percentAbove180: Interval | null
  }
}

export interface TimeOfDay {
  readonly hours: readonly HourFigures[]
  readonly blocks: readonly BlockFigures[]
  /** The day smoothed, a point every quarter of an hour. */
  readonly curve: readonly CurvePoint[]
}

/**
 * Figures by hour and by three-hour block of the readings `[start, end)`; those with a bit of `leaveOut` and
 * those without a clock time stay out. Quantiles: type 7.
 */
export function timeOfDay(readings: Readings, start: number, end: number, leaveOut = 0): TimeOfDay {
  const skipped = leaveOut | FLAG.dayOnly
  return {
    hours: valuesByPart(readings, start, end, skipped, 1).map((values, hour) => ({
      hour,
      n: values.length,
      p10: quantileR7(values, 0.1),
      q1: quantileR7(values, 0.25),
      median: quantileR7(values, 0.5),
      q3: quantileR7(values, 0.75),
      p90: quantileR7(values, 0.9),
    })),
    blocks: blockFigures(readings, start, end, skipped),
    curve: dayCurve(readings, start, end, skipped),
  }
}

function blockFigures(readings: Readings, start: number, end: number, skipped: number): BlockFigures[] {
  const below = new Uint32Array(BLOCKS_PER_DAY)
  const above = new Uint32Array(BLOCKS_PER_DAY)
  const belowRange = new Uint32Array(BLOCKS_PER_DAY)
  const aboveRange = new Uint32Array(BLOCKS_PER_DAY)
  const indexes = Array.from({ length: BLOCKS_PER_DAY }, (): number[] => [])
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & skipped) continue
    const block = partOfDay(readings.at[i], BLOCK_HOURS)
    indexes[block].push(i)
    if (readings.flags[i] & FLAG.belowRange) belowRange[block]++
    if (readings.flags[i] & FLAG.aboveRange) aboveRange[block]++
    if (isLow(readings, i)) below[block]++
    if (isAbove(readings, i, LIMITS.high)) above[block]++
  }
  return valuesByPart(readings, start, end, skipped, BLOCK_HOURS).map((values, block) => {
    const n = values.length
    return {
      fromHour: block * BLOCK_HOURS,
      toHour: (block + 1) * BLOCK_HOURS,
      n,
      days: new Set(indexes[block].map((index) => dayOf(readings.at[index]))).size,
      belowRange: belowRange[block],
      aboveRange: aboveRange[block],
      meanMgDl: mean(values),
      sdMgDl: sampleSd(values),
      q1MgDl: quantileR7(values, 0.25),
      medianMgDl: quantileR7(values, 0.5),
      q3MgDl: quantileR7(values, 0.75),
      percentBelow70: n === 0 ? null : (100 * below[block]) / n,
      percentAbove180: n === 0 ? null : (100 * above[block]) / n,
      ci95: {
        medianMgDl: medianIntervalOf(readings, indexes[block]),
        percentBelow70: shareIntervalOf(readings, indexes[block], (i) => isLow(readings, i)),
        percentAbove180: shareIntervalOf(readings, indexes[block], (i) => isAbove(readings, i, LIMITS.high)),
      },
    }
  })
}

/** Values in mg/dL, ascending, one array for each part of the day of `hours` hours. */
function valuesByPart(
  readings: Readings,
  start: number,
  end: number,
  skipped: number,
  hours: number,
): Float64Array[] {
  const parts = HOURS_PER_DAY / hours
  // Where each part's values begin in one shared array.
  const begins = new Uint32Array(parts + 1)
  for (let i = start; i < end; i++) {
    if ((readings.flags[i] & skipped) === 0) begins[partOfDay(readings.at[i], hours) + 1]++
  }
  for (let part = 0; part < parts; part++) begins[part + 1] += begins[part]
  const values = new Float64Array(begins[parts])
  const next = begins.slice()
  for (let i = start; i < end; i++) {
    if ((readings.flags[i] & skipped) === 0)
      values[next[partOfDay(readings.at[i], hours)]++] = readings.mgDl[i]
  }
  return Array.from({ length: parts }, (_, part) => values.subarray(begins[part], begins[part + 1]).sort())
}

function partOfDay(at: WallSeconds, hours: number): number {
  return Math.floor(secondOfDay(at) / (hours * 3600))
}
