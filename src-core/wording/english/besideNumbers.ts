import type { Settings } from '../../model/settings'
import type { LatestStretch } from '../../day/latestStretch'
import type { Unprompted } from '../../day/promptedTests'
import { LIMITS } from '../../reference/limits'
import type { BesideNumbers, NewMeterTold } from '../../told/besideNumbers'
import { dayText, spanText } from './dates'
import { targetText } from './figures'
import { count, glucoseText, limitText, percentText } from './numbers'
import { limitsText } from './meters'
import { capitalised } from '../phrases'
import type { Years } from '../../told/years'

/** What else must be known to read the numbers. */
export function besideSentence(
  beside: BesideNumbers,
  settings: Pick<Settings, 'unit' | 'targetLow' | 'targetHigh'>,
  years: Years,
): string {
  switch (beside.code) {
    case 'all-the-same':
      return allTheSameSentence(beside.n)
    case 'new-meter':
      return newMeterSentence(beside.found, years)
    case 'latest':
      return latestSentence(beside.latest, settings, years)
    case 'unprompted':
      return unpromptedSentence(beside.unprompted, settings)
  }
}

/** 'Latest 30 days (1 to 30 May 2026): mean 140, 85 % from 70 to 180, 2 readings below 70. The mean has gone from about 230 to about 140 since about 4 March.' */
export function latestSentence(
  latest: LatestStretch,
  { unit, targetLow, targetHigh }: Pick<Settings, 'unit' | 'targetLow' | 'targetHigh'>,
  years: Years,
): string {
  const { before } = latest
  const [now, then] = [glucoseText(latest.meanMgDl, unit), glucoseText(before.meanMgDl, unit)]
  const facts =
    `Latest ${latest.to - latest.from + 1} days (${spanText(latest.from, latest.to)}, ${count(latest.n, 'reading')}): mean ${now}, ` +
    `${percentText(latest.percentInTarget)} % from ${targetText(targetLow, targetHigh, unit)}, ` +
    `${count(latest.readingsBelow70, 'reading')} below ${limitText(LIMITS.low, unit)}; before: mean ${then}, ${percentText(before.percentInTarget)} %.`
  if (before.changedSince === null) return `${facts} No clear change in the mean.`
  return `${facts} The mean has gone from about ${then} to about ${now} since about ${dayText(before.changedSince, years)}.`
}

/** Said where what was felt moved a figure by more than it is known to. */
function unpromptedSentence(
  { prompted, n, meanMgDl: mean, percentInTarget }: Unprompted,
  { unit, targetLow, targetHigh }: Pick<Settings, 'unit' | 'targetLow' | 'targetHigh'>,
): string {
  return (
    `${count(prompted, 'test')} ${prompted === 1 ? 'seems' : 'seem'} to have been made because something was felt (going by a note, the hour, or a low in the hour before). ` +
    `The other ${n}: mean ${glucoseText(mean, unit)}, ${percentText(percentInTarget)} % from ${targetText(targetLow, targetHigh, unit)}. Every low still counts.`
  )
}

/** 'Bag meter has been in use since 12 April and reads 8 % higher than kitchen meter (12 pairs; could be +5 % to +11 %): ...' */
export function newMeterSentence(
  { differencePercent, ci95Percent, pairs, since, meter, other }: NewMeterTold,
  years: Years,
): string {
  return (
    `${capitalised(meter)} has been in use since ${dayText(since, years)} and reads ${percentText(Math.abs(differencePercent))} % ` +
    `${differencePercent < 0 ? 'lower' : 'higher'} than ${other} (${count(pairs, 'pair')}; could be ${limitsText(ci95Percent)}): ` +
    'a change from then on may come from the meter.'
  )
}

/** No meter shows one value again and again: nothing of such a log says how well a figure is known. */
function allTheSameSentence(n: number): string {
  return `All ${n} readings have the same value, which no meter shows again and again: find out how they came into the log before reading anything into these figures.`
}
