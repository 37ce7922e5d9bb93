import { isLow, isMarker, loggedUnit, type Readings, valueIn } from '../../log/readings'
import { isTyped } from '../../log/typedByHand'
import type { FaultClassName } from '../../technique/notes/classes'
import type {
  ContradictedByRepeat,
  DoubtReason,
  FailedControl,
  FasterThanGlucoseChanges,
  LooksLikeControlSolution,
  LooksLikeOtherUnit,
  StripOutOfDate,
} from '../../technique/technique'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { dayText, durationText } from './dates'
import { count, glucoseText, inWords, rangeText, readingText } from './numbers'

/** Why a reading is doubted, in a few plain sentences, values in `unit`. */
export function reasonsText(
  reasons: readonly DoubtReason[],
  readings: Readings,
  index: number,
  unit: GlucoseUnit,
): string {
  if (reasons.length === 0) return 'The tests around it fit it badly, though none contradicts it outright.'
  return reasons.map((reason) => reasonText(reason, readings, index, unit)).join(' ')
}

/** One reason. */
export function reasonText(
  reason: DoubtReason,
  readings: Readings,
  index: number,
  unit: GlucoseUnit,
): string {
  switch (reason.code) {
    case 'contradicted-by-repeat':
      return contradictedText(reason.evidence, readings, index, unit)
    case 'faster-than-glucose-changes':
      return fasterText(reason.evidence, readings, unit)
    case 'unlike-neighbours': {
      const { expectedLowMgDl, expectedHighMgDl } = reason.evidence
      const range = rangeText(glucoseText(expectedLowMgDl, unit), glucoseText(expectedHighMgDl, unit))
      return `Going by the other readings, ${range} would be usual at this time.`
    }
    case 'note-tells-of-technique': {
      const { word, class: fault } = reason.evidence
      return `Its note mentions ${FAULT_WORDS[fault]} (‘${word}’).`
    }
    case 'strip-out-of-date':
      return outOfDateText(reason.evidence)
    case 'failed-control':
      return failedControlText(reason.evidence, unit)
    case 'outside-working-temperature': {
      const { celsius, lowest, highest } = reason.evidence
      return `Its note mentions ${degrees(celsius)}; meter and strips work from ${degrees(lowest)} to ${degrees(highest)}.`
    }
    case 'looks-like-control-solution':
      return controlSolutionText(reason.evidence, unit)
    case 'looks-like-other-unit':
      return otherUnitText(reason.evidence, readings, index, unit)
    case 'at-measuring-limit':
      return reason.evidence.side === 'above'
        ? 'It stands at the upper limit of what a meter shows: the true value may lie beyond it.'
        : 'It stands at the lower limit of what a meter shows: the true value may lie below it.'
  }
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

function contradictedText(
  evidence: ContradictedByRepeat['evidence'],
  readings: Readings,
  index: number,
  unit: GlucoseUnit,
): string {
  const { other, minutes } = evidence
  const low = isLow(readings, index)
  const otherIsLow = isLow(readings, other)
  const [first, second] = minutes < 0 ? [other, index] : [index, other]
  const sequence = `${readingText(readings, first, unit)}, then ${readingText(readings, second, unit)} ${waitText(
    Math.abs(minutes),
  )}`
  const differ = (they: 'They' | 'they') =>
    `${they} differ by ${differenceText(readings, index, other, unit)}. ` +
    `The meter standard would allow ±${glucoseText(evidence.allowedMgDl, unit)} here.` +
    (readings.meter[index] === readings.meter[other] || isTyped(readings, index) || isTyped(readings, other)
      ? ''
      : ' The two tests are of two meters.')
  if (isLow(readings, first) && readings.mgDl[second] > readings.mgDl[first]) {
    // The later test may carry sugar that the low was treated with.
    const later = readingText(readings, second, unit)
    const counted =
      low && otherIsLow
        ? 'Both are counted as lows.'
        : low
          ? 'Counted as a low.'
          : `The ${readingText(readings, other, unit)} is counted as a low.`
    return (
      `${sequence}. They cannot both be right. If sugar was eaten or touched in between, the ${later} may be the ` +
      `wrong one. ${counted} ${differ('They')}`
    )
  }
  const sentence = `${sequence}: ${differ('they')}`
  if (low) return `${sentence} Counted as a low.`
  return otherIsLow ? `${sentence} The ${readingText(readings, other, unit)} is counted as a low.` : sentence
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

function controlSolutionText(
  { tagged, rangeLowMgDl, rangeHighMgDl }: LooksLikeControlSolution['evidence'],
  unit: GlucoseUnit,
): string {
  if (tagged || rangeLowMgDl === undefined || rangeHighMgDl === undefined)
    return 'Its note calls it a test of control solution, not of blood.'
  const range = rangeText(glucoseText(rangeLowMgDl, unit), glucoseText(rangeHighMgDl, unit))
  return `It has the very value of that day’s control test (range ${range}): it may be that test, not one of blood.`
}

function otherUnitText(
  { asOtherUnitMgDl, usualLowMgDl, usualHighMgDl }: LooksLikeOtherUnit['evidence'],
  readings: Readings,
  index: number,
  unit: GlucoseUnit,
): string {
  const other: GlucoseUnit = loggedUnit(readings, index) === 'mg/dL' ? 'mmol/L' : 'mg/dL'
  const usual = rangeText(glucoseText(usualLowMgDl, unit), glucoseText(usualHighMgDl, unit))
  return (
    `Taken as ${other} it would be ${glucoseText(asOtherUnitMgDl, unit)} ${unit}, among the usual ${usual}; ` +
    'as logged it is far from them.'
  )
}

export function degrees(celsius: number): string {
  return `${fixed(celsius).replace('-', '−')} °C`
}

function waitText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole === 0) return 'within the same minute'
  return `${inWords(whole)} ${whole === 1 ? 'minute' : 'minutes'} later`
}

/** How far two tests lie apart, as the printed values differ. */
function differenceText(readings: Readings, index: number, other: number, unit: GlucoseUnit): string {
  const decimals = glucoseDecimals(unit)
  const printed = (i: number) => Number(fixed(valueIn(readings, i, unit), decimals))
  const size = fixed(Math.abs(printed(other) - printed(index)), decimals)
  return `${isMarker(readings, index) || isMarker(readings, other) ? 'at least ' : ''}${size}`
}
