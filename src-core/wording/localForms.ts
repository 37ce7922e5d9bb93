/** How a language writes counts, lists and months, from the runtime's own locale data (ECMA-402). */
export interface LocalForms {
  /** Which form of a noun follows a number: 'one', 'few', ... */
  readonly plural: (n: number) => Intl.LDMLPluralRule
  /** Parts joined as in a sentence: 'a', 'a and b', 'a, b and c'. */
  readonly listed: (parts: readonly string[]) => string
  /** A whole number with marks for thousands. */
  readonly thousands: (n: number) => string
  /** The name of a month, 1 to 12, in full, as it stands beside a day. */
  readonly month: (month: number) => string
}

/** The forms of a locale of BCP 47, such as 'en-GB'; each is prepared when it is first asked for, which takes milliseconds. */
export function localForms(locale: string): LocalForms {
  const rules = once(() => new Intl.PluralRules(locale))
  const lists = once(() => new Intl.ListFormat(locale))
  const numbers = once(() => new Intl.NumberFormat(locale))
  const months = once(() => monthsOf(locale))
  return {
    plural: (n) => rules().select(n),
    listed: (parts) => lists().format(parts),
    thousands: (n) => numbers().format(n),
    month: (month) => months()[month - 1],
  }
}

function monthsOf(locale: string): readonly string[] {
  const days = new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'long', timeZone: 'UTC' })
  return Array.from(
    { length: 12 },
    (_, i) => days.formatToParts(Date.UTC(2000, i)).find(({ type }) => type === 'month')?.value ?? '',
  )
}

function once<T>(make: () => T): () => T {
  let made: T | undefined
  return () => (made ??= make())
}
