import type { KitFault, WrongValue } from '../../kit/kitFault'
import type { KitPath, KitWrong } from '../../kit/readKit'
import { count } from './numbers'

/** What is said of a value that does not fit; `place`: where it stands. */
const OF_VALUE: Readonly<Record<KitFault | 'missing', (place: string) => string>> = {
  date: (place) => `${place} has to be a date such as "2026-03-02".`,
  moment: (place) => `${place} has to be a date and time such as "2026-03-02T08:15".`,
  noSuchDay: (place) => `${place} is not a date that exists.`,
  year: (place) => `${place} has an unlikely year: check it.`,
  upsideDown: (place) => `${place} is the wrong way round: the first has to be below, or before, the second.`,
  notOfUnit: (place) => `${place} does not fit result and range: these numbers look like the other unit.`,
  oneA1c: (place) => `${place} needs either percent or mmolMol, not both.`,
  missing: (place) => `${place} is missing.`,
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
      return 'the brackets are nested too deep for a kit file.'
    case 'key-twice':
      return `"${wrong.name}" appears twice in one place; keep one.`
    case 'unknown-key': {
      const place = placeText(wrong.path)
      return `${place === '' ? '' : `${place}: `}"${wrong.name}" is not known here. Known names: ${wrong.known.join(', ')}.`
    }
    case 'value':
      return wrongValueText(placeText(wrong.path) || 'The file', wrong.wrong)
  }
}

function wrongValueText(place: string, wrong: WrongValue): string {
  if (wrong.key === 'kind') return `${place} has to be ${KINDS[wrong.expected] ?? 'of another kind'}.`
  if (wrong.key === 'one-of')
    return `${place} has to be ${wrong.values.map((value) => `"${value}"`).join(' or ')}.`
  if (wrong.key !== 'outside') return OF_VALUE[wrong.key](place)
  const { what, bound, limit, included } = wrong
  switch (what) {
    case 'list':
      return `${place} has too ${bound === 'least' ? 'few' : 'many'} entries: at ${bound} ${limit}.`
    case 'text':
      return bound === 'least'
        ? `${place} is empty.`
        : `${place} is longer than ${count(limit, 'character')}.`
    case 'number':
      if (included) return `${place} has to be at ${bound} ${limit}.`
      return `${place} has to be ${bound === 'least' ? 'above' : 'below'} ${limit}.`
  }
}

/** 'controls, entry 2, range'; '' for the whole file. */
function placeText(path: KitPath): string {
  return path.map((part) => (typeof part === 'number' ? `entry ${part + 1}` : part)).join(', ')
}
