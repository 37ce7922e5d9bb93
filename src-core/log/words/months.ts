import { LOG_LANGUAGES } from './languages'
import { plain } from './plain'

/** Months of English, German, French, Spanish, Portuguese, Italian and Dutch by their beginnings. */
const MONTHS: readonly RegExp[] = [
  /^(jan|ene|gen|janv)/,
  /^(feb|fev|fevr)/,
  /^(mar|maa|mrt|mae|mrz)/,
  /^(apr|avr|abr)/,
  /^(mai|may|mag|mei|maio|mayo)/,
  /^(jun|juin|giu)/,
  /^(jul|juil|lug)/,
  /^(aug|aou|ago)/,
  /^(sep|set|sett)/,
  /^(oct|okt|ott|out)/,
  /^(nov)/,
  /^(dec|dez|dic|des)/,
]

let named: ReadonlyMap<string, number | null> | null = null

/** Month by each of its names, in full and short, alone and beside a day; null where two languages differ. */
function namesOfMonths(): ReadonlyMap<string, number | null> {
  const names = new Map<string, number | null>()
  for (const locale of LOG_LANGUAGES) {
    for (const month of ['long', 'short'] as const) {
      for (const options of [{ month }, { day: 'numeric', month, year: 'numeric' }] as const) {
        const format = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' })
        for (let number = 1; number <= 12; number++) {
          const parts = format.formatToParts(Date.UTC(2024, number - 1, 15))
          const name = plain(parts.find(({ type }) => type === 'month')?.value ?? '')
          if (name === '' || /\d/.test(name)) continue
          const known = names.get(name)
          names.set(name, known === undefined || known === number ? number : null)
        }
      }
    }
  }
  return names
}

/** Number of the month, 1 to 12, whose name in full or short a word is, in the form `plain` gives; null for any other. */
export function monthOfName(word: string): number | null {
  named ??= namesOfMonths()
  return word.length < SHORTEST_NAME ? null : (named.get(word) ?? null)
}
const SHORTEST_NAME = 3

/** Number of the month, 1 to 12, that a word in the form `plain` gives names; null for any other word. */
export function monthNumber(word: string): number | null {
  named ??= namesOfMonths()
  const known = named.get(word)
  if (known !== undefined) return known
  const index = MONTHS.findIndex((pattern) => pattern.test(word))
  return index < 0 ? null : index + 1
}
