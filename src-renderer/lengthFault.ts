/** What is wrong with a text that is too long, '' where it is not; it is told instead of cut. */
export function lengthFault(text: string, most: number): string {
  if (text.length <= most) return ''
  return `Too long: ${withMarks(text.length)} of ${withMarks(most)} characters. Shorten it.`
}

/** With its marks for thousands: '2,345'. */
function withMarks(n: number): string {
  return String(n).replace(/\B(?=(\d{3})+$)/g, ',')
}
