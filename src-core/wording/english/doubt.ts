import { BLOCK_HOURS } from '../../reference/dayParts'
import type { DoubtCluster } from '../../technique/doubtClusters'
import type { DoubtTold } from '../../told/doubts'
import { hoursText } from './day'
import { count } from './numbers'

export const NOT_PROVEN_RIGHT =
  'The others are not proven right: a single wrong reading that nobody repeated is seldom found ' +
  '(about one in three at best, in simulated logs).'

/** 'Doubt 93 in 100'. */
export function doubtText(doubt: DoubtTold): string {
  return doubt === 'not-estimated' ? 'Doubt not estimated' : `Doubt ${doubtInHundredText(doubt)} in 100`
}

export const DOUBT_MEANING =
  'The doubt is the program’s estimate of the chance that a value is more than 30 % off. It is an estimate and can be wrong.'

/** '6 of the 9 doubtful readings come from meter B, which took 160 of 478 readings: look at that meter and its strips first.' */
export function clusterSentence(cluster: DoubtCluster, meterNames: readonly string[]): string {
  const { doubtful, ofDoubtful, readings, ofReadings } = cluster
  const inside = `${doubtful} of the ${ofDoubtful} doubtful readings`
  const all = `${readings} of ${ofReadings} readings`
  switch (cluster.by) {
    case 'hours':
      return (
        `${inside} fall in the hours ${hoursText(cluster.fromHour, cluster.fromHour + BLOCK_HOURS)}, when ${all} were ` +
        'taken: think what the hands touch at those hours.'
      )
    case 'meter':
      return `${inside} come from ${meterNames[cluster.meter]}, which took ${all}: look at that meter and its strips first.`
    case 'vial':
      return `${inside} come from the vial ‘${cluster.vial}’, which gave ${all}: look at the strips first.`
  }
}

/** What stands above the list of doubtful readings. */
export function doubtfulIntroduction(doubtful: number, n: number): string {
  return (
    `${doubtful} of ${count(n, 'reading')}, lows on top. None of them disappears from the log or from the lows. ` +
    `${DOUBT_MEANING} The others are not proven right.`
  )
}

/** 'Left out one at a time, these move mean and SD most: 600 on 12 May, mean −1 and SD −4; ...'; null where nothing moves. */
export function effectSentence(
  moved: readonly { readonly reading: string; readonly mean: string; readonly sd: string }[],
): string | null {
  if (moved.length === 0) return null
  const each = moved.map(({ reading, mean, sd }) => `${reading}, mean ${mean} and SD ${sd}`)
  return `Left out one at a time, these move mean and SD most: ${each.join('; ')}.`
}

/** The lows of a stretch, which stay counted whatever the strips; null without any. */
export function stretchLows(lows: readonly string[]): string | null {
  if (lows.length === 0) return null
  return `Lows among them, counted as lows: ${lows.join('; ')}.`
}

/** 'The 4 others, the most doubtful first', after any lows: above the rows of those without a picture. */
export function furtherDoubtfulTitle(more: number, withLows: boolean): string {
  if (more === 1) return 'One more'
  return `The ${more} others, ${withLows ? 'lows first, then the most doubtful' : 'the most doubtful first'}`
}

/** The test after a doubtful reading. */
export const nextTestSentence = (value: string, duration: string) => `Next test: ${value} after ${duration}.`

/** '93', 'above 99'. */
export function doubtInHundredText(doubt: DoubtTold): string {
  return typeof doubt === 'number' ? String(doubt) : IN_HUNDRED[doubt]
}

const IN_HUNDRED = { 'below-1': 'below 1', 'above-99': 'above 99', 'not-estimated': 'not estimated' } as const

/** Those for which not even a line is left. */
export function unlistedSentence(more: number): string {
  return `and ${more} more, listed in the table of all readings (--readings).`
}

/** Doubtful readings of other days. */
export function outsidePeriodSentence(n: number): string {
  return `${count(n, 'doubtful reading')} outside the period ${n === 1 ? 'is' : 'are'} not shown.`
}

/** '58 came 2 h 10 min later': a doubtful high after which glucose went low. */
export function lowAfterwardsSentence(low: string, duration: string): string {
  return `A low of ${low} came ${duration} later: tell the team if a dose was taken on this reading.`
}
