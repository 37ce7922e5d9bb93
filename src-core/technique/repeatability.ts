import { isLow, isMarker, type Readings } from '../log/readings'
import { chiSquareQuantile } from '../statistics/distributions'
import { quantileR7 } from '../statistics/quantile'
import { isTyped } from '../log/typedByHand'
import type { Repeatability, RepeatSet } from './technique'

/**
 * Pooled within-set SD of values with unequal numbers of repeats, and its degrees of freedom (one-way analysis
 * of variance; for pairs Dahlberg 1940, Bland and Altman, BMJ 1996;313:744). Null without two values in a set.
 */
export function pooledWithinSd(
  sets: readonly (readonly number[])[],
): { sd: number; degreesOfFreedom: number } | null {
  let squares = 0
  let degreesOfFreedom = 0
  for (const set of sets) {
    let total = 0
    for (const value of set) total += value
    const mean = total / set.length
    for (const value of set) squares += (value - mean) ** 2
    degreesOfFreedom += set.length - 1
  }
  return degreesOfFreedom < 1 ? null : { sd: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom }
}

/** Factors that turn a standard deviation into its 95 % limits, by the chi-square distribution. */
export function sdIntervalFactors(degreesOfFreedom: number): readonly [number, number] {
  return [
    Math.sqrt(degreesOfFreedom / chiSquareQuantile(degreesOfFreedom, 0.975)),
    Math.sqrt(degreesOfFreedom / chiSquareQuantile(degreesOfFreedom, 0.025)),
  ]
}

/**
 * How well repeats agree, over the sets of one meter that agree and hold no marker. The coefficient of
 * variation is the pooled SD of 100 x ln(value).
 */
export function repeatability(readings: Readings, repeatSets: readonly RepeatSet[]): Repeatability {
  const sets = repeatSets
    .filter(({ agree, members }) => agree && isOfOneMeter(readings, members))
    .map(({ members }) => members)
    .filter((members) => !members.some((index) => isMarker(readings, index)))
  const within = pooledWithinSd(sets.map((members) => members.map((index) => readings.mgDl[index])))
  const logs = pooledWithinSd(logsOf(readings, sets))
  const isExpected = sets.length === 0 ? () => false : expectedFirst(readings)
  const unsurprising = sets.filter(([first]) => isExpected(first))
  const ofThem = pooledWithinSd(logsOf(readings, unsurprising))
  const factors = logs === null ? null : sdIntervalFactors(logs.degreesOfFreedom)
  return {
    sets: sets.length,
    readings: sets.reduce((total, members) => total + members.length, 0),
    withinSdMgDl: within?.sd ?? null,
    withinCvPercent: logs?.sd ?? null,
    withinCvCi95: logs === null || factors === null ? null : [logs.sd * factors[0], logs.sd * factors[1]],
    unsurprising: ofThem && {
      sets: unsurprising.length,
      degreesOfFreedom: ofThem.degreesOfFreedom,
      withinCvPercent: ofThem.sd,
    },
  }
}

function logsOf(readings: Readings, sets: readonly (readonly number[])[]): readonly (readonly number[])[] {
  return sets.map((members) => members.map((index) => 100 * Math.log(readings.mgDl[index])))
}

/** The middle of all readings in which a value surprises nobody (design choice). */
const MIDDLE = { from: 0.1, to: 0.9 } as const

function expectedFirst(readings: Readings): (index: number) => boolean {
  const sorted = new Float64Array(readings.n)
  for (let i = 0; i < readings.n; i++) sorted[i] = readings.mgDl[i]
  sorted.sort()
  const [low, high] = [MIDDLE.from, MIDDLE.to].map((p) => quantileR7(sorted, p) ?? NaN)
  return (index) => !isLow(readings, index) && readings.mgDl[index] >= low && readings.mgDl[index] <= high
}

function isOfOneMeter(readings: Readings, members: readonly number[]): boolean {
  // Typed numbers may come from several meters.
  return members.every(
    (index) => !isTyped(readings, index) && readings.meter[index] === readings.meter[members[0]],
  )
}
