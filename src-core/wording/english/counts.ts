// Counts and lists in a sentence; no figure, so that the page of the window can hold it.

/** '1 reading', '3 readings', '1 match' and '2 matches' with `plural` given. */
export function count(n: number, singular: string, plural = `${singular}s`): string {
  return `${n} ${n === 1 ? singular : plural}`
}

const SMALL_NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']

/** A small count in letters, above ten in figures. */
export function inWords(n: number): string {
  return SMALL_NUMBERS[n] ?? String(n)
}

/** Parts joined as in a sentence: 'a', 'a and b', 'a, b and c'. */
export function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`
}

/** A whole number with marks for thousands: '2,345'. */
export function thousandsText(n: number): string {
  return String(n).replace(/\B(?=(\d{3})+$)/g, ',')
}
