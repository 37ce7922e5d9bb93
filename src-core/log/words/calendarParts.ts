import { LOG_LANGUAGES } from './languages'
import { plain } from './plain'
import { remembered } from './remembered'

/** A part of a date that may have a column of its own. */
export type CalendarPart = 'year' | 'month' | 'day'

const PARTS = ['year', 'month', 'day'] as const
const LANGUAGES = [...LOG_LANGUAGES, 'ja', 'zh']
/** Forms in which a date is spelt out; German, French, Spanish and Finnish have their own letters. */
const SPELT: Readonly<Record<CalendarPart, readonly string[]>> = {
  year: ['yyyy', 'yy', 'yr', 'jjjj', 'jj', 'aaaa', 'aa', 'vvvv'],
  month: ['mm', 'mo', 'mon'],
  day: ['dd', 'tt', 'pp'],
}

let named: ReadonlyMap<string, CalendarPart | null> | null = null

/** The parts by their names in full and short (Unicode CLDR); null where two languages differ. */
function namesOfParts(): ReadonlyMap<string, CalendarPart | null> {
  const names = new Map<string, CalendarPart | null>()
  const add = (name: string, part: CalendarPart): void => {
    const known = names.get(name)
    names.set(name, known === undefined || known === part ? part : null)
  }
  for (const part of PARTS) for (const word of SPELT[part]) add(word, part)
  for (const locale of LANGUAGES)
    for (const style of ['long', 'short'] as const) {
      const fields = new Intl.DisplayNames(locale, { type: 'dateTimeField', style })
      for (const part of PARTS) {
        const name = plain(fields.of(part) ?? '')
        // A single letter says nothing, a single sign of Chinese does.
        if (name.length > 1 || /^\p{Script=Han}$/u.test(name)) add(name, part)
      }
    }
  return names
}

/** Which part of a date a text names and nothing else; null for any other text. */
export const calendarPart = remembered((text: string): CalendarPart | null => {
  named ??= namesOfParts()
  return named.get(plain(text)) ?? null
})
