import type { GlucoseUnit } from '../units/glucose'
import { LIMITS } from '../reference/limits'
import { MEASURING_RANGE_MG_DL } from '../reference/meter'
import { isRemark, limitSide, markerSide } from './words/markers'
import { plain, plainDigits } from './words/plain'

/** What a glucose cell holds. Numbers are as written, in the unit that the cell or the column says. */
export type GlucoseCell =
  | { readonly kind: 'empty' }
  | {
      readonly kind: 'unreadable'
      /** Whether it may tell of a low all the same. */
      readonly mayBeLow: boolean
    }
  | {
      readonly kind: 'number'
      readonly value: number
      /** How many digits follow the decimal mark; 3 may be a thousands separator instead. */
      readonly decimals: number
      readonly unit: GlucoseUnit | null
      /** Words that stand in the cell after the number. */
      readonly remark: string
      /** Digits behind the decimal mark of a value that was written in g/L; absent where it was not. */
      readonly gramDecimals?: number
    }
  | {
      readonly kind: 'marker'
      readonly side: 'above' | 'below'
      /** The limit printed with the marker, if any. */
      readonly limit: number | null
      readonly unit: GlucoseUnit | null
    }

const UNIT_AT_END =
  /\s*((?:mg|мг)\s?(?:\/|per|pr)?\s?(?:dl|дл|%)|(?:mmol|ммоль)\s?(?:\/|per|pr)?\s?(?:l|л)?|g\s?\/\s?l|毫摩尔?\s?\/\s?升|毫克\s?\/\s?分升)\.?$/i
