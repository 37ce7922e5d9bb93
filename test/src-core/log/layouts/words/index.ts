import { cs, el, hu, ja, pl, ru, tr, zh } from './eastern'
import { de, en, nl } from './germanic'
import { da, fi, nb, sv } from './nordic'
import { es, fr, it, pt } from './romance'
import type { LanguageWords } from './words'

/** The languages in which the tables are written. */
export const LANGUAGES = { en, de, fr, es, pt, it, nl, da, sv, nb, fi, pl, cs, hu, tr, el, ru, ja, zh }
export type Language = keyof typeof LANGUAGES

export const LANGUAGE_NAMES = Object.keys(LANGUAGES) as readonly Language[]

export function wordsOf(language: Language): LanguageWords {
  return LANGUAGES[language]
}
