import type { PeriodFigures } from '../../analysis/analysis'
import type { NotCountedWhy } from '../../day/lows'
import type { Readings } from '../../log/readings'
import { LIMITS } from '../../reference/limits'
import { RECHECK_AFTER_MINUTES } from '../../reference/afterLow'
import { NEAR_LOW_UP_TO } from '../../reference/nearLow'
import { MEASURING_RANGE_MG_DL, METER_STANDARD } from '../../reference/meter'
import type { GlucoseUnit } from '../../units/glucose'
import type { LowEvent } from '../../told/lowEvents'
import type { LowRemark, LowsCounted, NotCountedTold } from '../../told/lows'
import type { NightsCounted } from '../../told/nights'
import { capitalised } from '../phrases'
import { durationText } from './dates'
import { hoursText } from './day'
import { count, glucoseText, inWords, limitText, listed, readingText } from './numbers'
import { REASON_WORDS } from './reasons'
import { BRACKET, ERRS, marksSentences } from './stretches'

export const PEN_LINE =
  'To fill in: lows that needed another person’s help since the last visit: ______   ' +
  'I usually feel a low at: ______   Glucagon at home: yes / no'

/** '7 readings below 70, on 4 days; 3 below 54. Every one counts as real. One is marked ‘?’.' */
export function lowsHeadline(
  { below70, below54, days, marked, bracketed, confirmed }: LowsCounted,
  unit: GlucoseUnit,
): string {
  if (below70 === 0) return 'No low was recorded. That does not show that there were none.'
  const [low, veryLow] = [limitText(LIMITS.low, unit), limitText(LIMITS.veryLow, unit)]
  return [
    `${count(below70, 'reading')} below ${low}, on ${count(days, 'day')}; ${below54 === 0 ? 'none' : below54} below ${veryLow}.`,
    below70 === 1 ? 'It counts as real.' : 'Every one counts as real.',
    ...marksSentences(marked, bracketed),
    ...(confirmed === 0 ? [] : [confirmedSentence(confirmed)]),
  ].join(' ')
}

/** Of doubtful lows that stand beside another low. */
export const confirmedSentence = (n: number) =>
  n === 1
    ? 'One of the doubtful ones stands beside another low: low either way, and only how low is in doubt.'
    : `${capitalised(inWords(n))} of the doubtful ones stand beside another low: low either way, and only how low is in doubt.`
/** Where lows are listed. */
export const AFTER_A_LOW =
  'After a low: treat it first, as your own plan says. Wash your hands, then recheck after ' +
  `${RECHECK_AFTER_MINUTES} minutes. Your care team’s plan comes first.`
/** Of one doubtful low beside another, and in a few words. */
export const CONFIRMED_LOW = 'Low either way: another low stands beside it, and only how low is in doubt.'
export const CONFIRMED = 'low either way'

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
    `${count(daysWithReadings, 'day')} with readings: a low that is tested again counts more than once in a share of readings.`
  )
}

/** What the list of lows cannot show. */
export function lowRemarkSentence(remark: LowRemark, unit: GlucoseUnit): string {
  switch (remark.code) {
    case 'bracketed': {
      const causes = remark.causes.map((cause) => REASON_WORDS[cause])
      const within = `Bracket ‘${BRACKET}’: ${count(remark.n, 'low')} ${listed(causes)}.`
      return [within, ...remark.errs.map((errs) => ERRS[errs])].join(' ')
    }
    case 'further': {
      const { shown, behind, of } = remark
      const all = behind < of ? `the ${behind} lowest of ${of}` : 'all'
      return `The ${inWords(shown)} lowest are shown here; ${all} are listed on a later page.`
    }
    case 'no-times':
      return 'Many readings have a date but no time: how many nights were tested is not known.'
    case 'nights':
      return nightsSentence(remark)
    case 'not-followed':
      return remark.of === 1
        ? 'After the low there was no test for three hours.'
        : `After ${remark.n} of ${remark.of} lows there was no test for three hours.`
    case 'below-meters': {
      const lowest = glucoseText(MEASURING_RANGE_MG_DL.lowest, unit)
      return (
        `${count(remark.n, 'low')} ${remark.n === 1 ? 'is' : 'are'} below ${lowest} ${unit}, where meters show LO: ` +
        'check whether the log is in the other unit, or in both.'
      )
    }
    case 'near': {
      const { n, further } = remark
      const low = limitText(LIMITS.low, unit)
      const upper = limitText(NEAR_LOW_UP_TO, unit)
      const allowed = `${glucoseText(METER_STANDARD.belowMgDl, unit)} ${unit}`
      return (
        `${count(n, further ? 'further reading' : 'reading')} ${n === 1 ? 'lies' : 'lie'} between ${low} and ${upper}: ` +
        `a meter within its standard (±${allowed}) could show that when the true value is below ${low}.`
      )
    }
    case 'not-counted':
      return notCountedSentence(remark.groups)
    case 'own-readings':
      return 'Read from a table that this program wrote: possible lows that were not counted then are not in it.'
  }
}

