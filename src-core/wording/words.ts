import type { ENGLISH } from './english'
import type { ENGLISH_OF_WINDOW } from './english/ofWindow'

/**
 * The catalogue of one language: functions of what a sentence names, and texts that name nothing. Whatever prints or
 * shows takes one as an argument; another language is another value of this type (`satisfies Words`).
 */
export type Words = Texts<typeof ENGLISH>

/** The part of it that the page of the window holds itself. */
export type WindowWords = Pick<Words, keyof typeof ENGLISH_OF_WINDOW>

/** The same with any text in the place of one that English has there; what a function takes and gives stays. */
type Texts<T> = T extends string
  ? string
  : T extends number
    ? number
    : T extends (...given: never[]) => unknown
      ? T
      : { readonly [K in keyof T]: Texts<T[K]> }
