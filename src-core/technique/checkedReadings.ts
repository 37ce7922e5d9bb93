import { FLAG, hasFlag, isLow, loggedUnit, type NumberColumn, type Readings } from '../log/readings'
import { type GlucoseUnit, toMgDl } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import { leftOutReadings } from './effect'
import type { Technique } from './technique'

/** Averages of repeats are rounded to this many decimals of their unit, so that equal limits stay equal. */
const AVERAGE_DECIMALS = 9

/**
 * The readings as they stand once checked: doubtful ones, those that the person leaves out and trial steps with changed conditions left out,
 * lows excepted unless the person leaves one out; what remains of a repeat set that holds no low is one reading, the mean in the logged unit
 * (mg/dL where mixed) at the time of the first that remains. The very same object where nothing changes.
 */
export function checkedReadings(readings: Readings, technique: Technique): Readings {
  const leftOut = findLeftOut(readings, technique)
  const averages = new Map<number, Average>()
  for (const averaged of averagesOf(readings, technique, leftOut)) {
    const [first, ...others] = averaged.members
    averages.set(first, averaged)
    for (const index of others) leftOut[index] = 1
  }
  const kept = indexesOfZeros(leftOut)
  if (kept.length === readings.n) return readings
  return pickReadings(readings, kept, averages)
}

/** Every mean that stands in the place of repeats among the checked readings; none of a set that holds a low. */
export function averagedRepeats(readings: Readings, technique: Technique): readonly Average[] {
  return averagesOf(readings, technique, findLeftOut(readings, technique))
}

function averagesOf(readings: Readings, { repeatSets }: Technique, leftOut: Uint8Array): readonly Average[] {
  return repeatSets
    .filter(({ holdsLow }) => !holdsLow)
    .map(({ members }) => members.filter((index) => leftOut[index] === 0))
    .filter((remaining) => remaining.length >= 2)
    .map((remaining) => average(readings, remaining))
}

/** The mean of repeats, in the unit in which they were logged. */
export interface Average {
  /** Indexes in the logbook of those that were averaged, in order of time. */
  readonly members: readonly number[]
  readonly logged: number
  readonly unit: GlucoseUnit
  readonly flags: number
}

function findLeftOut(readings: Readings, technique: Technique): Uint8Array {
  const leftOut = new Uint8Array(readings.n)
  for (const index of leftOutReadings(readings, technique)) leftOut[index] = 1
  for (let i = 0; i < readings.n; i++) {
    if (hasFlag(readings, i, FLAG.changedConditions) && !isLow(readings, i)) leftOut[i] = 1
  }
  return leftOut
}

function average(readings: Readings, members: readonly number[]): Average {
  const first = members[0]
  const units = new Set(members.map((index) => loggedUnit(readings, index)))
  const unit = units.size === 1 ? loggedUnit(readings, first) : 'mg/dL'
  const values = units.size === 1 ? readings.logged : readings.mgDl
  let total = 0
  // A marker stays one only where every member is one.
  let markers = FLAG.aboveRange | FLAG.belowRange
  for (const index of members) {
    total += values[index]
    markers &= readings.flags[index]
  }
  const others = readings.flags[first] & ~(FLAG.mmol | FLAG.aboveRange | FLAG.belowRange)
  return {
    members,
    logged: roundHalfAway(total / members.length, AVERAGE_DECIMALS),
    unit,
    flags: others | markers | (unit === 'mmol/L' ? FLAG.mmol : 0),
  }
}

function indexesOfZeros(marks: Uint8Array): Uint32Array {
  const indexes = new Uint32Array(marks.length)
  let n = 0
  marks.forEach((mark, index) => {
    if (mark === 0) indexes[n++] = index
  })
  return indexes.subarray(0, n)
}

function pickReadings(
  readings: Readings,
  kept: Uint32Array,
  averages: ReadonlyMap<number, Average>,
): Readings {
  const pick = (column: NumberColumn) => {
    const picked = new Float64Array(kept.length)
    for (let i = 0; i < kept.length; i++) picked[i] = column[kept[i]]
    return picked
  }
  const logged = pick(readings.logged)
  const flags = pick(readings.flags)
  const mgDl = pick(readings.mgDl)
  kept.forEach((index, i) => {
    const replacement = averages.get(index)
    if (replacement === undefined) return
    logged[i] = replacement.logged
    flags[i] = replacement.flags
    mgDl[i] = toMgDl(replacement.logged, replacement.unit)
  })
  return {
    n: kept.length,
    at: pick(readings.at),
    mgDl,
    logged,
    flags,
    source: pick(readings.source),
    line: pick(readings.line),
    offsetMinutes: pick(readings.offsetMinutes),
    shiftMinutes: pick(readings.shiftMinutes),
    meter: pick(readings.meter),
    meters: readings.meters,
    meal: (i) => readings.meal(kept[i]),
    note: (i) => readings.note(kept[i]),
  }
}