function nightsSentence({ tested, nights, withLows, hardly, unseen }: NightsCounted): string {
  const hours = hardly.map(
    ({ hours: [from, to], most }) => `${hoursText(from, to)} on ${most === 0 ? 'none' : `${most} at most`}`,
  )
  return [
    nights === 1 && tested === 0
      ? 'The night (00–06) was not tested.'
      : `Night (00–06) was tested on ${tested === 0 ? 'none' : tested} of ${count(nights, 'night')}${withLows === 0 ? '' : `, with lows on ${withLows === tested && tested > 1 ? 'all' : withLows} of them`}.`,
    ...(hours.length === 0 ? [] : [`Tested less often: ${listed(hours)}.`]),
    ...UNSEEN[unseen],
  ].join(' ')
}

const UNSEEN: Readonly<Record<NightsCounted['unseen'], readonly string[]>> = {
  nowhere: [],
  there: ['Lows in those hours would not show.'],
  'on-others': ['Lows on the others would not show.'],
  then: ['Lows then would not show.'],
  'then-and-on-others': ['Lows then and on the other nights would not show.'],
}

/** Above the lowest of more lows than are shown at once in the window. */
export const lowestText = (shown: number) => `The ${inWords(shown)} lowest, in order of time:`

/** Why nothing is told of how a low ended. */
export const NO_RECOVERY_SEEN = 'no reading of 70 or more followed within four hours'

/** Why a low is in no count, to be read after a number: '2 without a usable date'. */
export const NOT_COUNTED_WORDS: Readonly<Record<NotCountedWhy, string>> = {
  'outside-period': 'outside the days of this report',
  control: 'tagged as control solution',
  date: 'without a usable date',
  cells: 'in a row with too few or too many cells',
  unreadable: 'in a cell that cannot be read',
  'no-reading': 'in a row marked as not a reading',
  'set-aside': 'in a row set aside',
}

/** Possible lows that are in no count, by reason. */
export function notCountedSentence(groups: readonly NotCountedTold[]): string {
  const reasons = groups.map(({ why, n, lines }) => {
    const where = lines.map(
      ({ source, line, row }) => `log ${source + 1} line ${line}${row === undefined ? '' : `: ‘${row}’`}`,
    )
    return `${n} ${NOT_COUNTED_WORDS[why]}${where.length === 0 ? '' : ` (${listed(where)})`}`
  })
  return `Not counted, but possibly low: ${reasons.join('; ')}.`
}

/** 'within 4 min; next test 109 after 40 min'. `minutes`: of the tests that are told as one, null of a single one. */
export function afterLowText(
  { minutes, next }: Pick<LowEvent, 'minutes' | 'next'>,
  readings: Readings,
  unit: GlucoseUnit,
): string {
  const within = minutes === null ? '' : `within ${durationText(minutes)}; `
  if (next === 'no-times') return `${within}no time in the log`
  if (next === 'log-ends') return `${within}the log ends here`
  return `${within}next test ${readingText(readings, next.index, unit)} after ${durationText(next.minutes)}`
}