const GRAMS_PER_LITRE = /\bg\s?\/\s?l\b/i
/** 1 g/L is 100 mg/dL, by the meaning of the prefixes. */
export const MG_DL_IN_ONE_G_L = 100
const NUMBER = /^([+-]?)(\d+)(?:[.,](\d+))?$/
const NUMBER_WITH_GROUPS = /^[+-]?\d{1,3}(?:([.,' ])\d{3})+(?:[.,]\d+)?$/
const LIMIT = /^(>|<|≥|≤|>=|<=)\s?(\d+(?:[.,]\d+)?)$/
const WORD_AND_LIMIT = /^(\p{L}+)\s*\(\s*([<>≤≥]=?\s?\d+(?:[.,]\d+)?)\s*\)$/u
const LIMIT_IN_WORDS = /^(\D+?)\s*(\d+(?:[.,]\d+)?)$/
/** Signs by which a person marks a value that surprised: '64*', '~64', '(64)', '64?'. */
const MARKS = /^[~≈*(\s]*(\d+(?:[.,]\d+)?)[)\s]*[*?!]*$/
const VALUE_AND_REMARK = /^(\d+(?:[.,]\d+)?)[\s,;:(]+(.+)$/
/** Longer cells are texts, not values with a remark. */
const LONGEST_VALUE = 80
/** Signs that lead to a footnote, and flags that a laboratory or a program sets beside a value. */
const FOOTNOTE =
  /[\u00b9\u00b2\u00b3\u2070-\u2079\u2080-\u2089\u2460-\u2473\u2020\u2021\u00a7\u2191\u2193\u2197\u2198\u25b2\u25bc]/gu
/** Words that a value is a rough one. */
const ABOUT =
  /^(?:ca\.?|circa|approx\.?|about|around|etwa|ungefähr|env\.?|environ|aprox\.?|unos|cerca de|circa|ongeveer|noin|ok\.?|около|περ\.?)\s+(?=\d)/iu
const SCIENTIFIC = /^\d(?:[.,]\d{1,6})?e[+-]?\d{1,2}$/i
const FLAG_BEHIND =
  /^([<>]?\s?\d+(?:[.,]\d+)?)\s*[[(]?(?:H{1,2}|L{1,2}|N|A|HI|LO|\+{1,2}|-{1,2}|!{1,3})[\])]?$/

/** Whether a cell begins with a word or a sign that its value is a rough one, or an arrow: 'ca. 110', '~120', '(98)'. */
export function isAboutValue(cell: string): boolean {
  const text = cell.trim()
  return ABOUT.test(text) || /^[~\u2248(*\u2191\u2193\u2197\u2198\u25b2\u25bc\s]{1,3}\d/.test(text)
}

/** Reads a glucose cell: '5,6', '104 mg/dL', 'HI', '>600', '<1.1 mmol/L', '64 shaky'. */
export function readGlucose(cell: string): GlucoseCell {
  let text = cell.trim()
  // A raised figure leads to a footnote; the other forms of digits and blanks read like the plain ones.
  if (!/^[\x20-\x7e]*$/.test(text)) text = plainDigits(text.replace(FOOTNOTE, '')).replace(/^≈/, '~')
  text = text
    .replace(/^['’]/, '')
    .replace(/(\d)\.$/, '$1')
    .replace(ABOUT, '')
  if (text === '') return { kind: 'empty' }
  if (text.length > LONGEST_VALUE) return { kind: 'unreadable', mayBeLow: false }
  const unitMatch = UNIT_AT_END.exec(text)
  if (!unitMatch) return readValue(text)
  const value = readValue(text.slice(0, unitMatch.index).trim())
  if (value.kind !== 'number' && value.kind !== 'marker') return value
  return isGramsPerLitre(unitMatch[1]) ? fromGramsPerLitre(value) : { ...value, unit: unitIn(unitMatch[1]) }
}

function readValue(text: string): GlucoseCell {
  if (NUMBER.test(text)) return number(text)
  if (NUMBER_WITH_GROUPS.test(text)) {
    return { kind: 'number', value: Number(text.replace(/[^\d-]/g, '')), decimals: 0, unit: null, remark: '' }
  }
  if (SCIENTIFIC.test(text)) return number(String(Number(Number(text.replace(',', '.')).toPrecision(7))))
  const limit = limitIn(text) ?? limitIn(WORD_AND_LIMIT.exec(text)?.[2] ?? '') ?? limitInWords(text)
  if (limit) return limit
  const side = markerSide(plain(text))
  if (side) return { kind: 'marker', side, limit: null, unit: null }
  const flagged = FLAG_BEHIND.exec(text)
  if (flagged) return limitIn(flagged[1]) ?? number(flagged[1])
  const marked = MARKS.exec(text)
  if (marked) return number(marked[1])
  const remarked = VALUE_AND_REMARK.exec(text)
  // '2 apples' is food: below what a meter shows a number with words is no reading.
  if (remarked && isRemark(remarked[2]) && isShown(remarked[1]))
    return { ...number(remarked[1]), remark: remarked[2].replace(/\)$/, '') }
  return { kind: 'unreadable', mayBeLow: mayTellOfLow(text) }
}

/** Whether a meter may show a number as written: mg/dL from its lowest on, mmol/L with a decimal. */
function isShown(text: string): boolean {
  return /[.,]/.test(text) || Number(text) >= MEASURING_RANGE_MG_DL.lowest
}

function number(text: string): GlucoseCell & { kind: 'number' } {
  const decimals = /[.,](\d+)$/.exec(text)?.[1].length ?? 0
  return { kind: 'number', value: Number(text.replace(',', '.')), decimals, unit: null, remark: '' }
}

function limitIn(text: string): GlucoseCell | null {
  const limit = LIMIT.exec(text)
  if (!limit) return null
  const side = limit[1].startsWith('>') || limit[1] === '≥' ? 'above' : 'below'
  return { kind: 'marker', side, limit: Number(limit[2].replace(',', '.')), unit: null }
}

function limitInWords(text: string): GlucoseCell | null {
  const match = LIMIT_IN_WORDS.exec(text)
  const side = match && limitSide(match[1])
  return side ? { kind: 'marker', side, limit: Number(match[2].replace(',', '.')), unit: null } : null
}

/** Whether a cell that holds no reading has a word for low in it, or a number that would be one in either unit. */
function mayTellOfLow(text: string): boolean {
  if (
    plain(text)
      .split(' ')
      .some((word) => markerSide(word) === 'below')
  )
    return true
  return (text.match(/\d+(?:[.,]\d+)?/g) ?? []).some((digits) => {
    const value = Number(digits.replace(',', '.'))
    return value < LIMITS.low.mmol || (value >= MEASURING_RANGE_MG_DL.lowest && value < LIMITS.low.mgDl)
  })
}

/** Whether a text names grams per litre, in which French logs may be written. */
export function isGramsPerLitre(text: string): boolean {
  return GRAMS_PER_LITRE.test(text)
}

/** A value or limit written in grams per litre, in mg/dL. */
export function fromGramsPerLitre(cell: GlucoseCell): GlucoseCell {
  const scaled = (value: number): number => Number((value * MG_DL_IN_ONE_G_L).toPrecision(12))
  if (cell.kind === 'number')
    return { ...cell, value: scaled(cell.value), decimals: 0, unit: 'mg/dL', gramDecimals: cell.decimals }
  if (cell.kind !== 'marker') return cell
  return { ...cell, limit: cell.limit === null ? null : scaled(cell.limit), unit: 'mg/dL' }
}

const FOREIGN_UNIT = /(?<!\p{L})(?:[mµμu]?g|[µμun]mol)\s?(?:\/|per)\s?(?:l|ml|cl)\b/iu

/** Whether a text names a unit in which glucose could be given but is not read: mg/L, µmol/L. */
export function isForeignUnit(text: string): boolean {
  return unitIn(text) === null && !isGramsPerLitre(text) && FOREIGN_UNIT.test(text)
}

/** The glucose unit that a text names, null where it names none or both. */
export function unitIn(text: string): GlucoseUnit | null {
  const mgDl =
    /(?<!\p{L})(?:mg|мг)[\s_]?(?:\/|per|pr|auf)?\s?(?:dl(?!\p{L})|дл(?!\p{L})|%|100\s?ml(?!\p{L}))|(?<!\p{L})mgdl(?!\p{L})|毫克\s?\/\s?分升/iu.test(
      text,
    )
  const mmol =
    /(?<!\p{L})(?:mmol|ммоль|ммол)(?!\p{L}|\s?\/\s?(?:mol|моль))|(?<!\p{L})mmol_?l?(?!\p{L}|\s?\/\s?mol)|毫摩尔?\s?\/\s?升/iu.test(
      text,
    )
  if (mgDl === mmol) return null
  return mgDl ? 'mg/dL' : 'mmol/L'
}
