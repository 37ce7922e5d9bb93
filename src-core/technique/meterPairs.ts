import { FLAG, isMarker, type Readings } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import { METER_STANDARD, Z95_ROUNDED } from '../reference/meter'
import { mean, sampleSd } from '../statistics/moments'
import { tQuantile } from '../statistics/distributions'
import { passingBablok, type RegressionLine } from '../statistics/passingBablok'
import { SECONDS_PER_MINUTE } from '../units/wallClock'
import { secondsBetween } from './chronology'
import { comparedMeters } from './comparedMeters'

const FURTHEST_MINUTES = 10
/** So many later readings are looked at for one; finger-sticks of ten minutes are fewer. */
const MOST_LOOKED_AT = 40
/** From so many pairs on a line is drawn, and no more are used for it: its slopes grow with the square. */
const LINE = { fewest: 20, most: 1_000 } as const
/** Slopes of all lines together: with many meters the lines share them. Design choice. */
const MOST_SLOPES = 2_000_000
/** A difference this close to the limit, mg/dL, counts as at the limit: binary fractions miss it by less. */
const AT_LIMIT = 1e-9

/** Two meters against each other, by tests at most ten minutes apart. Neither is a reference. */
export interface MeterPair {
  /** Indexes into the logbook's meters; the first is the one that appears first. */
  readonly first: number
  readonly second: number
  /** Readings of the first and the second meter, in order of time. */
  readonly pairs: readonly (readonly [number, number])[]
  /** Mean of 100 x (first - second) / mean of the two. */
  readonly meanDifferencePercent: number
  /** Mean +- 1.96 SD of these; null below two pairs (Bland and Altman, Lancet 1986;i:307-310). */
  readonly limits95Percent: readonly [number, number] | null
  /** 95 % interval of the mean difference, and where the next pair lies, 95 in 100, both by Student's t; null below 5 pairs. */
  readonly meanCi95Percent: readonly [number, number] | null
  readonly nextPairPercent: readonly [number, number] | null
  /** Pairs within 15 mg/dL below a mean of 100 mg/dL, within 15 % from there on. */
  readonly within15: { readonly count: number; readonly n: number }
  /** Second meter by the first, mg/dL; null below twenty pairs or without a slope. */
  readonly line: RegressionLine | null
}

/**
 * Every two meters that have pairs, in the order in which they appear: smallest gap first, ties by the earlier reading,
 * then its line; each reading once for each two meters. What was typed by hand is of no meter. Readings as logged. Of
 * very many meters `comparedMeters` alone. `order` is `chronologicalOrder(readings)`.
 */
export function meterPairs(readings: Readings, order: Uint32Array): readonly MeterPair[] {
  const used = new Map<string, Set<number>>()
  const pairsOf = new Map<string, [number, number][]>()
  for (const { earlier, later } of candidates(readings, order)) {
    const swapped = readings.meter[earlier] > readings.meter[later]
    const [first, second] = swapped ? [later, earlier] : [earlier, later]
    const key = `${readings.meter[first]} ${readings.meter[second]}`
    const taken = used.get(key) ?? new Set()
    if (taken.has(first) || taken.has(second)) continue
    used.set(key, taken.add(first).add(second))
    const pairs = pairsOf.get(key)
    if (pairs) pairs.push([first, second])
    else pairsOf.set(key, [[first, second]])
  }
  const found = [...pairsOf.values()]
  const lines = found.filter(({ length }) => length >= LINE.fewest).length
  const mostForLine = Math.min(LINE.most, Math.floor(Math.sqrt((2 * MOST_SLOPES) / lines)))
  return found
    .map((pairs) => figuresOf(readings, pairs, mostForLine))
    .sort((a, b) => a.first - b.first || a.second - b.second)
}

interface Candidate {
  readonly earlier: number
  readonly later: number
  readonly seconds: number
  readonly place: number
}

/** Readings of two meters within ten minutes, nearest first. */
function candidates(readings: Readings, order: Uint32Array): readonly Candidate[] {
  const found: Candidate[] = []
  const isCompared = comparedMeters(readings)
  const taken = order.filter(
    (index) =>
      isCompared[readings.meter[index]] === 1 &&
      !isMarker(readings, index) &&
      !isTyped(readings, index) &&
      (readings.flags[index] & (FLAG.dayOnly | FLAG.sensor)) === 0,
  )
  taken.forEach((earlier, place) => {
    for (const later of taken.subarray(place + 1, place + 1 + MOST_LOOKED_AT)) {
      const seconds = secondsBetween(readings, earlier, later)
      if (seconds > FURTHEST_MINUTES * SECONDS_PER_MINUTE) break
      if (readings.meter[earlier] !== readings.meter[later]) found.push({ earlier, later, seconds, place })
    }
  })
  // The places hold the order of time and line; sorting keeps the order in which equal candidates were found.
  return found.sort((a, b) => a.seconds - b.seconds || a.place - b.place)
}

function figuresOf(
  readings: Readings,
  unordered: readonly (readonly [number, number])[],
  mostForLine: number,
): MeterPair {
  const pairs = [...unordered].sort((a, b) => Math.min(...a) - Math.min(...b))
  const { mgDl } = readings
  const differences = Float64Array.from(
    pairs,
    ([first, second]) => (200 * (mgDl[first] - mgDl[second])) / (mgDl[first] + mgDl[second]),
  )
  const centre = mean(differences) as number
  const sd = sampleSd(differences)
  const recent = pairs.slice(-mostForLine)
  const [[first, second]] = pairs
  return {
    first: readings.meter[first],
    second: readings.meter[second],
    pairs,
    meanDifferencePercent: centre,
    limits95Percent: sd === null ? null : [centre - Z95_ROUNDED * sd, centre + Z95_ROUNDED * sd],
    ...byStudentsT(centre, sd, pairs.length),
    within15: {
      count: pairs.filter(([a, b]) => isWithin15(mgDl[a], mgDl[b])).length,
      n: pairs.length,
    },
    line:
      pairs.length < LINE.fewest
        ? null
        : passingBablok(
            recent.map(([a]) => mgDl[a]),
            recent.map(([, b]) => mgDl[b]),
          ),
  }
}

/** Fewer pairs are shown themselves, without a figure drawn from them (design choice). */
export const FEWEST_PAIRS = 5

/** How well the mean of n differences is known, and where the next one lies; percent. */
function byStudentsT(centre: number, sd: number | null, n: number) {
  if (sd === null || n < FEWEST_PAIRS) return { meanCi95Percent: null, nextPairPercent: null }
  const q = tQuantile(n - 1)
  const about = (reach: number) => [centre - reach, centre + reach] as const
  return {
    meanCi95Percent: about((q * sd) / Math.sqrt(n)),
    nextPairPercent: about(q * sd * Math.sqrt(1 + 1 / n)),
  }
}

/** Within 15 mg/dL below a mean of 100 mg/dL, within 15 % from there on; mg/dL. */
export function isWithin15(first: number, second: number): boolean {
  const { share, proportionalFromMgDl, belowMgDl } = METER_STANDARD
  const average = (first + second) / 2
  const allowed = average < proportionalFromMgDl ? belowMgDl : share * average
  return Math.abs(first - second) <= allowed + AT_LIMIT
}
