import type { PeriodFigures } from '../../analysis/analysis'
import type { LowNotCounted, NotCountedWhy } from '../../day/lows'
import { LIMITS } from '../../reference/limits'
import { NEAR_LOW_UP_TO } from '../../reference/nearLow'
import { MEASURING_RANGE_MG_DL, METER_STANDARD } from '../../reference/meter'
import type { GlucoseUnit } from '../../units/glucose'
import type { NightsTold } from '../../told/nights'
import { durationText } from './dates'
import { hoursText } from './day'
import { count, glucoseText, inWords, limitText, listed } from './numbers'
import { type Phrase, strong } from '../phrases'
import { marksText } from './stretches'

export const NO_LOW_SENTENCE = 'No low was recorded. That does not show that there were none.'

export const PEN_LINE =
  'For the pen: lows that needed another person’s help since the last visit: ______   ' +
  'I usually feel a low at: ______   Glucagon at home: yes / no'

/** 'Below 70', in the printed unit. */
export function belowLowText(unit: GlucoseUnit): string {
  return `below ${limitText(LIMITS.low, unit)}`
}

/** '7 readings below 70, on 4 days; 3 below 54. Every one counts as real, also the one marked ‘?’.' */
export function lowsHeadline(
  lows: {
    readonly below70: number
    readonly below54: number
    readonly days: number
    /** Of them so many carry a mark of doubt, and so many lie in a stretch that is told once. */
    readonly marked: number
    readonly bracketed: number
  },
  unit: GlucoseUnit,
): readonly Phrase[] {
  if (lows.below70 === 0) return [strong('No low was recorded.'), ' That does not show that there were none.']
  const marks = marksText(lows.marked, lows.bracketed)
  const marked = marks === '' ? '' : `, also the ${marks}`
  const counts = lows.below70 === 1 ? 'It counts as real' : 'Every one counts as real'
  return [
    strong(`${count(lows.below70, 'reading')} ${belowLowText(unit)}`),
    `, on ${count(lows.days, 'day')}; `,
    strong(`${lows.below54 === 0 ? 'none' : lows.below54} below ${limitText(LIMITS.veryLow, unit)}`),
    `. ${counts}${marked}.`,
  ]
}

/** Beside shares of readings that are low: a low that is tested again counts twice there. */
export function lowsBehindShareSentence({
  lows,
  daysWithReadings,
}: Pick<PeriodFigures, 'lows' | 'daysWithReadings'>): string {
  const { readingsBelow70, daysWithLows, episodes } = lows
  if (readingsBelow70 === 0) return 'No low was recorded.'
  const spells = episodes.length === 0 ? '' : `${count(episodes.length, 'episode')}, `
  return (
    `The ${count(readingsBelow70, 'low reading')} belong${readingsBelow70 === 1 ? 's' : ''} to ${spells}on ${daysWithLows} of ` +
    `${count(daysWithReadings, 'day')} with readings: a low that is tested again weighs more in a share of readings.`
  )
}

/** How many nights were tested in which hours, and what that hides; `told` is null where the log gives no times. */
export function nightsSentence(told: NightsTold | null): string {
  if (told === null) return 'The log gives days without times: how many nights were tested is not known.'
  const { tested, nights, hardly } = told
  const first =
    nights === 1 && tested === 0
      ? 'The night (00–06) was not tested'
      : `Night (00–06) was tested on ${tested === 0 ? 'none' : tested} of ${count(nights, 'night')}`
  if (hardly.length > 0) {
    const hours = hardly.map(
      ({ hours: [from, to], most }) => `${hoursText(from, to)} on ${most === 0 ? 'none' : `${most} at most`}`,
    )
    return `${first}, but ${listed(hours)}; lows then${tested < nights ? ' and on the other nights' : ''} would not show.`
  }
  if (tested === nights) return `${first}.`
  return tested === 0
    ? `${first}; lows there would not show.`
    : `${first}; lows on the others would not show.`
}

