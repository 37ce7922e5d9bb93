import type { WindowWords } from '../src-core/wording/words'

/** What is wrong with a text that is too long, '' where it is not; it is told instead of cut. */
export function lengthFault({ visitForms }: WindowWords, text: string, most: number): string {
  return text.length <= most ? '' : visitForms.tooLong(text.length, most)
}
