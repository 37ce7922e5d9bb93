import { LOG_LANGUAGES } from './languages'
import { plain } from './plain'
import { remembered } from './remembered'

/** Two letters from Monday on, as people write them where the locale data has longer forms (common practice). */
const TWO_LETTERS = [
  'mo tu we th fr sa su',
  'lu ma me je ve sa di',
  'lu ma mi ju vi sa do',
  'lu ma me gi ve sa do',
  'po ut st ct pa so ne',
  'pt sa ca pe cu ct pa',
] as const

/** 1970-01-05 was a Monday. */
const FIRST_MONDAY = 5
const DAYS_OF_A_WEEK = 7
const SHORTEST_FIRST_WORD = 4

let named: ReadonlyMap<string, number> | null = null

/** The weekdays that each name may mean, as bits from Monday on: 'ma' is a Monday in Dutch and a Tuesday in French. */
function namesOfWeekdays(): ReadonlyMap<string, number> {
  const names = new Map<string, number>()
  const add = (name: string, day: number): void => {
    if (name.length > 1) names.set(name, (names.get(name) ?? 0) | (1 << day))
  }
  for (const locale of LOG_LANGUAGES)
    for (const weekday of ['long', 'short'] as const) {
      const format = new Intl.DateTimeFormat(locale, { weekday, timeZone: 'UTC' })
      for (let day = 0; day < DAYS_OF_A_WEEK; day++) {
        const name = plain(format.format(Date.UTC(1970, 0, FIRST_MONDAY + day)))
        const [first] = name.split(' ', 1)
        add(name, day)
        // 'segunda' of 'segunda-feira'.
        if (first !== name && first.length >= SHORTEST_FIRST_WORD) add(first, day)
      }
    }
  for (const list of TWO_LETTERS) list.split(' ').forEach(add)
  return names
}

/** The weekdays that a word may name, as bits from Monday on; 0 where it names none. */
export const weekdaysNamed = remembered((word) => {
  named ??= namesOfWeekdays()
  return named.get(plain(word)) ?? 0
})

/** The weekdays that the one weekday among a text's words may be; 0 where it names none, or several. */
export function weekdaysIn(text: string): number {
  const found = (text.match(/\p{L}{2,}/gu) ?? []).map(weekdaysNamed).filter((days) => days > 0)
  return found.length === 1 ? found[0] : 0
}

/** Whether a day, counted from 1970-01-01, is one of these weekdays. */
export function isWeekday(day: number, weekdays: number): boolean {
  const fromMonday =
    (((day + DAYS_OF_A_WEEK - FIRST_MONDAY + 1) % DAYS_OF_A_WEEK) + DAYS_OF_A_WEEK) % DAYS_OF_A_WEEK
  return (weekdays & (1 << fromMonday)) !== 0
}
