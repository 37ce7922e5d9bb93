import type { GlucoseUnit } from '../units/glucose'
import { LIMITS } from '../reference/limits'
import { MEASURING_RANGE_MG_DL } from '../reference/meter'
import { isRemark, limitSide, markerSide, plain } from './vocabulary'

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
    }
  | {
      readonly kind: 'marker'
      readonly side: 'above' | 'below'
      /** The limit printed with the marker, if any. */
      readonly limit: number | null
      readonly unit: GlucoseUnit | null
    }

const UNIT_AT_END = /\s*(mg\s?(?:\/|per)?\s?(?:dl|%)|mmol\s?(?:\/|per)?\s?l?|g\s?\/\s?l)\.?$/i
const GRAMS_PER_LITRE = /\bg\s?\/\s?l\b/i
/** 1 g/L is 100 mg/dL, by the meaning of the prefixes. */
const MG_DL_IN_ONE_G_L = 100
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
const INVISIBLE = /[\u200b-\u200f\u2060\ufeff]/g

/** Reads a glucose cell: '5,6', '104 mg/dL', 'HI', '>600', '<1.1 mmol/L', '64 shaky'. */
export function readGlucose(cell: string): GlucoseCell {
  let text = cell.trim()
  // Compatibility forms of digits and blanks read like the plain ones.
  if (!/^[\x20-\x7e]*$/.test(text)) text = text.normalize('NFKC').replace(INVISIBLE, '').trim()
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
  const limit = limitIn(text) ?? limitIn(WORD_AND_LIMIT.exec(text)?.[2] ?? '') ?? limitInWords(text)
  if (limit) return limit
  const side = markerSide(plain(text))
  if (side) return { kind: 'marker', side, limit: null, unit: null }
  const marked = MARKS.exec(text)
  if (marked) return number(marked[1])
  const remarked = VALUE_AND_REMARK.exec(text)
  if (remarked && isRemark(remarked[2]))
    return { ...number(remarked[1]), remark: remarked[2].replace(/\)$/, '') }
  return { kind: 'unreadable', mayBeLow: mayTellOfLow(text) }
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
  if (cell.kind === 'number') return { ...cell, value: scaled(cell.value), decimals: 0, unit: 'mg/dL' }
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
  const mgDl = /\bmg\s?(?:\/|per)?\s?(?:dl\b|%|100\s?ml\b)|\bmgdl\b/i.test(text)
  const mmol = /\bmmol\b|\bmmol\s?\/\s?l\b|\bmmoll\b/i.test(text)
  if (mgDl === mmol) return null
  return mgDl ? 'mg/dL' : 'mmol/L'
}
