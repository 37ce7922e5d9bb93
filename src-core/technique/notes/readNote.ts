import {
  FAULT_CLASSES,
  type FaultClassName,
  type NoteContext,
  type NoteFault,
  type NoteTelling,
  TELLS_NOTHING,
} from './classes'
import { clausesOf, type Word } from './clauses'
import type { Concept } from './words'

const LONGEST_WORDS = 60

/**
 * What a note or a tag tells of technique. Practice ('washed and dried', 'not wet', 'kein Saft') is no mistake, nor is
 * sugar that was eaten ('juice for low'): only what touched the finger is. With `inTrial` a bare 'juice' or 'wet' names
 * the condition that was changed. The time taken grows with the length of the note alone.
 */
export function readNote(note: string, inTrial = false): NoteTelling {
  if (note.trim() === '') return TELLS_NOTHING
  const faults = new Map<FaultClassName, NoteFault>()
  const contexts = new Set<NoteContext>()
  let washed = false
  let baseline = false
  for (const words of clausesOf(note)) {
    const clause = new Clause(words, inTrial)
    for (const [name, concepts] of faultsIn(clause)) {
      if (faults.has(name)) continue
      const { direction } = FAULT_CLASSES[name]
      faults.set(name, { class: name, direction, word: clause.wordsFor(concepts, note) })
    }
    for (const context of contextsIn(clause)) contexts.add(context)
    washed ||= clause.says('wash')
    baseline ||= clause.says('baseline')
  }
  return { faults: [...faults.values()], contexts: [...contexts], washed, baseline }
}

/** A word that stands beside 'finger' where the finger is no place but a kind of test. */
const STICK = /^(stick|sticks|prick|pricks|poke|test|tests|check|checks|food|foods)$/
/** After 'sugar', these speak of what is measured. */
const MEASURED =
  /^(high|low|was|is|level|levels|test|check|number|numbers|hoch|niedrig|haut|bas|alt[oa]|baj[oa]|bass[oa]|hoog|laag)$/
const SUGAR_ITSELF = /^(sugars?|zucker|sucre|azucar|acucar|zucchero|suiker)$/

/** One part of a note. */
class Clause {
  readonly #words: readonly Word[]
  readonly #inTrial: boolean
  readonly #said = new Set<Concept>()
  readonly #denied = new Set<Concept>()
  /** Whether every word of it is known and none names something beside the measuring. */
  readonly alone: boolean

  constructor(words: readonly Word[], inTrial: boolean) {
    this.#words = words
    this.#inTrial = inTrial
    words.forEach((word, i) => {
      for (const concept of word.concepts) {
        if (
          concept === 'place' &&
          (word.text.startsWith('fingerstick') || STICK.test(words[i + 1]?.text ?? ''))
        )
          continue
        if (concept === 'sugary' && SUGAR_ITSELF.test(word.text) && this.#isMeasured(i)) {
          this.#said.add('level')
          continue
        }
        if (word.negated) this.#denied.add(concept)
        else this.#said.add(concept)
      }
    })
    this.alone = words.every(({ concepts, text }) => concepts.size > 0 || /^\p{N}+$/u.test(text))
  }

  #isMeasured(i: number): boolean {
    const before = this.#words[i - 1]?.concepts
    return before?.has('blood') === true || MEASURED.test(this.#words[i + 1]?.text ?? '')
  }

  says(concept: Concept): boolean {
    return this.#said.has(concept)
  }

  /** Names it only to say that it was not so. */
  denies(concept: Concept): boolean {
    return this.#denied.has(concept) && !this.#said.has(concept)
  }

  names(concept: Concept): boolean {
    return this.#said.has(concept) || this.#denied.has(concept)
  }

  /** Whether it speaks of finger or hands; in a trial every note does. */
  get ofSkin(): boolean {
    return this.#said.has('place') || (this.#inTrial && !this.#said.has('eaten'))
  }

