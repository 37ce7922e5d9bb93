import type { PeriodFigures } from '../analysis/analysis'
import type { BlockFigures } from '../day/timeOfDay'
import { hasClockTime, type Readings } from '../log/readings'
import { isHardlyTested } from '../statistics/heldBack'
import type { Hours } from './coverage'
import { blockMeasure, type Measure } from './measures'

/** More readings without a time leave unknown which hours were tested (design choice). */
const MOST_UNTIMED_SHARE = 0.1

/** Whether nearly all of these readings have a time of day, so that what was not tested can be told. */
export function hoursKnown(readings: Readings, indexes: readonly number[]): boolean {
  const untimed = indexes.filter((index) => !hasClockTime(readings, index)).length
  return untimed <= MOST_UNTIMED_SHARE * indexes.length
}

/** Whether any of these readings has a time of day. */
export function timesKnown(readings: Readings, indexes: readonly number[]): boolean {
  return indexes.some((index) => hasClockTime(readings, index))
}

/** Hours of the clock, ascending, as runs. */
export function hourRuns(hours: readonly number[]): readonly Hours[] {
  const runs: [number, number][] = []
  for (const hour of hours) {
    const last = runs.at(-1)
    if (last?.[1] === hour) last[1] = hour + 1
    else runs.push([hour, hour + 1])
  }
  return runs
}

/** A block of hours with enough readings for a median. */
export interface BlockMedian {
  readonly hours: Hours
  readonly n: number
  readonly median: Measure
}

export function blockMedians(blocks: readonly BlockFigures[]): readonly BlockMedian[] {
  return blocks
    .filter((block) => !isHardlyTested(block))
    .map((block) => ({
      hours: [block.fromHour, block.toHour],
      n: block.n,
      median: blockMeasure('medianMgDl', block),
    }))
}

/** More are too many to be read out. */
const MOST_LOWS_READ_OUT = 20

/** What the picture of the day shows. */
export interface DayTold {
  readonly medians: readonly BlockMedian[]
  readonly hardlyTested: readonly Hours[]
  readonly lows: number
  /** Indexes of the lowest of them, lowest first. */
  readonly lowest: readonly number[]
}

export function dayTold(readings: Readings, { timeOfDay, lows }: PeriodFigures): DayTold {
  return {
    medians: blockMedians(timeOfDay.blocks),
    hardlyTested: timeOfDay.blocks.filter(isHardlyTested).map(({ fromHour, toHour }) => [fromHour, toHour]),
    lows: lows.each.length,
    lowest: lows.each
      .map(({ index }) => index)
      .sort((a, b) => readings.mgDl[a] - readings.mgDl[b] || a - b)
      .slice(0, MOST_LOWS_READ_OUT),
  }
}
