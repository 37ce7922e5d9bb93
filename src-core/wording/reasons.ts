import type { SetAsideReason } from '../log/logReport'
import { isLow, isMarker, type Readings, valueIn } from '../log/readings'
import type { ContradictedByRepeat, DoubtReason } from '../technique/technique'
import type { GlucoseUnit } from '../units/glucose'
import { fixed } from '../units/rounding'
import { clock } from '../units/wallClock'
import { glucoseDecimals, glucoseText, inWords, readingText } from './numbers'

/** Why a reading is doubted, in a few plain sentences, values in `unit`. */
export function reasonsText(
  reasons: readonly DoubtReason[],
  readings: Readings,
  index: number,
  unit: GlucoseUnit,
): string {
  if (reasons.length === 0)
    return 'The tests within minutes of it fit it badly, though none contradicts it outright.'
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
  }
}

function contradictedText(
  evidence: ContradictedByRepeat['evidence'],
  readings: Readings,
  index: number,
  unit: GlucoseUnit,
): string {
  const { other, minutes } = evidence
  const low = isLow(readings, index)
  if (low && minutes >= 0 && evidence.otherMgDl > readings.mgDl[index]) {
    return `${recheckText(readings, index, other, minutes, unit)} Counted as a low.`
  }
  if (!low && minutes <= 0 && isLow(readings, other)) {
    const lowText = readingText(readings, other, unit)
    return `${recheckText(readings, other, index, -minutes, unit)} The ${lowText} is counted as a low.`
  }
  const sentence =
    `The test at ${clock(readings.at[other])} read ${readingText(readings, other, unit)}: ` +
    `${differenceText(readings, index, other, unit)}. ` +
    `Within what the meter standard allows would be ±${glucoseText(evidence.allowedMgDl, unit)} here.`
  return low ? `${sentence} Counted as a low.` : sentence
}

/** A low and a later, higher test that contradicts it: the later one may carry sugar. */
function recheckText(
  readings: Readings,
  low: number,
  recheck: number,
  minutes: number,
  unit: GlucoseUnit,
): string {
  const later = readingText(readings, recheck, unit)
  return (
    `${readingText(readings, low, unit)}, then ${later} ${waitText(minutes)}. They cannot both be right. ` +
    `If sugar was eaten or touched in between, the ${later} may be the wrong one.`
  )
}

function waitText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole === 0) return 'within the same minute'
  return `${inWords(whole)} ${whole === 1 ? 'minute' : 'minutes'} later`
}

/** '146 lower': how far the other test lies off, as the printed values differ. */
function differenceText(readings: Readings, index: number, other: number, unit: GlucoseUnit): string {
  const decimals = glucoseDecimals(unit)
  const printed = (i: number) => Number(fixed(valueIn(readings, i, unit), decimals))
  const difference = printed(other) - printed(index)
  const size = fixed(Math.abs(difference), decimals)
  const atLimit = isMarker(readings, index) || isMarker(readings, other)
  return `${atLimit ? 'at least ' : ''}${size} ${difference < 0 ? 'lower' : 'higher'}`
}

/** Why a low is in no count, to be read after a number: '2 without a usable date'. */
export function lowNotCountedText(reason: SetAsideReason | 'outside-period'): string {
  switch (reason) {
    case 'outside-period':
      return 'outside the days of this report'
    case 'control-solution':
      return 'tagged as control solution'
    case 'empty-date':
    case 'unreadable-date':
    case 'future-date':
    case 'clock-reset':
      return 'without a usable date'
    case 'ragged-row':
      return 'in a row with too few or too many cells'
    case 'not-glucose':
    case 'unreadable-value':
      return 'in a cell that cannot be read'
    case 'empty-value':
    case 'impossible-value':
    case 'duplicate':
    case 'repeated-header':
    case 'footer':
      return 'in a row set aside'
  }
}
