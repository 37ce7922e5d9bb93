import { mealMoment } from './mealWords'
import { conceptsOf } from './words/concepts'
import { monthOfName } from './words/months'
import { plain } from './words/plain'

// Bytes that are no UTF-8 are read in the character set in which the log's own words are words: known ones, written with
// the letters of one language.

/** The letters beyond ASCII of languages whose character sets share the plain ones (common knowledge). */
const WESTERN = [
  'äöüß',
  'àâæçéèêëîïôœùûüÿ',
  'áéíóúüñ',
  'áâãàçéêíóôõúü',
  'àèéìíîòóùú',
  'éëïöüèêáóíú',
  'æøåé',
  'åäöé',
]
const CENTRAL = ['ąćęłńóśźż', 'áčďéěíňóřšťúůýž', 'áéíóöőúüű']
const TURKISH = ['çğıöşüâîûİ']

interface CharacterSet {
  /** A label of the Encoding Standard. */
  readonly label: string
  /** Letters by language, or the script whose words are of no other. */
  readonly letters: readonly string[] | RegExp
}

const CYRILLIC = /^\p{Script=Cyrillic}+$/u
const HAN_AND_KANA = /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}ー々]+$/u
const HAN = /^\p{Script=Han}+$/u

/** Where nothing tells. */
const USUAL: CharacterSet = { label: 'windows-1252', letters: WESTERN }
const OTHERS: readonly CharacterSet[] = [
  { label: 'windows-1250', letters: CENTRAL },
  { label: 'iso-8859-2', letters: CENTRAL },
  { label: 'windows-1254', letters: TURKISH },
  { label: 'windows-1251', letters: CYRILLIC },
  { label: 'koi8-r', letters: CYRILLIC },
  { label: 'ibm866', letters: CYRILLIC },
  { label: 'windows-1253', letters: /^\p{Script=Greek}+$/u },
  { label: 'shift_jis', letters: HAN_AND_KANA },
  { label: 'euc-jp', letters: HAN_AND_KANA },
  { label: 'gb18030', letters: HAN },
  { label: 'big5', letters: HAN },
  { label: 'euc-kr', letters: /^[\p{Script=Hangul}\p{Script=Han}]+$/u },
]

/** So many different words are looked at. */
const MOST_WORDS = 150
/** Share of the words by which another set must fit better. A design choice. */
const CLEARLY = 0.1

/** Letters, and signs that stand in their place where the set is the wrong one. */
const WORD = /[\p{L}\p{M}\p{No}\p{Co}\ufffd\u0080-\u00bf×÷\u2500-\u25a0]+/gu
/** Signs that stand beside words of many languages. */
const BESIDE = /^[\u00a0-\u00bf\p{No}×÷]+|[\u00a0-\u00bf\p{No}×÷]+$/gu
/** No letter of a word: ordinals, and the sign for a millionth. */
const SIGNS = /[ªºµ]/g

/** The label of the character set of bytes with words in it; `sample` begins with a whole character. */
export function guessEncoding(sample: Uint8Array): string {
  const usual = fitOf(sample, USUAL)
  let [best, label] = [usual + CLEARLY, USUAL.label]
  for (const set of OTHERS) {
    const fit = fitOf(sample, set)
    if (fit > best) [best, label] = [fit, set.label]
  }
  return label
}

/** How well the words fit a set: the share that is written in one language of it, and the share that is known as well. */
function fitOf(sample: Uint8Array, { label, letters }: CharacterSet): number {
  const words = wordsBeyondAscii(new TextDecoder(label).decode(sample, { stream: true }))
  if (words.length === 0) return 0
  const tests =
    letters instanceof RegExp
      ? [(word: string) => letters.test(word)]
      : letters.map((of) => (word: string) => isOf(word, of))
  const cased = words.filter(isCased)
  const written = tests
    .map((test) => cased.filter(test))
    .reduce((most, of) => (of.length > most.length ? of : most))
  const known = written.filter(isKnown).length
  // Any bytes may be signs of Chinese: without a known word nothing tells.
  return known === 0 && letters instanceof RegExp ? 0 : (written.length + known) / words.length
}

function wordsBeyondAscii(text: string): readonly string[] {
  const words = new Set<string>()
  for (const [found] of text.matchAll(WORD)) {
    const word = found.replace(BESIDE, '').replace(SIGNS, '')
    if (/[^\x20-\x7e]/.test(word)) words.add(word)
    if (words.size >= MOST_WORDS) break
  }
  return [...words]
}

function isOf(word: string, letters: string): boolean {
  return [...word].every(
    (letter) => /[a-z]/i.test(letter) || letters.includes(letter) || letters.includes(letter.toLowerCase()),
  )
}

/** Whether capitals stand at the beginning alone, or everywhere. */
function isCased(word: string): boolean {
  return /^\P{Lu}\P{Lu}*$|^\p{Lu}\P{Lu}*$|^\P{Ll}+$/u.test(word)
}

/** A letter or a sign by itself means many things. */
function isKnown(word: string): boolean {
  if (word.length < 2) return false
  return conceptsOf(word).size > 0 || mealMoment(word) !== null || monthOfName(plain(word)) !== null
}