/** Readings just above the limit, or null where there are none. */
export function nearLowsSentence(n: number, lows: number, unit: GlucoseUnit): string | null {
  if (n === 0) return null
  const low = limitText(LIMITS.low, unit)
  const upper = limitText(NEAR_LOW_UP_TO, unit)
  const allowed = `${glucoseText(METER_STANDARD.belowMgDl, unit)} ${unit}`
  return (
    `${count(n, lows > 0 ? 'further reading' : 'reading')} ${n === 1 ? 'lies' : 'lie'} between ${low} and ${upper}: ` +
    `a meter within its standard (${allowed}) could show that with a true value below ${low}.`
  )
}

/** Values that no meter shows as a number: in the other unit they would be usual. Null where there are none. */
export function belowMetersSentence(n: number, unit: GlucoseUnit): string | null {
  if (n === 0) return null
  const lowest = glucoseText(MEASURING_RANGE_MG_DL.lowest, unit)
  return (
    `${count(n, 'low')} ${n === 1 ? 'is' : 'are'} below ${lowest} ${unit}, where meters show LO: ` +
    'look whether the log is in the other unit, or in both.'
  )
}

/** 'After 2 of 9 lows no test for three hours.', or null where each was followed by one. */
export function notFollowedSentence(notFollowed: number, lows: number): string | null {
  if (notFollowed === 0) return null
  if (lows === 1) return 'After the low no test for three hours.'
  return `After ${notFollowed} of ${lows} lows no test for three hours.`
}

/** More lows than have room on the page; so many of all `events`, a set of repeats being one, stand behind. */
export function furtherLowsSentence(shown: number, listedBehind: number, events: number): string {
  const behind = listedBehind < events ? `the ${listedBehind} lowest of ${events}` : 'all'
  return `The ${inWords(shown)} lowest stand here, ${behind} are listed behind.`
}

/** Above the lowest of more lows than are shown at once in the window. */
export const lowestText = (shown: number) => `The ${inWords(shown)} lowest, in order of time:`

const MOST_LINES_NAMED = 3

/** Why nothing is told of how a low ended. */
export const NO_RECOVERY_SEEN = 'no reading that is no low followed within four hours'

/** Why a low is in no count, to be read after a number: '2 without a usable date'. */
export const NOT_COUNTED_WORDS: Readonly<Record<NotCountedWhy, string>> = {
  'outside-period': 'outside the days of this report',
  control: 'tagged as control solution',
  date: 'without a usable date',
  cells: 'in a row with too few or too many cells',
  unreadable: 'in a cell that cannot be read',
  'no-reading': 'in a row that is marked as no reading',
  'set-aside': 'in a row set aside',
}

/** Possible lows that are in no count, by reason, or null where there are none. */
export function notCountedSentence(rows: readonly LowNotCounted[]): string | null {
  if (rows.length === 0) return null
  const reasons = [...new Set(rows.map((row) => row.why))].map((why) => {
    const group = rows.filter((row) => row.why === why)
    const where = group.map((row) => `log ${row.source + 1} line ${row.line}`)
    const named = where.length <= MOST_LINES_NAMED ? ` (${listed(where)})` : ''
    return `${group.length} ${NOT_COUNTED_WORDS[why]}${named}`
  })
  return `Not counted, but possibly low: ${reasons.join('; ')}.`
}

/** 'within 4 min; next test 109 after 40 min'. `minutes`: of the tests that are told as one, null of a single one. */
export function afterLowText(
  minutes: number | null,
  next: 'no-times' | 'log-ends' | { readonly value: string; readonly minutes: number },
): string {
  const within = minutes === null ? '' : `within ${durationText(minutes)}; `
  if (next === 'no-times') return `${within}no time in the log`
  if (next === 'log-ends') return `${within}the log ends here`
  return `${within}next test ${next.value} after ${durationText(next.minutes)}`
}
