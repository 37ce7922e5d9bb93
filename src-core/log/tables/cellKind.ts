import { NO_DAY, readMoment, readTimeCell, withoutZoneName } from '../dateCell'
import { isAboutValue, readGlucose, unitIn } from '../glucoseCell'
import { plainDigits } from '../words/plain'

/** What one cell looks like by itself. */
export type CellKind = 'blank' | 'day' | 'moment' | 'time' | 'number' | 'marker' | 'unit' | 'text'

/** Longer cells are texts. */
const LONGEST_VALUE = 60
/** '[mg/dL]' is a unit, 'Glucose mg/dL' a name. */
const LONGEST_UNIT = 9
const CLOCK =
  /\d\s?([:時时h]\s?\d|uhr\b|uur\b|[ap]\.?\s?m\.?\b|\p{L}{1,8}\.?\s?\d{1,2}(?:\s?\p{L}{1,9})?\.?$)|^\d{3,4}\s?h(?:rs?|ours)?\.?$/iu
const NUMBER = /^[<>≤≥~≈]?\s?[+-]?\d/

/** A text without a unit of glucose, the words for 'in' and the brackets about it. */
export function withoutUnit(text: string): string {
  return text
    .replace(
      /(?:mmoll?|ммоль?|毫摩尔?)(?:\s?\/?\s?(?:l|л|升))?|(?:mg|мг|毫克)(?:\s?\/?\s?(?:dl|дл|分升|100 ?ml))?|per|pr/giu,
      '',
    )
    .replace(/\b(?:in|en|em|i|w|v|per|pr|l|dl)\b/gi, '')
}

/** Whether no word stands beside a unit but one for 'in': short words of some scripts are names of columns. */
function isUnitAlone(text: string): boolean {
  return !/\p{L}/u.test(withoutUnit(text))
}

/** What a cell looks like by itself; a column tells more ('7.30' may be half past seven, '46200' a day). */
export function cellKind(cell: string): CellKind {
  const text = withoutZoneName(cell.trim())
  if (text === '') return 'blank'
  if (text.length > LONGEST_VALUE) return 'text'
  const digits = plainDigits(text)
  if (!/\d/.test(digits)) {
    if (readGlucose(digits).kind === 'marker') return 'marker'
    return digits.length <= LONGEST_UNIT && unitIn(digits) !== null && isUnitAlone(digits) ? 'unit' : 'text'
  }
  if (/^\d{1,4}([.,]\d{1,2})?$/.test(digits)) return 'number'
  if (NO_DAY.test(digits) && typeof readTimeCell(digits) === 'object') return 'time'
  const moment = readMoment(digits)
  if (moment !== null && moment.day.kind !== 'missing') {
    return moment.time === null && moment.day.kind !== 'instant' ? 'day' : 'moment'
  }
  if (CLOCK.test(digits) && typeof readTimeCell(digits) === 'object') return 'time'
  const value = readGlucose(digits)
  if (value.kind === 'number' && value.remark === '' && (NUMBER.test(digits) || isAboutValue(digits)))
    return 'number'
  if (value.kind === 'marker') return 'marker'
  return 'text'
}
