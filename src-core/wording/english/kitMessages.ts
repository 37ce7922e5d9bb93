import type { KitFault } from '../../kit/kitFault'
import type { KitPath, KitWrong, WrongValue } from '../../kit/readKit'
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

/** What is wrong at one place of a kit file, for the person who wrote it. */
export function kitProblemText(wrong: KitWrong): string {
  switch (wrong.key) {
    case 'not-json':
      return 'this is not JSON from here on: look for a missing comma, bracket or quotation mark.'
    case 'too-deep':
      return 'the brackets stand too deep within one another for a kit file.'
    case 'key-twice':
      return `"${wrong.name}" stands twice in one place; keep one.`
    case 'unknown-key': {
      const place = placeText(wrong.path)
      return `${place === '' ? '' : `${place}: `}"${wrong.name}" is not known here. Known are ${wrong.known.join(', ')}.`
    }
    case 'value':
      return `${placeText(wrong.path) || 'The file'} ${wrongValueText(wrong.wrong)}`
  }
}

function wrongValueText(wrong: WrongValue): string {
  if (wrong.key === 'kind') return `has to be ${KINDS[wrong.expected] ?? 'of another kind'}.`
  if (wrong.key === 'one-of') return `has to be ${wrong.values.map((value) => `"${value}"`).join(' or ')}.`
  return wrong.key === 'outside' ? outsideText(wrong) : KIT_WORDS[wrong.key]
}

function outsideText({
  what,
  bound,
  limit,
  included,
}: Extract<WrongValue, { readonly key: 'outside' }>): string {
  switch (what) {
    case 'list':
      return `has too ${bound === 'least' ? 'few' : 'many'} entries: at ${bound} ${limit}.`
    case 'text':
      return bound === 'least' ? 'is empty.' : `is longer than ${count(limit, 'character')}.`
    case 'number':
      if (bound === 'least') return included ? `has to be at least ${limit}.` : `has to be above ${limit}.`
      return included ? `has to be at most ${limit}.` : `has to be below ${limit}.`
  }
}

/** 'controls, entry 2, range'; '' for the whole file. */
function placeText(path: KitPath): string {
  return path.map((part) => (typeof part === 'number' ? `entry ${part + 1}` : part)).join(', ')
}
