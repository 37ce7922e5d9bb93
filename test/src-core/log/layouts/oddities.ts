import type { Chance } from './chance'
import type { Language } from './words'

// What a file may have beside its layout: the habits of people, spreadsheets and databases that a reader must know.

export const ODDITIES = {
  /** Digits of another script in every cell. */
  digits: 1,
  /** Unquoted decimal commas in a comma file. */
  'parted decimals': 1,
  /** An inch mark in an unquoted text. */
  'inch mark': 1,
  /** A quote that begins a text and never closes. */
  'open quote': 0.7,
  /** A delimiter in an unquoted text. */
  'cell too many': 1,
  /** '>600', '<1.1' instead of HI and LO. */
  'limits with signs': 1,
  /** '~120', '120*', '120¹', '↑120'. */
  marks: 1,
  /** Grams per litre. */
  'g/L': 0.6,
  /** Days and moments as a spreadsheet counts them. */
  serial: 0.8,
  /** A time with its distance from UTC. */
  offset: 0.6,
  /** '0710'. */
  'compact clock': 0.8,
  /** Rows that a status deletes. */
  status: 1.2,
  /** A goal among the rows. */
  'goal rows': 0.8,
  /** Dates that name no year. */
  yearless: 1,
  /** A value or some of the other unit, unsaid. */
  'odd unit': 1.2,
} as const
export type Oddity = keyof typeof ODDITIES

/** At most two of them. */
export function pickOddities(chance: Chance): ReadonlySet<Oddity> {
  const picked = new Set<Oddity>()
  const list = Object.entries(ODDITIES) as [Oddity, number][]
  if (chance.odds(0.35)) picked.add(chance.weighed(list))
  if (picked.size > 0 && chance.odds(0.2)) picked.add(chance.weighed(list))
  // Grams per litre and mmol/L overlap: nobody could tell.
  if (picked.has('g/L')) picked.delete('odd unit')
  return picked
}

const ZEROES = { fullWidth: 0xff10, arabic: 0x0660, devanagari: 0x0966 } as const

/** Writes a text's digits in another script, the same for a whole file. */
export function digitWriter(chance: Chance, language: Language): (text: string) => string {
  const zero =
    language === 'ja' || language === 'zh'
      ? ZEROES.fullWidth
      : chance.pick([ZEROES.fullWidth, ZEROES.arabic, ZEROES.devanagari])
  return (text) => text.replaceAll(/\d/g, (digit) => String.fromCodePoint(zero + Number(digit)))
}

/** A number as a person or a laboratory marks it. */
export function marked(chance: Chance, text: string): string {
  if (!chance.odds(0.2)) return text
  const forms = ['~#', '≈#', '#*', '#¹', '#†', '(#)', '# ↑', '# ↓', '#!', 'ca. #']
  return chance.pick(forms).replace('#', text)
}

/** Words for a column of states, a row that counts and one that was deleted. */
const STATES: Partial<Record<Language, readonly [header: string, good: string, deleted: string]>> = {
  en: ['Status', 'ok|final|valid', 'deleted|voided|entered in error'],
  de: ['Status', 'gültig|ok', 'gelöscht|storniert|ungültig'],
  fr: ['Statut', 'valide', 'supprimé|annulé'],
  es: ['Estado', 'válido', 'eliminado|anulado'],
  it: ['Stato', 'valido', 'annullato|cancellato'],
  nl: ['Status', 'geldig', 'verwijderd|ongeldig'],
  sv: ['Status', 'giltig', 'raderad|borttagen'],
  da: ['Status', 'gyldig', 'slettet'],
  ru: ['Статус', 'действителен', 'удалено'],
}

export function statesOf(
  language: Language,
): readonly [header: string, good: string, deleted: string] | null {
  return STATES[language] ?? null
}
