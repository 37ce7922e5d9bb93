import { KIT, type Kit } from '../../kit/kit'
import { wrongValue } from '../../kit/kitFault'
import { fieldReader, type FieldReader, known, without } from './fields'
import type { FieldFault, Fields } from './formRequest'
import type { Words } from '../../wording/words'

/** The lists of the kit that the window edits, one entry at a time. */
export const KIT_LISTS = [
  'strips',
  'controls',
  'medicines',
  'clocks',
  'laboratoryA1c',
  'changes',
  'questions',
] as const
export type KitList = (typeof KIT_LISTS)[number]

const ENTRIES: { readonly [L in KitList]: (read: FieldReader, words: Words) => unknown } = {
  strips: ({ text, number, faults, wrong }, words) => {
    const [coldest, hottest] = [number('coldest'), number('hottest')]
    if ((coldest === undefined) !== (hottest === undefined) && faults.length === 0) {
      wrong(coldest === undefined ? 'coldest' : 'hottest', words.forms.FORM_WORDS.bothTemperatures)
    }
    return known({
      vial: text('vial'),
      lot: text('lot'),
      meter: text('meter'),
      expires: text('expires'),
      opened: text('opened'),
      finished: text('finished'),
      daysOnceOpen: number('daysOnceOpen'),
      workingCelsius: coldest === undefined || hottest === undefined ? undefined : [coldest, hottest],
    })
  },
  controls: ({ text, neededText, neededNumber }) =>
    known({
      date: neededText('date'),
      meter: text('meter'),
      vial: text('vial'),
      result: neededNumber('result'),
      range: [neededNumber('low'), neededNumber('high')],
      unit: neededText('unit'),
    }),
  medicines: ({ text, neededText, number }) =>
    known({
      name: neededText('name'),
      milligramsADay: number('milligramsADay'),
      from: text('from'),
      to: text('to'),
    }),
  clocks: ({ text, neededText }) =>
    known({ meter: text('meter'), shown: neededText('shown'), true: neededText('true') }),
  laboratoryA1c: ({ text, neededText, neededNumber }) => ({
    date: neededText('date'),
    [text('unit') === 'mmol/mol' ? 'mmolMol' : 'percent']: neededNumber('value'),
  }),
  changes: ({ neededText }) => neededText('text'),
  questions: ({ neededText }) => neededText('text'),
}

/** Where a value of an entry stands in its form. */
const FIELD_OF: Readonly<Record<string, string>> = {
  'range 0': 'low',
  'range 1': 'high',
  range: 'high',
  'workingCelsius 0': 'coldest',
  'workingCelsius 1': 'hottest',
  workingCelsius: 'hottest',
  percent: 'value',
  mmolMol: 'value',
  '': 'text',
}

/**
 * The kit after a form of one of its lists; `place`: which entry is replaced, null adds one; `fields` null takes it
 * away. An entry that is not there any more changes nothing.
 */
export function kitAfter(
  words: Words,
  kit: Kit,
  list: KitList,
  place: number | null,
  fields: Fields | null,
): { readonly kit: Kit } | { readonly faults: readonly FieldFault[] } {
  const entries: readonly unknown[] = kit[list] ?? []
  if (place !== null && place >= entries.length) return { kit }
  const others = entries.filter((_, i) => i !== place)
  if (fields === null) return { kit: withList(kit, list, others) }
  const reader = fieldReader(words, fields)
  const entry = ENTRIES[list](reader, words)
  if (reader.faults.length > 0) return { faults: reader.faults }
  if (typeof entry === 'object' && entry !== null && Object.keys(entry).length === 0) {
    return {
      faults: [{ field: Object.keys(fields)[0] ?? '', message: words.forms.FORM_WORDS.empty }],
    }
  }
  const after = withList(
    kit,
    list,
    place === null ? [...entries, entry] : entries.map((one, i) => (i === place ? entry : one)),
  )
  const checked = KIT.safeParse(after, { reportInput: true })
  if (checked.success) return { kit: checked.data }
  const first = new Map<string, string>()
  for (const issue of checked.error.issues) {
    const path = issue.path.slice(2).join(' ')
    const field = FIELD_OF[path] ?? path
    if (!first.has(field)) first.set(field, words.forms.formFault(wrongValue(issue)))
  }
  return { faults: [...first].map(([field, message]) => ({ field, message })) }
}

function withList(kit: Kit, list: KitList, entries: readonly unknown[]): Kit {
  return entries.length === 0 ? without(kit, list) : { ...kit, [list]: entries }
}
