import type { Readings } from '../../log/readings'
import type { GlucoseUnit } from '../../units/glucose'
import type { Errs, StretchTold } from '../../told/stretches'
import { capitalised } from '../phrases'
import { dayText, spanText } from './dates'
import { count, inWords, listed, rangeText } from './numbers'
import { degrees, REASON_WORDS, reasonsText } from './reasons'
import type { Years } from '../../told/years'

/** Stands at what lies within a stretch that is told once, where no bracket is drawn. */
export const BRACKET = '['

/** '72 readings from meter A, 3 March to 20 March'. */
export function stretchTitle({ indexes, meters, from, to }: StretchTold, years: Years): string {
  const days = from === to ? dayText(from, years) : `${dayText(from, years)} to ${dayText(to, years)}`
  return `${count(indexes.length, 'reading')} from ${listed(meters)}, ${days}`
}

/** '72 readings from meter A with strips past their date, 3 to 20 March 2026'. */
function causeText({ indexes, meters, cause, from, to }: StretchTold): string {
  return `${count(indexes.length, 'reading')} from ${listed(meters)} ${REASON_WORDS[cause]}, ${spanText(from, to)}`
}

/** Which way the readings of a stretch err. */
export const ERRS: Readonly<Record<Errs, string>> = {
  'control-too-high': 'The meter may read high: a low may be lower still.',
  'control-too-low': 'The meter may read low: a high may be higher still. A low counts all the same.',
  'control-either':
    'One control was too high, one too low: the meter may read too high or too low. A low counts all the same.',
  'temperature-too-high': 'Some meters then read too high: a low may be lower still.',
  'temperature-too-low':
    'Some meters then read too low: a high may be higher still. A low counts all the same.',
  'temperature-either': 'A meter may then read too high or too low. A low counts all the same.',
  unknown: 'Such strips may read too high or too low. A low counts all the same.',
}

/** What speaks against the readings of a stretch, each control once. */
export function stretchReasonsText(
  { celsius, reasonsTold }: StretchTold,
  readings: Readings,
  unit: GlucoseUnit,
): string {
  if (celsius === null) return reasonsText(reasonsTold, readings, unit)
  const [all, ofUse] = [celsius.told.map(degrees), celsius.ofUse.map(degrees)]
  return `Their notes mention ${rangeText(all[0], all[1])}; meter and strips work from ${ofUse[0]} to ${ofUse[1]}.`
}

/** What a stretch is and which way it errs: '15 readings of meter A around a failed control, ... The meter may read high: ...' */
export function stretchText(stretch: StretchTold): string {
  return `${causeText(stretch)}. ${ERRS[stretch.errs]}`
}

/** The same of each, with the bracket of those that stand in place of marks. */
export function stretchesTexts(stretches: readonly StretchTold[]): readonly string[] {
  return stretches.map((stretch) =>
    stretch.toldOnce ? `${stretchText(stretch)} ${TOLD_ONCE}` : stretchText(stretch),
  )
}

const TOLD_ONCE = `Shown once, with a bracket over these days or a ‘${BRACKET}’, not with a ‘?’ at each.`

/** Beside a table of days in which those of such stretches have a bracket; '' without any. */
export function bracketedDaysSentence(stretches: readonly StretchTold[]): string {
  if (stretches.length === 0) return ''
  return ` Bracket ‘${BRACKET}’: days with readings that one fault makes doubtful. ${stretches.map(stretchText).join(' ')}`
}

/** 'Three are marked ‘?’.' and 'Two lie within a bracket.', of each what there is. */
export function marksSentences(marked: number, bracketed: number): readonly string[] {
  return [
    ...(marked > 0 ? [`${capitalised(inWords(marked))} ${marked === 1 ? 'is' : 'are'} marked ‘?’.`] : []),
    ...(bracketed > 0
      ? [`${capitalised(inWords(bracketed))} ${bracketed === 1 ? 'lies' : 'lie'} within a bracket.`]
      : []),
  ]
}
