import { type Concept, LEXICON } from './lexicon'
import { plain } from './plain'
import { remembered } from './remembered'

const ALL = Object.keys(LEXICON) as Concept[]
/** Longest phrase of the lexicon, in words. */
const LONGEST_PHRASE = 4

/** The lexicon by how its words are compared; concepts are bits in the order of `ALL`. */
interface Index {
  readonly whole: ReadonlyMap<string, number>
  /** Parts of a text, the blank before or behind the word included where it must begin or end there. */
  readonly parts: readonly (readonly [part: string, concepts: number])[]
}

/** Words that `plain` leaves as they are. */
const PLAIN = /^[a-z0-9 ]*$/

let index: Index | null = null

function indexOfWords(): Index {
  const whole = new Map<string, number>()
  const parts = new Map<string, number>()
  ALL.forEach((concept, bit) => {
    for (const word of LEXICON[concept].split(/\s+/)) {
      const blanks = word.replace(/[*_]/g, ' ').trim()
      const text = PLAIN.test(blanks) ? blanks : plain(blanks)
      if (text === '') continue
      const [before, behind] = [word.startsWith('*'), word.endsWith('*')]
      const list = before || behind ? parts : whole
      const part = before || behind ? `${before ? '' : ' '}${text}${behind ? '' : ' '}` : text
      list.set(part, (list.get(part) ?? 0) | (1 << bit))
    }
  })
  return { whole, parts: [...parts] }
}

/** The concepts of a text in the form `plain` gives, as bits. */
function bitsOf(words: string): number {
  index ??= indexOfWords()
  let bits = 0
  const padded = ` ${words} `
  for (const [part, concepts] of index.parts)
    if ((bits & concepts) !== concepts && padded.includes(part)) bits |= concepts
  const tokens = words.split(' ')
  for (let from = 0; from < tokens.length; from++) {
    let phrase = ''
    for (let to = from; to < Math.min(tokens.length, from + LONGEST_PHRASE); to++) {
      phrase = to === from ? tokens[to] : `${phrase} ${tokens[to]}`
      bits |= index.whole.get(phrase) ?? 0
    }
  }
  return bits
}

/** Names are short; of a longer text only the beginning is read. */
export const LONGEST_NAME = 120

/** All that a header or a kind of entry speaks of. */
export function conceptsOf(text: string): ReadonlySet<Concept> {
  return told(text.length > LONGEST_NAME ? text.slice(0, LONGEST_NAME) : text)
}

const told = remembered<ReadonlySet<Concept>>((name) => {
  const words = withBlanks(name)
  const bits = words === '' ? 0 : bitsOf(words)
  return new Set(bits === 0 ? [] : ALL.filter((_, bit) => bits & (1 << bit)))
})

/** `plain`, with the words of 'glucoseValue' parted as the writer of a database means them. */
export function withBlanks(text: string): string {
  return plain(text.replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2'))
}
