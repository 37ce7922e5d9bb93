import type { GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import type { Readings } from '../../log/readings'
import type { ClocksTold, MeterPairTold } from '../../told/meters'
import type { RegressionLine } from '../../statistics/passingBablok'
import { count, glucoseText, NO_NUMBER, percentText, rangeText, readingText } from './numbers'
import { capitalised } from '../phrases'

export const NO_REFERENCE =
  'Tests on two meters at most ten minutes apart, as logged, doubtful ones included; each counts once for each pair of meters. ' +
  'Two home meters have no reference between them: this shows how far they differ, not which of them is nearer to the ' +
  'truth. Only a laboratory sample taken at the same time could tell that.'

/** '+6 %', '−3 %': how much higher the first meter reads. */
export function signedPercent(percent: number): string {
  const text = percentText(Math.abs(percent))
  if (text === '0') return '0 %'
  return `${percent < 0 ? '−' : '+'}${text} %`
}

/** '−8 % to +20 %'; 'too few pairs' where there are no limits. */
export function limitsText(limits: readonly [number, number] | null): string {
  return limits === null ? NO_NUMBER : `${signedPercent(limits[0])} to ${signedPercent(limits[1])}`
}

/** '31 of 34'. */
export function within15Text({ count: within, n }: { readonly count: number; readonly n: number }): string {
  return `${within} of ${n}`
}

/** What the pairs of two meters show, or where they are few the pairs alone. */
export function pairSentence(
  pair: MeterPairTold,
  meterNames: readonly string[],
  readings: Readings,
  unit: GlucoseUnit,
): string {
  const [first, second] = [meterNames[pair.first], meterNames[pair.second]]
  if (pair.few) {
    const shown = pair.pairs.map((two) =>
      two.map((index) => readingText(readings, index, unit)).join(' and '),
    )
    return `${capitalised(first)} and ${second}: ${shown.join('; ')}. Too few pairs to say how the meters differ.`
  }
  const difference = differenceBetweenMetersSentence(first, second, pair)
  return pair.line === null
    ? difference
    : `${difference} ${lineSentence(first, second, pair.byLine, pair.line, unit)}`
}

/** 'Where meter A shows 100, meter B shows 94 (91–97); where it shows 200, ...' */
function lineSentence(
  first: string,
  second: string,
  byLine: MeterPairTold['byLine'],
  { slope, slopeCi95: [lower, upper] }: RegressionLine,
  unit: GlucoseUnit,
): string {
  const [low, high] = byLine.map(({ firstMgDl, secondMgDl }) => ({
    shown: glucoseText(firstMgDl, unit),
    other: glucoseText(secondMgDl, unit),
  }))
  return (
    `Line through these pairs: where ${first} shows ${low.shown}, ${second} shows about ${low.other}; where it shows ` +
    `${high.shown}, about ${high.other} (slope ${fixed(slope, 2)}, could be ${rangeText(fixed(lower, 2), fixed(upper, 2))}).`
  )
}

/** 'Meter A read 6 % lower than meter B on average (34 pairs, 2 of them with a step of a technique trial).' */
function differenceBetweenMetersSentence(
  first: string,
  second: string,
  { reads, meanDifferencePercent, meanCi95Percent, pairs, withTrialSteps }: MeterPairTold,
): string {
  const words =
    reads === 'alike'
      ? `${capitalised(first)} and ${second} read alike on average`
      : `${capitalised(first)} read ${percentText(Math.abs(meanDifferencePercent))} % ${reads} than ${second} on average`
  const steps =
    withTrialSteps === 0
      ? ''
      : `, ${withTrialSteps} of them with a changed step of a technique trial, which says little about the meters`
  const known = meanCi95Percent === null ? '' : `; could be ${limitsText(meanCi95Percent)}`
  return `${words} (${count(pairs.length, 'pair')}${steps}${known}).`
}

/** Two clocks that seem to differ, and what to compare. */
export function clockOffsetSentence(
  { ahead: first, behind: second, minutes, pairs, justSo }: ClocksTold,
  meterNames: readonly string[],
): string {
  const [ahead, behind] = [meterNames[first], meterNames[second]]
  return (
    `The clock of ${ahead} seems ${count(minutes, 'minute')} ahead of that of ${behind}: ${justSo} of ${pairs} ` +
    'nearest tests that agree are just that far apart. Repeats on the two may then look like changes in glucose. ' +
    `Please compare: ${ahead} shows ______, ${behind} shows ______, true time ______.`
  )
}
