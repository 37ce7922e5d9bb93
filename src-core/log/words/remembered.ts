import { copied } from '../textColumn'

/** Most texts whose answer is remembered. */
const MOST_REMEMBERED = 3_000
/** Longer texts seldom come again. */
const LONGEST_REMEMBERED = 120

/** A question about a text, asked once for each different one: a log's columns hold few. Answers must not be written to. */
export function remembered<T>(question: (text: string) => T): (text: string) => T {
  const answers = new Map<string, { readonly answer: T }>()
  return (text) => {
    const known = answers.get(text)
    if (known !== undefined) return known.answer
    const answer = question(text)
    if (text.length <= LONGEST_REMEMBERED) {
      if (answers.size >= MOST_REMEMBERED) answers.clear()
      answers.set(copied(text), { answer })
    }
    return answer
  }
}
