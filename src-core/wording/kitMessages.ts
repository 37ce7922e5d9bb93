import type { KitFault } from '../kit/kitFault'
import { count } from './numbers'

/** What a kit file is told of a value that does not fit. */
export const KIT_WORDS: Readonly<Record<KitFault | 'missing', string>> = {
  date: 'has to be a date such as "2026-03-02".',
  moment: 'has to be a date and time such as "2026-03-02T08:15".',
  noSuchDay: 'is no day of the calendar.',
  year: 'has a year that cannot be meant.',
  upsideDown: 'is upside down: the first has to be below, or before, the second.',
  notOfUnit: 'does not fit result and range: these numbers are of the other unit.',
  oneA1c: 'needs either percent or mmolMol, one of the two.',
  missing: 'is missing.',
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text in quotation marks',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in square brackets',
  tuple: 'two numbers in square brackets',
  object: 'an object in braces',
}

/** 'has to be a number.' */
export function wrongKindText(expected: string): string {
  return `has to be ${KINDS[expected] ?? 'of another kind'}.`
}

export function outsideText(
  origin: string,
  bound: 'least' | 'most',
  limit: number,
  included: boolean,
): string {
  switch (origin) {
    case 'array':
      return `has too ${bound === 'least' ? 'few' : 'many'} entries: at ${bound} ${limit}.`
    case 'string':
      return bound === 'least' ? 'is empty.' : `is longer than ${count(limit, 'character')}.`
    default:
      if (bound === 'least') return included ? `has to be at least ${limit}.` : `has to be above ${limit}.`
      return included ? `has to be at most ${limit}.` : `has to be below ${limit}.`
  }
}

export function oneOfText(choices: readonly unknown[]): string {
  return `has to be ${choices.map((choice) => `"${String(choice)}"`).join(' or ')}.`
}

/** 'controls, entry 2, range'; '' for the whole file. */
export function kitPlaceText(path: readonly (string | number)[]): string {
  return path.map((part) => (typeof part === 'number' ? `entry ${part + 1}` : part)).join(', ')
}

export const NOT_JSON = 'this is not JSON from here on: look for a missing comma, bracket or quotation mark.'

export const TOO_DEEP = 'the brackets stand too deep within one another for a kit file.'

export function keyTwiceText(key: string): string {
  return `"${key}" stands twice in one place; keep one.`
}

/** Names the keys that would be right there. */
export function unknownKeyText(place: string, key: string, known: readonly string[]): string {
  return `${place === '' ? '' : `${place}: `}"${key}" is not known here. Known are ${known.join(', ')}.`
}
