import { copied } from '../textColumn'

/** Most texts whose answer is remembered. */
const MOST_REMEMBERED = 20_000

/** A question about a text, asked once for each different one: columns of kinds and meals hold few. */
export function remembered(question: (text: string) => boolean): (text: string) => boolean {
  const answers = new Map<string, boolean>()
  return (text) => {
    let answer = answers.get(text)
    if (answer === undefined) {
      if (answers.size >= MOST_REMEMBERED) answers.clear()
      answer = question(text)
      answers.set(copied(text), answer)
    }
    return answer
  }
}