  /** Whether two things stand side by side, 'de' or the like between them at most. */
  besideEachOther(one: Concept, other: Concept): boolean {
    const at = this.#words.findIndex(({ concepts }) => concepts.has(other))
    if (at < 0) return false
    const isOne = (i: number) => this.#words[i]?.concepts.has(one) === true && !this.#words[i].negated
    const joined = (i: number) =>
      /^(de|di|of|any|too|zu|trop|te|muy|muito|troppo)$/.test(this.#words[i]?.text ?? '')
    return (
      isOne(at - 1) || isOne(at + 1) || (joined(at - 1) && isOne(at - 2)) || (joined(at + 1) && isOne(at + 2))
    )
  }

  has(pattern: RegExp): boolean {
    return this.#words.some(({ text }) => pattern.test(text))
  }

  follows(...texts: string[]): boolean {
    return this.#words.some((_, i) => texts.every((text, k) => this.#words[i + k]?.text === text))
  }

  /** The note's own words from the first to the last that mean one of these, a 'not' before them included. */
  wordsFor(concepts: readonly Concept[], note: string): string {
    const isOne = (word: Word) => concepts.some((concept) => word.concepts.has(concept))
    const last = this.#words.findLast(isOne)
    const first = this.#words.findIndex(isOne)
    if (last === undefined) return ''
    const denied = this.#words.slice(first).some((word) => isOne(word) && word.negated)
    const not = this.#words.slice(0, first).findLast(({ concepts: all }) => all.has('not'))
    const start = denied && not ? not.start : this.#words[first].start
    return note.slice(start, Math.min(last.end, start + LONGEST_WORDS))
  }
}

type Found = readonly [name: FaultClassName, by: readonly Concept[]]

function* faultsIn(clause: Clause): Generator<Found> {
  yield* onTheSkin(clause)
  yield* waterAndAlcohol(clause)
  yield* theDrop(clause)
  yield* meterAndStrip(clause)
}

function* onTheSkin(clause: Clause): Generator<Found> {
  const { ofSkin, alone } = clause
  if (clause.says('unwashed') || clause.denies('wash')) yield ['unwashed-hands', ['unwashed', 'wash']]
  else if (clause.says('dirty') && (ofSkin || (alone && !clause.has(/^sales?$/))))
    yield ['unwashed-hands', ['dirty', 'place']]
  if (clause.says('wash')) return
  if (clause.says('sugary') && (ofSkin || clause.says('handled') || clause.says('sticky')))
    yield ['sugar-on-finger', ['sugary', 'place', 'handled', 'sticky']]
  else if (clause.says('sticky') && (ofSkin || alone)) yield ['sugar-on-finger', ['sticky', 'place']]
  if (clause.says('lotion') || (clause.says('cream') && ofSkin))
    yield ['lotion-on-skin', ['lotion', 'cream', 'place']]
}

function* waterAndAlcohol(clause: Clause): Generator<Found> {
  const { ofSkin, alone } = clause
  if (clause.says('dry') || clause.says('eaten')) return
  const onSkin = ofSkin || alone || clause.says('strip')
  const undried = clause.denies('dry') && (onSkin || clause.names('wash'))
  if (clause.says('alcohol') && (ofSkin || clause.says('wipe'))) {
    const wet = undried || clause.says('wet')
    yield [wet ? 'alcohol-wet' : 'alcohol-wipe-only', ['alcohol', 'wipe', 'wet', 'place', 'dry']]
    return
  }
  if ((clause.says('wet') && onSkin) || undried) yield ['wet-finger', ['wet', 'dry', 'place']]
  else if (clause.says('water') && ofSkin && !clause.names('wash')) yield ['wet-finger', ['water', 'place']]
}

function* theDrop(clause: Clause): Generator<Found> {
  const { ofSkin, alone } = clause
  const ofBlood = !clause.names('level') && !clause.names('sugary')
  if (ofBlood && clause.says('drop') && clause.says('small')) yield ['small-drop', ['drop', 'small']]
  else if (
    ofBlood &&
    (clause.besideEachOther('small', 'blood') || (clause.names('blood') && clause.denies('enough')))
  )
    yield ['small-drop', ['blood', 'small', 'enough']]
  else if (clause.says('underfilled') || (clause.names('strip') && clause.denies('filled')))
    yield ['small-drop', ['underfilled', 'strip', 'filled']]
  const ofFinger = ofSkin || alone || clause.names('drop') || clause.names('blood')
  const juice = clause.says('sugary') && !clause.says('place')
  if ((clause.says('squeezed') || clause.says('pressed')) && ofFinger && !juice)
    yield ['squeezed-finger', ['squeezed', 'pressed']]
  if (clause.says('shallow') && (ofSkin || alone || clause.says('prick')))
    yield ['shallow-prick', ['shallow', 'prick']]
}

function* meterAndStrip(clause: Clause): Generator<Found> {
  const equipment = clause.says('meter') || clause.says('strip')
  if (clause.says('cold')) {
    if (equipment) yield ['cold-meter', ['cold', 'meter', 'strip']]
    else if (clause.ofSkin) yield ['cold-hands', ['cold', 'place']]
  }
  if (clause.says('hot') && equipment) yield ['hot-meter', ['hot', 'meter', 'strip']]
  const past =
    clause.says('expired') || clause.follows('out', 'of', 'date') || clause.follows('over', 'datum')
  if ((past && (clause.says('strip') || clause.alone)) || (clause.says('old') && clause.says('strip')))
    yield ['expired-strip', ['expired', 'old', 'strip']]
}

function* contextsIn(clause: Clause): Generator<NoteContext> {
  if (clause.says('other') && clause.says('meter')) yield 'second-meter'
  else if (clause.says('other') && clause.says('place')) yield 'other-finger'
  else if (
    clause.says('repeat') ||
    (clause.says('other') && clause.has(/^(tests?|messung|mesure|medicion|prova|meting)$/))
  )
    yield 'repeat'
}
