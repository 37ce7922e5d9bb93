import { hasClockTime, isBelow, isLow, type Readings } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { SENSOR_EPISODE_MINUTES, SENSOR_GAP, SENSOR_MINUTES_ROUNDED } from '../reference/sensor'
import { minutesBetween } from '../technique/chronology'
import { medianOf } from './week'

/** An episode of lows of a sensor: from 15 consecutive minutes below 70 mg/dL to 15 at or above it. */
export interface SensorEpisode {
  /** Indexes of its lows in the logbook, in order of time, those of every sensor worn then. */
  readonly lows: readonly number[]
  /** Index of the lowest of them, the first of equal ones. */
  readonly lowest: number
  /** From its first low to the first reading of its end; where the end was not seen, as far as its last low stands. */
  readonly minutes: number
  /** Whether a reading that is no low came right before it. */
  readonly beginSeen: boolean
  /** Whether 15 minutes at 70 mg/dL or above were seen after it, before the readings broke off. */
  readonly endSeen: boolean
  /** Whether it holds 15 consecutive minutes below 54 mg/dL. */
  readonly veryLow: boolean
}

/** The lows of a sensor as episodes. */
export interface SensorLows {
  readonly episodes: readonly SensorEpisode[]
  /** Lows of the period that belong to none: no 15 consecutive minutes of them were seen. */
  readonly lowsInNone: number
}

/** How the readings of a sensor lie in time. */
export interface SensorTime {
  /** Median minutes from one reading to the next. */
  readonly spacingMinutes: number
  /** Whether nearly all lie so far apart, gaps aside: then a share of readings is one of the time covered. */
  readonly even: boolean
  /** Percent of the period's time for which readings stand. */
  readonly coveredPercent: number
}

/** The readings of one sensor, or of all, of different moments, in order of time. */
interface Stream {
  readonly indexes: readonly number[]
  readonly spacing: number
}

/** What of a period is looked at. */
interface Query {
  readonly readings: Readings
  /** `chronologicalOrder(readings)`. */
  readonly order: Uint32Array
  /** The period's readings, `[start, end)`; an episode that begins in it is followed to its end. */
  readonly start: number
  readonly end: number
}

/**
 * Each sensor is looked at by itself, and all together, so that neither a second sensor nor the change of one hides a low;
 * what overlaps is one episode. A reading stands for the usual spacing, a gap ends what is known. Null where readings come
 * so seldom that 15 minutes cannot be told.
 */
export function sensorLows(query: Query): SensorLows | null {
  const { readings, start, end } = query
  const timed = [...query.order].filter((index) => hasClockTime(readings, index))
  const placeOf = new Map(timed.map((index, place) => [index, place]))
  const place = (index: number) => placeOf.get(index) ?? 0
  const streams = streamsOf(query, timed).filter(({ spacing }) => spacing <= longestSpacing())
  if (streams.length === 0) return null
  const runs = streams
    .flatMap((stream) => runsOf(query, stream))
    .sort((a, b) => place(a.from) - place(b.from) || place(b.lastLow) - place(a.lastLow))
  const merged: Run[] = []
  for (const run of runs) {
    const before = merged.at(-1)
    if (before !== undefined && place(run.from) <= place(before.recovered ?? before.lastLow)) {
      merged[merged.length - 1] = together(before, run, place)
    } else merged.push(run)
  }
  const episodes = merged.map((run) => {
    const lows = timed.slice(place(run.from), place(run.lastLow) + 1).filter((i) => isLow(readings, i))
    const until = run.recovered ?? run.lastLow
    return {
      lows,
      lowest: lows.reduce((low, index) => (readings.mgDl[index] < readings.mgDl[low] ? index : low)),
      minutes: minutesBetween(readings, run.from, until) + (run.recovered === null ? run.spacing : 0),
      beginSeen: run.beginSeen,
      endSeen: run.recovered !== null,
      veryLow: run.veryLow,
    }
  })
  const inAny = new Set(episodes.flatMap(({ lows }) => lows))
  let lowsInNone = 0
  for (let i = start; i < end; i++) if (isLow(readings, i) && !inAny.has(i)) lowsInNone++
  return { episodes, lowsInNone }
}

/** Null of fewer than two readings with a time. `days`: the period's. */
export function sensorTime({ readings, order, start, end }: Query, days: number): SensorTime | null {
  const indexes = distinctMoments(
    readings,
    [...order].filter((index) => index >= start && index < end && hasClockTime(readings, index)),
  )
  const between = intervals(readings, indexes)
  const spacingMinutes = medianOf(between)
  if (spacingMinutes === null) return null
  const unbroken = between.filter((minutes) => minutes <= gapFrom(spacingMinutes))
  const off = Math.max(SENSOR_MINUTES_ROUNDED, spacingMinutes * MOST_OFF)
  const regular = unbroken.filter((minutes) => Math.abs(minutes - spacingMinutes) <= off).length
  const covered =
    unbroken.reduce((sum, minutes) => sum + minutes, 0) +
    (between.length - unbroken.length + 1) * spacingMinutes
  return {
    spacingMinutes,
    even: regular >= FEWEST_REGULAR * unbroken.length,
    coveredPercent: Math.min(100, (100 * covered) / (days * MINUTES_PER_DAY)),
  }
}

