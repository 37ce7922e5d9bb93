// Counts and lists in a sentence; no figure, so that the page of the window can hold it.
import { FORMS } from './localForms'

/** '1 reading', '3 readings', '1 match' and '2 matches' with `plural` given. */
export function count(n: number, singular: string, plural = `${singular}s`): string {
  return `${n} ${FORMS.plural(n) === 'one' ? singular : plural}`
}

const SMALL_NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']

/** A small count in letters, above ten in figures. */
export function inWords(n: number): string {
  return SMALL_NUMBERS[n] ?? String(n)
}

/** Parts joined as in a sentence: 'a', 'a and b', 'a, b and c'. */
export const { listed } = FORMS

/** A whole number with marks for thousands: '2,345'. */
export const thousandsText = FORMS.thousands
