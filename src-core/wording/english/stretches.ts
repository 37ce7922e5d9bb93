import type { Readings } from '../../log/readings'
import type { FaultDirection } from '../../technique/notes/classes'
import type { EquipmentStretch } from '../../technique/equipmentStretches'
import type { GlucoseUnit } from '../../units/glucose'
import type { StretchTold } from '../../told/stretches'
import { dayText, spanText } from './dates'
import { REASON_WORDS } from './doubt'
import { count, inWords, listed, rangeText } from './numbers'
import { degrees, reasonsText } from './reasons'
import type { Years } from '../../told/years'

/** Stands at what lies within a stretch that is told once, where no bracket is drawn. */
export const BRACKET = '['

/** '72 readings of meter A, 3 March to 20 March'. */
export function stretchTitle({ indexes, meters, from, to }: StretchTold, years: Years): string {
  const days = from === to ? dayText(from, years) : `${dayText(from, years)} to ${dayText(to, years)}`
  return `${count(indexes.length, 'reading')} of ${listed(meters)}, ${days}`
}

/** '72 readings of meter A with strips past their date, 3 to 20 March 2026'. */
export function causeText({ indexes, meters, reasons, from, to }: StretchTold): string {
  const [{ code }] = reasons
  return `${count(indexes.length, 'reading')} of ${listed(meters)} ${REASON_WORDS[code]}, ${spanText(from, to)}`
}

/** 'The meter may read high: a low may be lower still.' */
export function directionText({ direction, reasons: [{ code }] }: EquipmentStretch): string {
  if (code === 'outside-working-temperature' && direction !== null) return TEMPERATURE_WORDS[direction]
  return direction === null ? NO_DIRECTION : METER_WORDS[direction]
}

export const METER_WORDS: Readonly<Record<FaultDirection, string>> = {
  'too-high': 'The meter may read high: a low may be lower still.',
  'too-low': 'The meter may read low: a high may be higher still. A low counts all the same.',
  either: 'One control was too high, one too low: the meter may err either way. A low counts all the same.',
}
const TEMPERATURE_WORDS: Readonly<Record<FaultDirection, string>> = {
  'too-high': 'Some meters then read too high: a low may be lower still.',
  'too-low': 'Some meters then read too low: a high may be higher still. A low counts all the same.',
  either: 'Which way a meter then errs cannot be foretold. A low counts all the same.',
}
const NO_DIRECTION = 'Which way such strips err cannot be foretold. A low counts all the same.'

/** What speaks against the readings of a stretch, each control once. */
export function stretchReasonsText(
  { reasons, indexes }: EquipmentStretch,
  readings: Readings,
  unit: GlucoseUnit,
): string {
  const told = reasons.flatMap(({ code, evidence }) =>
    code === 'outside-working-temperature' ? [evidence] : [],
  )
  if (told.length === 0) return reasonsText(reasons, readings, indexes[0], unit)
  const [{ lowest, highest }] = told
  const celsius = told.map((evidence) => evidence.celsius)
  const all = rangeText(degrees(Math.min(...celsius)), degrees(Math.max(...celsius)))
  return `Their notes mention ${all}; meter and strips work from ${degrees(lowest)} to ${degrees(highest)}.`
}

/** What a stretch is and which way it errs: '15 readings of meter A around a failed control, ... The meter may read high: ...' */
export function stretchText(stretch: StretchTold): string {
  return `${causeText(stretch)}. ${directionText(stretch)}`
}

/** The same of each, with the bracket of those that stand in place of marks. */
export function stretchesTexts(stretches: readonly StretchTold[]): readonly string[] {
  return stretches.map((stretch) =>
    stretch.toldOnce ? `${stretchText(stretch)} ${TOLD_ONCE}` : stretchText(stretch),
  )
}

const TOLD_ONCE = `Shown once, with a bracket over these days or a ‘${BRACKET}’, not with a ‘?’ at each.`

/** Of lows within such stretches; null where there are none. */
export function bracketedLowsSentence(lows: number, stretches: readonly EquipmentStretch[]): string | null {
  if (lows === 0) return null
  const causes = [...new Set(stretches.map(({ reasons: [{ code }] }) => REASON_WORDS[code]))]
  const within = `Bracket ‘${BRACKET}’: ${count(lows, 'low')} ${listed(causes)}.`
  return [within, ...new Set(stretches.map(directionText))].join(' ')
}

/** Beside a table of days in which those of such stretches have a bracket; '' without any. */
export function bracketedDaysSentence(stretches: readonly StretchTold[]): string {
  if (stretches.length === 0) return ''
  return ` Bracket ‘${BRACKET}’: days with readings that one fault makes doubtful. ${stretches.map(stretchText).join(' ')}`
}

/** 'three marked ‘?’', 'two within a bracket', 'three marked ‘?’ and the two within a bracket'; '' of none. */
export function marksText(
  marked: number,
  bracketed: number,
  number: (n: number) => string = (n) => (n === 1 ? 'one' : inWords(n)),
): string {
  return [
    ...(marked > 0 ? [`${number(marked)} marked ‘?’`] : []),
    ...(bracketed > 0 ? [`${number(bracketed)} within a bracket`] : []),
  ].join(' and the ')
}
