import { type Readings, valueIn } from '../../log/readings'
import type { FaultClassName } from '../../technique/notes/classes'
import type { FailedControl } from '../../technique/reasons/failedControl'
import type { FasterThanGlucoseChanges } from '../../technique/reasons/fasterThanGlucoseChanges'
import type { ReasonCode } from '../../technique/reasons/reasonTable'
import type { StripOutOfDate } from '../../technique/reasons/stripOutOfDate'
import type { UnlikeNeighbours } from '../../technique/reasons/unlikeNeighbours'
import type { ContradictionTold, ReasonTold } from '../../told/reasons'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { capitalised } from '../phrases'
import { dayText, durationText } from './dates'
import { count, glucoseText, inWords, rangeText, readingText } from './numbers'

/** Why a reading is doubted, in a few plain sentences, values in `unit`. */
export function reasonsText(reasons: readonly ReasonTold[], readings: Readings, unit: GlucoseUnit): string {
  return reasons.map((reason) => reasonText(reason, readings, unit)).join(' ')
}

/** What the short forms of `briefReasonsText` mean; stands once above the readings. */
export const BRIEF_REASONS =
  '‘Allowed’: by the meter standard between two good tests. ‘Usual then’: going by the other readings.'

/** The same in fewer words, for readings under one another. */
export function briefReasonsText(
  reasons: readonly ReasonTold[],
  readings: Readings,
  unit: GlucoseUnit,
): string {
  return reasons.map((reason) => briefReasonText(reason, readings, unit)).join(' ')
}

function briefReasonText(reason: ReasonTold, readings: Readings, unit: GlucoseUnit): string {
  if (reason.code === 'contradicted-by-repeat') return contradictedText(reason, readings, unit, true)
  if (reason.code !== 'unlike-neighbours') return reasonText(reason, readings, unit)
  return `Usual then: ${usualText(reason.evidence, unit)}.`
}

/** One reason. */
export function reasonText(reason: ReasonTold, readings: Readings, unit: GlucoseUnit): string {
  switch (reason.code) {
    case 'fits-badly':
      return 'The tests around it fit it badly, though none contradicts it outright.'
    case 'contradicted-by-repeat':
      return contradictedText(reason, readings, unit)
    case 'faster-than-glucose-changes':
      return fasterText(reason.evidence, readings, unit)
    case 'unlike-neighbours':
      return `Going by the other readings, ${usualText(reason.evidence, unit)} would be usual at this time.`
    case 'note-tells-of-technique': {
      const { word, class: fault } = reason.evidence
      return `Its note mentions ${FAULT_WORDS[fault]}${word === '' ? '' : ` (‘${word}’)`}.`
    }
    case 'strip-out-of-date':
      return outOfDateText(reason.evidence)
    case 'failed-control':
      return failedControlText(reason.evidence, unit)
    case 'outside-working-temperature': {
      const { celsius, lowest, highest } = reason.evidence
      return `Its note mentions ${degrees(celsius)}; meter and strips work from ${degrees(lowest)} to ${degrees(highest)}.`
    }
    case 'control-solution-noted':
      return 'Its note calls it a test of control solution, not of blood.'
    case 'control-solution-value': {
      const [low, high] = reason.rangeMgDl.map((mgDl) => glucoseText(mgDl, unit))
      return `It has exactly the value of that day’s control test (range ${rangeText(low, high)}): it may be that test, not one of blood.`
    }
    case 'looks-like-other-unit': {
      const { asOtherUnitMgDl, usualLowMgDl, usualHighMgDl } = reason.evidence
      const usual = rangeText(glucoseText(usualLowMgDl, unit), glucoseText(usualHighMgDl, unit))
      return (
        `Taken as ${reason.other} it would be ${glucoseText(asOtherUnitMgDl, unit)} ${unit}, within the usual ${usual}; ` +
        'as logged it is far from them.'
      )
    }
    case 'at-measuring-limit':
      return reason.evidence.side === 'above'
        ? 'It is at the upper limit of what a meter shows: the true value may be beyond it.'
        : 'It is at the lower limit of what a meter shows: the true value may be below it.'
  }
}

/** Short names of the reasons, to be read after a number of readings. */
export const REASON_WORDS: Readonly<Record<ReasonCode, string>> = {
  'contradicted-by-repeat': 'contradicted by a repeat',
  'faster-than-glucose-changes': 'reached faster than glucose changes',
  'unlike-neighbours': 'unlike nearby tests',
  'note-tells-of-technique': 'with a note on technique',
  'strip-out-of-date': 'with strips past their date',
  'failed-control': 'around a failed control',
  'at-measuring-limit': 'at the meter’s limit',
  'outside-working-temperature': 'outside the working temperature',
  'looks-like-control-solution': 'like control solution',
  'looks-like-other-unit': 'like a value in the other unit',
}

