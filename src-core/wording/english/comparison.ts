import type { LowsChange, LowsOfPeriod } from '../../compare/lowsOfTwo'
import type { Lows } from '../../day/lows'
import { LIMITS } from '../../reference/limits'
import type { DaySpan } from '../../log/readings'
import type { ToldLimits } from '../../told/limits'
import type { Naming } from '../../told/measures'
import type {
  BlockTold,
  Caution,
  ChangeTold,
  ClearRow,
  ClearTold,
  Standardised,
  TwoPeriodsTold,
} from '../../told/twoPeriods'
import type { GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { newMeterSentence } from './besideNumbers'
import { gapText, spanText } from './dates'
import { decimalsOf, heldBackText, inUnit, targetText } from './figures'
import type { Definition } from './method'
import { count, differenceText, glucoseText, limitText, listed, NO_NUMBER, percentText } from './numbers'
import type { Years } from '../../told/years'

export const TWO_PERIODS_TITLE = 'Two periods'
export const asLoggedTitle = (unit: GlucoseUnit) => `as logged, ${unit}`
export const CHANGE_TITLE = 'change, earlier to later'
export const blockChangesTitle = (unit: GlucoseUnit) =>
  `Change by part of the day: mean in ${unit} (readings)`
export const BLOCK_TITLES = { hours: 'hours', change: 'change' } as const
export const SAME_TIMES_LABEL = 'Mean at the same times of day'
export const SAME_MEALS_LABEL = 'Mean before and after the same meals'

/** A figure as printed: '144', '8.0', '32 %'. */
export function measuredText(
  value: number | null,
  { quantity }: Pick<ChangeTold, 'quantity'>,
  unit: GlucoseUnit,
): string {
  if (value === null) return NO_NUMBER
  return quantity === 'glucose' ? glucoseText(value, unit) : `${percentText(value)} %`
}

const SAID: Readonly<Record<ChangeTold['said'], string>> = {
  higher: 'Higher',
  lower: 'Lower',
  unclear: 'No clear change',
  withheld: 'No verdict',
  'not-with-all-rows': 'Not clear among all rows',
}

/** 'No clear change: +8, could be −5 to +21'; 'Lower: −21, could be −30 to −12'; 'No verdict: −26, could be ...'. */
export function changeText(
  { earlier, later, ci95, said, moreDecimals, quantity }: Omit<ChangeTold, 'of' | 'heldBack'>,
  unit: GlucoseUnit,
): string {
  if (earlier === null || later === null) return 'too few readings'
  const points = quantity === 'glucose' ? '' : ' points'
  const printed = (value: number) =>
    fixed(inUnit(value, quantity, unit), decimalsOf(quantity, unit) + moreDecimals)
  const signed = (value: number) => differenceText(printed(0), printed(value))
  // Of the two printed numbers, so that a row adds up.
  const difference =
    moreDecimals > 0 ? signed(later - earlier) : differenceText(printed(earlier), printed(later))
  if (ci95 === null) return `${difference}${points}; too few days to rule out chance`
  return `${SAID[said]}: ${difference}${points}, could be ${signed(ci95[0])} to ${signed(ci95[1])}`
}

/** '1–30 April', with the year where dates need it. */
export function periodName({ from, to }: DaySpan, years: Years): string {
  return gapText(from, to, years)
}

export interface PeriodExtent extends DaySpan {
  readonly n: number
  readonly days: number
  readonly daysWithReadings: number
}

/** What the page sets side by side, the earlier period first. */
export function twoPeriodsIntroduction(earlier: PeriodExtent, later: PeriodExtent): string {
  const extent = (period: PeriodExtent) =>
    `${spanText(period.from, period.to)} (${count(period.n, 'reading')} on ${period.daysWithReadings} of ${count(period.days, 'day')})`
  return (
    `${extent(earlier)} and ${extent(later)}, as logged, doubtful readings included. A change runs from the earlier period ` +
    'to the later; ‘could be’ is its 95 % interval. A change may have any cause: treatment, season, meters, or the hours of testing.'
  )
}

/** What must be known before any verdict of the two periods of these names. */
export function cautionSentence(caution: Caution, [earlier, later]: readonly string[], years: Years): string {
  switch (caution.code) {
    case 'new-meter':
      return newMeterSentence(caution.found, years)
    case 'habit': {
      const [before, after] = caution.afterMealPercent.map(percentText)
      const told = {
        meals: `of the readings tagged with a meal, ${before} % were after it in ${earlier} and ${after} % in ${later}`,
        hours: 'the tests were made at different hours of the day',
        'within-blocks': 'within the same three hours the tests were made at different times or meals',
        'within-meals': 'the tests before or after meals were made at different times',
        'times-unknown':
          'many readings have no time of day, so whether the same hours were tested is not known',
      } as const
      const reasons = caution.changes.map((change) => told[change])
      return `Before any verdict: ${reasons.join('; ')}. That alone can move these figures, so none of them is called higher or lower.`
    }
    case 'meter-mix': {
      const parts = caution.moved.map(({ meter, earlierPercent, laterPercent }, i) => {
        const [a, b] = [percentText(earlierPercent), percentText(laterPercent)]
        return i === 0
          ? `${meter} gave ${a} % of the readings of ${earlier} and ${b} % of those of ${later}`
          : `${meter} ${a} % and ${b} %`
      })
      return `Before any verdict: ${listed(parts)}. Two meters seldom read alike, so a change may come from the meters.`
    }
    case 'shared-days': {
      const { from, to } = caution.shared
      return `The two periods share ${count(to - from + 1, 'day')} (${gapText(from, to, years)}), which ${from === to ? 'counts' : 'count'} in both: this blurs any change between them.`
    }
    case 'few-days':
      return `One of the periods has fewer than ${caution.fewest} days with readings, so no interval is given and nothing is called higher or lower.`
  }
}

/** The names of the means at one mix of hours or meals. */
export const STANDARDISED_LABELS: Readonly<Record<Standardised, string>> = {
  sameTimes: SAME_TIMES_LABEL,
  sameMeals: SAME_MEALS_LABEL,
}

/** What the row of means at the same meals rests on, or why there is none; null where the logs tell no meals. */
export function sameMealsSentence(limits: ToldLimits, none: TwoPeriodsTold['noSameMeals']): string | null {
  switch (none) {
    case 'no-tags':
      return null
    case 'few-tags':
      return `${SAME_MEALS_LABEL}: none, because fewer than ${limits.fewestTaggedPercent} % of the readings of a period are tagged with a meal.`
    case 'few-cells':
      return `${SAME_MEALS_LABEL}: none, because fewer than ${limits.fewestBlocks} parts of the day have five readings before, or after, a meal in both periods.`
    case null:
      return `${SAME_MEALS_LABEL}: as if both periods had been tested at the same hours, and equally often before and after meals.`
  }
}

/** What the row of means at the same times of day rests on, or why there is none. */
export function sameTimesSentence(limits: ToldLimits, hours: readonly string[] | null): string {
  if (hours === null) {
    return `${SAME_TIMES_LABEL}: none, because fewer than ${limits.fewestBlocks} blocks of three hours have five readings in both periods. The means above may differ because different hours were tested.`
  }
  return (
    `${SAME_TIMES_LABEL}: as if both periods had been tested in the same mix of hours (${listed(hours)}). ` +
    'Where this change differs from that of the mean, part of the change comes from the hours of testing.'
  )
}

/** Under the table of blocks: how the change of each was judged. */
export const blockChangesNote = (limits: ToldLimits) =>
  'Means of blocks with five readings or more in both periods. A block is called higher or lower where so large a change ' +
  'would seldom come about by chance (by days, corrected for looking at all blocks); otherwise there is no clear change. ' +
  `No verdict where the share of tests after meals changed by more than ${limits.movedPoints} in 100, or the middle time of testing by more than ${limits.movedMinutes} minutes.`

/** A block's verdict, of the later period. */
export const BLOCK_SAID: Readonly<Record<BlockTold['said'], string>> = {
  higher: SAID.higher,
  lower: SAID.lower,
  unclear: SAID.unclear,
  'mix-moved': 'No verdict: tested at different times or meals',
  'few-days': 'Too few days to rule out chance',
}

/** The row of lows in the table. */
export const lowsLabel = (unit: GlucoseUnit) => `Lows, readings below ${limitText(LIMITS.low, unit)}`

/** '7 in 5 episodes, on 4 days (nights tested: 3 of 30)'. */
export function lowsCountText({
  readingsBelow70,
  episodes,
  daysWithLows,
  nightsTested,
  nights,
}: Pick<Lows, 'readingsBelow70' | 'episodes' | 'daysWithLows' | 'nightsTested' | 'nights'>): string {
  const spells = episodes.length === 0 ? '' : ` in ${count(episodes.length, 'episode')}`
  const on = readingsBelow70 === 0 ? '' : `${spells}, on ${count(daysWithLows, 'day')}`
  return `${readingsBelow70}${on} (nights tested: ${nightsTested} of ${nights})`
}

/** 'Side by side with 1 to 30 April 2026 (2 lows): page', before the page's number. */
export function besideText({ from, to }: DaySpan, lows: number): string {
  return `Side by side with ${spanText(from, to)} (${lows === 0 ? 'no low recorded' : count(lows, 'low')}): page`
}

const LOWS_DIFFER = { more: 'More', fewer: 'Fewer', same: 'As many' } as const

/** 'More lows in ... than in ...': a finding only where the share is clear, else what was counted. */
function lowsSaid(
  { said, by, standing }: LowsChange,
  [earlier, later]: readonly string[],
  unit: GlucoseUnit,
) {
  if (said === 'too-few-days')
    return `Lows in ${later} and in ${earlier}, with too few days to call them fewer`
  if (said === 'times-unknown') {
    return `Lows in ${later} and in ${earlier}, not called fewer, since the log does not tell which nights were tested`
  }
  const which = { count: '', 'very-low': ` below ${limitText(LIMITS.veryLow, unit)}`, 'a-day': ' a day' }[by]
  const counted = standing === 'clear' ? '' : ' counted'
  return `${LOWS_DIFFER[said]} lows${which}${counted} in ${later} ${said === 'same' ? 'as' : 'than'} in ${earlier}`
}

const LOWS_STANDING: Readonly<Record<LowsChange['standing'], string>> = {
  clear: '',
  chance: ' Chance may explain it.',
  tests: ' Other hours or meals of tests may explain it.',
  mixed: '',
}
const LOWS_CAUTIONS: Readonly<Record<NonNullable<LowsChange['caution']>, string>> = {
  'fewer-tests': ' Fewer tests were made, too: untested hours show no lows.',
  'untested-hours': ' Untested hours show no lows.',
  'more-tests': ' More tests find more lows; every one counts.',
}

/** 'More lows in 1–31 May than in 1–30 April: 7 readings below 70 on 5 of 31 days with tests (6 episodes, 1 below 54); before ...' */
export function lowsChangeSentence(
  change: LowsChange,
  names: readonly string[],
  unit: GlucoseUnit,
  withWhy = true,
): string {
  const { earlier, later, none, said, standing, caution } = change
  const [earlierName, laterName] = names
  const aDay = `Tests: ${fixed(later.readingsPerDay, 1)} a day, ${fixed(earlier.readingsPerDay, 1)} before.`
  const nights = `Nights tested: ${later.nightsTested} of ${later.nights}, ${earlier.nightsTested} of ${earlier.nights} before.`
  // Fewer lows, as many or none mean little without the nights.
  const withNights = said !== 'more' && earlier.timesKnown && later.timesKnown
  const tests = withNights ? `${aDay} ${nights}` : aDay
  if (none) {
    return `No low was recorded in ${earlierName} or ${laterName}. That does not show that there were none. ${tests}`
  }
  const told = (period: LowsOfPeriod, readings: string, days: string) =>
    period.readingsBelow70 === 0
      ? `none on ${count(period.daysWithReadings, 'day')} with tests`
      : `${readings} on ${period.daysWithLows} of ${days} (` +
        `${count(period.episodes, 'episode')}, ${period.readingsBelow54 === 0 ? 'none' : period.readingsBelow54} below ${limitText(LIMITS.veryLow, unit)})`
  const now = told(
    later,
    `${count(later.readingsBelow70, 'reading')} below ${limitText(LIMITS.low, unit)}`,
    `${count(later.daysWithReadings, 'day')} with tests`,
  )
  const before = told(earlier, String(earlier.readingsBelow70), count(earlier.daysWithReadings, 'day'))
  const why = withWhy && (said === 'more' || said === 'fewer') ? LOWS_STANDING[standing] : ''
  const counts = why !== '' && said === 'more' && caution === null ? ' Every one counts.' : ''
  return (
    `${lowsSaid(change, names, unit)}: ${now}; before, ${before}.${why}${counts} ` +
    `${tests}${caution === null ? '' : LOWS_CAUTIONS[caution]}`
  )
}

/** The change of the count, for its cell: 'More: +5'. */
export function lowsChangeText({ earlier, later, said, by }: LowsChange, unit: GlucoseUnit): string {
  if (said === 'too-few-days') return 'Too few days; see above'
  if (said === 'times-unknown') return 'Nights not known; see above'
  if (by === 'a-day') return `${LOWS_DIFFER[said]} a day with tests; see above`
  const of = (period: LowsOfPeriod) =>
    String(by === 'very-low' ? period.readingsBelow54 : period.readingsBelow70)
  const which = by === 'very-low' ? ` below ${limitText(LIMITS.veryLow, unit)}` : ''
  return `${LOWS_DIFFER[said]}${which}: ${differenceText(of(earlier), of(later))}; see above`
}

/** Names within a sentence. */
const WITHIN: Readonly<Record<ClearRow, (naming: Naming) => string>> = {
  meanMgDl: () => 'the mean',
  sameTimes: () => 'the mean at the same times of day',
  sameMeals: () => 'the mean before and after the same meals',
  medianMgDl: () => 'the median',
  sdMgDl: () => 'the SD',
  cvPercent: () => 'the coefficient of variation',
  spread: () => 'the spread',
  percentBelow54: ({ unit }) => `the share below ${limitText(LIMITS.veryLow, unit)}`,
  percentBelow70: ({ unit }) => `the share below ${limitText(LIMITS.low, unit)}`,
  percentInTarget: ({ targetLow, targetHigh, unit }) =>
    `the share from ${targetText(targetLow, targetHigh, unit)}`,
  percentAbove180: ({ unit }) => `the share above ${limitText(LIMITS.high, unit)}`,
  percentAbove250: ({ unit }) => `the share above ${limitText(LIMITS.veryHigh, unit)}`,
}

/** 'Clear: the mean is lower by 17 mg/dL, the share from 70 to 180 higher by 11 points. Not clear: the spread.' */
export function clearSentence(
  { clear, notClear, rowsStandOut, noVerdict }: ClearTold,
  naming: Naming,
): string {
  if (clear.length === 0 && notClear.length === 0) {
    return noVerdict === null ? 'No verdict.' : `No verdict: ${NO_VERDICT[noVerdict]}.`
  }
  const others = noVerdict === null ? '' : ` No verdict on the other figures: ${NO_VERDICT[noVerdict]}.`
  if (clear.length === 0) {
    return rowsStandOut
      ? `Nothing is clear: single figures would stand out, but all together show no more than chance would.${others}`
      : `Nothing is clear: each of these changes could be chance.${others}`
  }
  const changes = clear.map(
    ({ row, alike }, i) =>
      `${WITHIN[row.of](naming)} ${i === 0 ? 'is ' : ''}${row.said} by ${changedBy(row, naming.unit)}${alikeText(alike)}`,
  )
  const rest = notClear.length === 0 ? '' : ` Not clear: ${listed(notClear.map((of) => WITHIN[of](naming)))}.`
  return `Clear: ${changes.join(', ')}.${rest}${others}`
}

/** Beside the mean, where the means at one mix of hours or meals say the same. */
function alikeText(alike: readonly Standardised[]): string {
  if (alike.length === 0) return ''
  if (alike.length > 1) return ' (also at the same times and meals)'
  return alike[0] === 'sameTimes' ? ' (also at the same times of day)' : ' (also at the same meals)'
}

const NO_VERDICT: Readonly<Record<NonNullable<ClearTold['noVerdict']>, string>> = {
  habit: 'tests were made at other times or meals, and that alone can move figures',
  'few-days': 'a period has too few days with readings',
  'held-back': 'a period has too few readings, or too many without a number',
}

/** '17 mg/dL', '11 points': as the printed figures differ. */
function changedBy({ earlier, later, quantity, moreDecimals }: ChangeTold, unit: GlucoseUnit): string {
  const [a, b] = [earlier ?? 0, later ?? 0].map((value) => inUnit(value, quantity, unit))
  const decimals = decimalsOf(quantity, unit) + moreDecimals
  const ofPrinted = moreDecimals > 0 ? 0 : Math.abs(Number(fixed(b, decimals)) - Number(fixed(a, decimals)))
  const by = fixed(ofPrinted > 0 ? ofPrinted : Math.abs(b - a), decimals)
  if (quantity === 'glucose') return `${by} ${unit}`
  return by === '1' ? '1 point' : `${by} points`
}

/** Under the table of measures: each interval stands alone. */
export function manyRowsSentence({ together }: Pick<TwoPeriodsTold, 'together'>): string {
  const rule =
    'Among so many rows one may look clear by chance: a row is called higher or lower only where all rows together show more than chance would.'
  if (together === null) return rule
  return `${rule} ${together.clear ? 'Here they do.' : 'Here they do not.'}`
}

/** Under the picture where readings are too many to draw. */
export const LOWS_ALONE_NOTE =
  'With so many readings, only the lows are drawn one by one; the rest are shown as medians and middle halves.'

/** How the comparison was made, for the page of definitions. */
export function comparisonDefinitions(limits: ToldLimits): readonly Definition[] {
  return [
    {
      figure: 'Change between periods',
      how:
        'Interval by days, from how well each figure is known: means, SD and CV from the root of the sum of both squared errors, with Student’s t; ' +
        'shares from the Wilson limits of both; medians from the limits of each. Clear where the interval leaves out 0 and all rows ' +
        'together show more than chance (p of 0.1 or less over all rows, by Simes). No verdict ' +
        'where tests moved to other hours, or between before and after meals, so far that the change could come from that alone ' +
        '(our own limits, tried on simulated logs).',
      source:
        'Welch, Biometrika 1947;34:28. Satterthwaite, Biometrics 1946;2:110. Newcombe, Stat Med 1998;17:873. Woodruff, JASA 1952;47:635. Simes, Biometrika 1986;73:751',
    },
    {
      figure: 'Same times of day, same meals',
      how:
        'Means of the blocks of three hours with five readings or more in both periods, weighted by both periods’ readings ' +
        'together (direct standardisation); at the same meals, of the blocks’ tests before meals, after meals and others apart.',
      source: 'Kitagawa, J Am Stat Assoc 1955;50:1168',
    },
    {
      figure: 'Change by block',
      how:
        `Two-sided t test by days with readings in the block, eight or more; of the changes named at most ${percentText(limits.falseDiscoveryPercent)} in 100 ` +
        'are expected to be chance. Only blocks tested alike are judged.',
      source: 'Benjamini and Hochberg, J R Stat Soc B 1995;57:289',
    },
  ]
}

/** The picture of two periods in words, from the blocks of both. */
export function twoPeriodsDescription(
  shapes: readonly {
    readonly name: string
    readonly sign: string
    readonly medians: readonly string[]
    readonly lows: number
  }[],
  unit: GlucoseUnit,
): string {
  const parts = shapes.map(
    ({ name, sign, medians, lows }) =>
      `${name}, ${sign}: ${medians.length > 0 ? `medians ${medians.join('; ')}` : 'no block of three hours has enough readings for a median'}; ${lows === 0 ? 'no lows' : count(lows, 'low')}.`,
  )
  return `Readings of two periods by time of day, in ${unit}. ${parts.join(' ')}`
}

/** The terminal's lines, the verdicts as from the earlier period to the later. */
export function comparisonLines(
  { earlier, later, lows, cautions, means, clear }: TwoPeriodsTold,
  naming: Naming,
): readonly string[] {
  const { unit } = naming
  const names = [periodName(earlier, 'with-year'), periodName(later, 'with-year')]
  return [
    lowsChangeSentence(lows, names, unit),
    ...cautions.map((caution) => cautionSentence(caution, names, 'with-year')),
    clearSentence(clear, naming),
    ...means.map((row) => meanLine(row, names, unit)),
  ]
}

function meanLine(row: ChangeTold | null, names: readonly string[], unit: GlucoseUnit): string {
  if (row === null) return 'At the same times of day: too few hours tested in both periods to say.'
  const against = `${names[1]} against ${names[0]}, mean`
  if (row.heldBack !== null) return `${against} ${heldBackText(row.heldBack)}.`
  const [earlier, later] = [row.earlier, row.later].map((value) => measuredText(value, row, unit))
  const change = `${earlier} → ${later} ${unit}. ${changeText(row, unit)}`
  if (row.of === 'sameTimes') return `At the same times of day: ${change}`
  return row.of === 'sameMeals' ? `Before and after the same meals: ${change}` : `${against} ${change}`
}