/** Readings are evenly spaced where so many intervals differ from the usual one by at most such a part of it; design choices. */
const FEWEST_REGULAR = 0.95
const MOST_OFF = 0.25
const MINUTES_PER_DAY = 1440

const longestSpacing = () => SENSOR_EPISODE_MINUTES + SENSOR_MINUTES_ROUNDED
const gapFrom = (spacing: number) => Math.max(SENSOR_GAP.minutes, SENSOR_GAP.spacings * spacing)

function streamsOf({ readings, start, end }: Query, timed: readonly number[]): readonly Stream[] {
  const ofMeter = new Map<number, number[]>()
  for (const index of timed) {
    const meter = readings.meter[index]
    const of = ofMeter.get(meter)
    if (of === undefined) ofMeter.set(meter, [index])
    else of.push(index)
  }
  const all = ofMeter.size > 1 ? [timed, ...ofMeter.values()] : [timed]
  return all.flatMap((of): readonly Stream[] => {
    const indexes = distinctMoments(readings, of)
    const ofPeriod = indexes.filter((index) => index >= start && index < end)
    const spacing = medianOf(intervals(readings, ofPeriod))
    return spacing === null ? [] : [{ indexes, spacing }]
  })
}

/** Of several readings of one moment the lowest. */
function distinctMoments(readings: Readings, indexes: readonly number[]): readonly number[] {
  const distinct: number[] = []
  for (const index of indexes) {
    const before = distinct.at(-1)
    if (before === undefined || minutesBetween(readings, before, index) > 0) distinct.push(index)
    else if (readings.mgDl[index] < readings.mgDl[before]) distinct[distinct.length - 1] = index
  }
  return distinct
}

function intervals(readings: Readings, indexes: readonly number[]): readonly number[] {
  return indexes.slice(1).map((index, i) => minutesBetween(readings, indexes[i], index))
}

/** An episode in one stream, by indexes of readings. */
interface Run {
  readonly from: number
  readonly beginSeen: boolean
  lastLow: number
  /** The first of the readings that end it; null where these were not seen. */
  recovered: number | null
  veryLow: boolean
  readonly spacing: number
}

function runsOf({ readings, start, end }: Query, { indexes, spacing }: Stream): readonly Run[] {
  const runs: Run[] = []
  const tolerance = Math.min(SENSOR_MINUTES_ROUNDED, spacing / 2)
  const lasts = (from: number, to: number) =>
    minutesBetween(readings, from, to) + spacing >= SENSOR_EPISODE_MINUTES - tolerance
  let open: Run | null = null
  let low: { from: number; beginSeen: boolean } | null = null
  let veryLowFrom: number | null = null
  let notLowFrom: number | null = null
  for (const [i, index] of indexes.entries()) {
    if (index < start) continue
    const before = i === 0 ? null : indexes[i - 1]
    const neighbour =
      before !== null && minutesBetween(readings, before, index) <= gapFrom(spacing) ? before : null
    if (neighbour === null) open = low = veryLowFrom = notLowFrom = null
    if (isLow(readings, index)) {
      notLowFrom = null
      if (low === null && open === null) {
        if (index >= end) break
        low = { from: index, beginSeen: neighbour !== null && !isLow(readings, neighbour) }
      }
      low ??= { from: index, beginSeen: true }
      if (open === null && lasts(low.from, index)) {
        open = { ...low, lastLow: index, recovered: null, veryLow: false, spacing }
        runs.push(open)
      }
      veryLowFrom = isBelow(readings, index, LIMITS.veryLow) ? (veryLowFrom ?? index) : null
      if (open !== null) {
        open.lastLow = index
        open.veryLow ||= veryLowFrom !== null && lasts(veryLowFrom, index)
      }
    } else {
      low = veryLowFrom = null
      if (open !== null) {
        notLowFrom ??= index
        if (lasts(notLowFrom, index)) {
          open.recovered = notLowFrom
          open = notLowFrom = null
        }
      }
      if (open === null && index >= end) break
    }
  }
  return runs
}

/** Two that overlap, the first beginning no later: the end that comes last counts. */
function together(first: Run, second: Run, place: (index: number) => number): Run {
  const [last, other] = place(second.lastLow) > place(first.lastLow) ? [second, first] : [first, second]
  const seenLater =
    other.recovered !== null && place(other.recovered) > place(last.lastLow) ? other.recovered : null
  return {
    ...first,
    lastLow: last.lastLow,
    recovered: last.recovered ?? seenLater,
    veryLow: first.veryLow || second.veryLow,
    spacing: Math.max(first.spacing, second.spacing),
  }
}