/** The mistakes of technique, to be read after 'mentions'. */
export const FAULT_WORDS: Readonly<Record<FaultClassName, string>> = {
  'sugar-on-finger': 'food or sugar on the finger',
  'unwashed-hands': 'hands not washed',
  'lotion-on-skin': 'cream or lotion on the skin',
  'wet-finger': 'a wet finger',
  'alcohol-wet': 'a finger wet with alcohol',
  'alcohol-wipe-only': 'a finger wiped with alcohol',
  'small-drop': 'too small a drop',
  'squeezed-finger': 'a squeezed finger',
  'cold-hands': 'cold hands',
  'expired-strip': 'a strip past its date',
  'shallow-prick': 'too shallow a prick',
  'cold-meter': 'a cold meter or strip',
  'hot-meter': 'a hot meter or strip',
}

function usualText(
  { expectedLowMgDl, expectedHighMgDl }: UnlikeNeighbours['evidence'],
  unit: GlucoseUnit,
): string {
  return rangeText(glucoseText(expectedLowMgDl, unit), glucoseText(expectedHighMgDl, unit))
}

function contradictedText(
  { first, second, other, minutes, allowedMgDl, afterLow, counted, ofTwoMeters, atLeast }: ContradictionTold,
  readings: Readings,
  unit: GlucoseUnit,
  brief = false,
): string {
  const printed = (index: number) => readingText(readings, index, unit)
  const sequence = `${printed(first)}, then ${printed(second)} ${waitText(minutes)}`
  const by = `${atLeast ? 'at least ' : ''}${distanceText(readings, first, second, unit)}`
  const allowed = `±${glucoseText(allowedMgDl, unit)}`
  const full = `differ by ${by}. The meter standard would allow ${allowed} here.`
  const [alone, following] = brief
    ? [`${capitalised(by)} apart, ${allowed} allowed.`, `${by} apart, ${allowed} allowed.`]
    : [`They ${full}`, `they ${full}`]
  const meters = ofTwoMeters ? ['The two tests were made on two meters.'] : []
  if (counted === 'both') {
    return [
      `${sequence}.`,
      'Both tests are low, so it was low either way; only how low is in doubt.',
      'Both are counted as lows.',
      alone,
      ...meters,
    ].join(' ')
  }
  const countedTold = counted === null ? [] : [COUNTED[counted](printed(other))]
  const sentences = afterLow
    ? [
        `${sequence}.`,
        'They cannot both be right.',
        `If sugar was eaten or touched in between, the ${printed(second)} may be the wrong one.`,
        ...countedTold,
        alone,
      ]
    : [`${sequence}: ${following}`]
  return [...sentences, ...meters, ...(afterLow ? [] : countedTold)].join(' ')
}

const COUNTED: Readonly<Record<'this' | 'other', (other: string) => string>> = {
  this: () => 'Counted as a low.',
  other: (other) => `The ${other} is counted as a low.`,
}

function fasterText(
  { other, minutes, ratePerMinute, fastestPerMinute }: FasterThanGlucoseChanges['evidence'],
  readings: Readings,
  unit: GlucoseUnit,
): string {
  const rate = (perMinute: number) => fixed(fromMgDl(perMinute, unit), unit === 'mg/dL' ? 0 : 1)
  const when = minutes < 0 ? 'before' : 'after'
  return (
    `The test ${durationText(Math.abs(minutes))} ${when} it read ${readingText(readings, other, unit)}: glucose would have ` +
    `changed by ${rate(ratePerMinute)} ${unit} a minute, even after allowing for the scatter of both tests; more than ` +
    `${rate(fastestPerMinute)} is hardly ever seen.`
  )
}

function outOfDateText({ limit, goodUntil, daysPast, lot }: StripOutOfDate['evidence']): string {
  const strips = lot === null ? 'The strips in use' : `The strips of lot ${lot}`
  const until = `${dayText(goodUntil, 'with-year')}, ${count(daysPast, 'day')} before`
  return limit === 'expiry'
    ? `${strips} were good until ${until}.`
    : `${strips}, once open, were good until ${until}.`
}

function failedControlText(
  { failedOn, passedOn, side, resultMgDl, rangeLowMgDl, rangeHighMgDl }: FailedControl['evidence'],
  unit: GlucoseUnit,
): string {
  const range = rangeText(glucoseText(rangeLowMgDl, unit), glucoseText(rangeHighMgDl, unit))
  const passed =
    passedOn === null
      ? 'No control before it is known to have passed.'
      : `The last before it that passed was on ${dayText(passedOn, 'with-year')}.`
  return (
    `The control test of ${dayText(failedOn, 'with-year')} gave ${glucoseText(resultMgDl, unit)}, ${SIDE_WORDS[side]} ${range}, ` +
    `the range printed with the strips. ${passed}`
  )
}

const SIDE_WORDS = { 'too-high': 'above', 'too-low': 'below' } as const

export function degrees(celsius: number): string {
  return `${fixed(celsius).replace('-', '−')} °C`
}

function waitText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole === 0) return 'within the same minute'
  return `${inWords(whole)} ${whole === 1 ? 'minute' : 'minutes'} later`
}

/** How far two tests lie apart, as the printed values differ. */
function distanceText(readings: Readings, first: number, second: number, unit: GlucoseUnit): string {
  const decimals = glucoseDecimals(unit)
  const printed = (i: number) => Number(fixed(valueIn(readings, i, unit), decimals))
  return fixed(Math.abs(printed(second) - printed(first)), decimals)
}
