import jstat from 'jstat'
import { isMarker, type Readings } from '../log/readings'
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
  const { chisquare } = jstat.jStat
  return [
    Math.sqrt(degreesOfFreedom / chisquare.inv(0.975, degreesOfFreedom)),
    Math.sqrt(degreesOfFreedom / chisquare.inv(0.025, degreesOfFreedom)),
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
  const logs = pooledWithinSd(
    sets.map((members) => members.map((index) => 100 * Math.log(readings.mgDl[index]))),
  )
  const factors = logs === null ? null : sdIntervalFactors(logs.degreesOfFreedom)
  return {
    sets: sets.length,
    readings: sets.reduce((total, members) => total + members.length, 0),
    withinSdMgDl: within?.sd ?? null,
    withinCvPercent: logs?.sd ?? null,
    withinCvCi95: logs === null || factors === null ? null : [logs.sd * factors[0], logs.sd * factors[1]],
  }
}

function isOfOneMeter(readings: Readings, members: readonly number[]): boolean {
  // Typed numbers may come from several meters.
  return members.every(
    (index) => !isTyped(readings, index) && readings.meter[index] === readings.meter[members[0]],
  )
}
