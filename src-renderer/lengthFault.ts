/** What is wrong with a text that is too long, '' where it is not; it is told instead of cut. */
export function lengthFault(text: string, most: number): string {
  if (text.length <= most) return ''
  const told = (n: number) => n.toLocaleString('en-GB')
  return `Too long: ${told(text.length)} of ${told(most)} characters. Shorten it.`
}
