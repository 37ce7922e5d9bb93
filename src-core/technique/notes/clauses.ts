import { type Concept, conceptsOf } from './words'

/** A word of a note with what it means. */
export interface Word {
  readonly text: string
  readonly start: number
  readonly end: number
  concepts: ReadonlySet<Concept>
  negated: boolean
}

const WORD_OR_BREAK = /[\p{L}\p{M}\p{N}]+(?:['’][\p{L}\p{M}]+)?|[.,;:!?\n\r\t/|+()&–—]/gu
const BEGINS_CLAUSE = new Set(
  (
    'but then though because aber sondern dann weil mais puis car pero luego porque mas depois ' +
    'ma poi perche maar dan want'
  ).split(' '),
)

/** The note cut at punctuation and at words such as 'but'; each part is understood for itself. */
export function clausesOf(note: string): Word[][] {
  const clauses: Word[][] = []
  let current: Word[] = []
  const next = () => {
    if (current.length > 0) clauses.push(current)
    current = []
  }
  for (const match of note.matchAll(WORD_OR_BREAK)) {
    if (!/[\p{L}\p{N}]/u.test(match[0])) {
      next()
      continue
    }
    const text = folded(match[0])
    if (BEGINS_CLAUSE.has(text)) {
      next()
      continue
    }
    const start = match.index
    current.push({ text, start, end: start + match[0].length, concepts: conceptsOf(text), negated: false })
  }
  next()
  clauses.forEach(markSugarToTake)
  clauses.forEach(markNegated)
  return clauses
}

/** Lower case, no accents; of "l'orange" the orange, "didn't" as one word. */
function folded(word: string): string {
  const plain = word
    .normalize('NFKD')
    .replace(/[\p{M}\p{Cf}]/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
  const [before, after] = plain.split(/['’]/)
  if (after === undefined || after === '') return before
  return after === 't' ? before + after : after.length > before.length ? after : before
}

const GLUCOSE = /^(glu[ck]ose|glucosa|glicose|glucosio)$/
const FORM_TO_TAKE =
  /^(tabs?|tablet\w*|tablett\w*|tableta\w*|comprim\w*|compress\w*|pastill\w*|gels?|powder)$/

/** Glucose is what is measured, but in 'glucose tablets' sugar in the hand. */
function markSugarToTake(clause: Word[]): void {
  clause.forEach((word, i) => {
    if (!GLUCOSE.test(word.text)) return
    const beside = [clause[i - 2], clause[i - 1], clause[i + 1]]
    if (beside.some((other) => other && FORM_TO_TAKE.test(other.text))) word.concepts = new Set(['sugary'])
  })
}

/** How many words a negation reaches over: 'did not have time to wash'. */
const REACH = 5
/** What a negation passes over on its way to what it denies: 'no hands washed', 'keine nassen Finger'. */
const PASSED_OVER = new Set<Concept>(['place', 'strip', 'filler', 'meter', 'level', 'blood', 'not', 'or'])

function markNegated(clause: Word[]): void {
  clause.forEach((word, i) => {
    if (word.concepts.has('notAfter') && negateNearest(clause.slice(0, i).reverse())) return
    if (!word.concepts.has('not') && !word.concepts.has('notAfter')) return
    // Portuguese 'no dedo' is 'on the finger'.
    if (word.text === 'no' && /^(dedo|polegar)/.test(clause[i + 1]?.text ?? '')) return
    negateNearest(clause.slice(i + 1))
  })
}

function negateNearest(words: readonly Word[]): boolean {
  const at = words.slice(0, REACH).findIndex(isDeniable)
  if (at < 0) return false
  words[at].negated = true
  // 'No juice or sugar on the finger' denies both.
  if (words[at + 1]?.concepts.has('or') && words[at + 2] && isDeniable(words[at + 2])) {
    words[at + 2].negated = true
  }
  return true
}

function isDeniable({ concepts }: Word): boolean {
  return [...concepts].some((concept) => !PASSED_OVER.has(concept))
}
