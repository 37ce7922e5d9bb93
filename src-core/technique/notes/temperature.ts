import { clausesOf } from './clauses'

/** '5 °C', '-2C', '41 °F': a number, then its unit. */
const DEGREES =
  /(?<![\d.,:])([-−]?\d{1,3}(?:[.,]\d)?)\s{0,2}(?:(?:°|º)\s{0,2}([CFcf])|([CF]))(?![\p{L}\p{N}])/u
/** The unit, then the number, as a column's name and its cell: 'Temperature (°C) 5'. */
const COLUMN =
  /temperatu?r\p{L}{0,2}\s{0,2}[([]?\s{0,2}(?:°|º)?\s{0,2}([CF])\s{0,2}[)\]]?\s{0,2}([-−]?\d{1,3}(?:[.,]\d)?)/iu
const WORDS_OF_DEGREES = /^(c|f|o|at|bei|temp|temperatur\p{L}*|\p{N}+)$/u

/** A body has such a temperature, °C. */
const MAY_BE_FEVER = { from: 34, to: 43 } as const

/**
 * The temperature of meter or strips, °C, that a note tells; null where it tells none, or may tell that of the body or
 * of the weather.
 */
export function temperatureIn(note: string): number | null {
  const text = note.replace(/℃/g, '°C').replace(/℉/g, '°F')
  const column = COLUMN.exec(text)
  const degrees = column ? null : DEGREES.exec(text)
  if (column === null && degrees === null) return null
  const [number, unit] = column
    ? [column[2], column[1]]
    : [(degrees as RegExpExecArray)[1], (degrees as RegExpExecArray)[2] ?? (degrees as RegExpExecArray)[3]]
  const value = Number(number.replace('−', '-').replace(',', '.'))
  const celsius = unit.toUpperCase() === 'F' ? ((value - 32) * 5) / 9 : value
  const words = clausesOf(text).flat()
  if (words.some(({ concepts }) => concepts.has('fever'))) return null
  if (words.some(({ concepts }) => concepts.has('meter') || concepts.has('strip'))) return celsius
  const alone = column !== null || words.every(({ text: word }) => WORDS_OF_DEGREES.test(word))
  const fever = celsius >= MAY_BE_FEVER.from && celsius <= MAY_BE_FEVER.to
  return alone && !fever ? celsius : null
}
