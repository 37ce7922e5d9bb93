import type { GlucoseUnit } from '../units/glucose'
import { markerSide, plain } from './vocabulary'

/** What a glucose cell holds. Numbers are as written, in the unit that the cell or the column says. */
export type GlucoseCell =
  | { readonly kind: 'empty' }
  | { readonly kind: 'unreadable' }
  | {
      readonly kind: 'number'
      readonly value: number
      /** How many digits follow the decimal mark; 3 may be a thousands separator instead. */
      readonly decimals: number
      readonly unit: GlucoseUnit | null
    }
  | {
      readonly kind: 'marker'
      readonly side: 'above' | 'below'
      /** The limit printed with the marker, if any. */
      readonly limit: number | null
      readonly unit: GlucoseUnit | null
    }

const UNIT_AT_END = /\s*(mg\s?(?:\/|per)?\s?(?:dl|%)|mmol\s?(?:\/|per)?\s?l?)\.?$/i
const NUMBER = /^([+-]?)(\d+)(?:[.,](\d+))?$/
const NUMBER_WITH_GROUPS = /^[+-]?\d{1,3}(?:([.,' ])\d{3})+(?:[.,]\d+)?$/
const LIMIT = /^(>|<|≥|≤|>=|<=)\s?(\d+(?:[.,]\d+)?)$/
const INVISIBLE = /[\u200b-\u200f\u2060\ufeff]/g

/** Reads a glucose cell: '5,6', '104 mg/dL', 'HI', '>600', '<1.1 mmol/L'. */
export function readGlucose(cell: string): GlucoseCell {
  let text = cell.trim()
  // Compatibility forms of digits and blanks read like the plain ones.
  if (!/^[\x20-\x7e]*$/.test(text)) text = text.normalize('NFKC').replace(INVISIBLE, '').trim()
  if (text === '') return { kind: 'empty' }
  const unitMatch = UNIT_AT_END.exec(text)
  const unit = unitMatch ? unitIn(unitMatch[1]) : null
  if (unitMatch) text = text.slice(0, unitMatch.index).trim()
  const number = NUMBER.exec(text)
  if (number) {
    const decimals = ((number[3] as string | undefined) ?? '').length
    return { kind: 'number', value: Number(text.replace(',', '.')), decimals, unit }
  }
  if (NUMBER_WITH_GROUPS.test(text)) {
    return { kind: 'number', value: Number(text.replace(/[^\d-]/g, '')), decimals: 0, unit }
  }
  const limit = LIMIT.exec(text)
  if (limit) {
    const side = limit[1].startsWith('>') || limit[1] === '≥' ? 'above' : 'below'
    return { kind: 'marker', side, limit: Number(limit[2].replace(',', '.')), unit }
  }
  const side = markerSide(plain(text))
  return side ? { kind: 'marker', side, limit: null, unit } : { kind: 'unreadable' }
}

/** The glucose unit that a text names, null where it names none or both. */
export function unitIn(text: string): GlucoseUnit | null {
  const mgDl = /\bmg\s?(?:\/|per)?\s?(?:dl\b|%)|\bmgdl\b/i.test(text)
  const mmol = /\bmmol\b|\bmmol\s?\/\s?l\b|\bmmoll\b/i.test(text)
  if (mgDl === mmol) return null
  return mgDl ? 'mg/dL' : 'mmol/L'
}
