import type { Fields, FormName } from '../../src-core/bridge/forms/formRequest'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { lengthFault } from '../lengthFault'

/** A field of a form: its name in the messages, and how it is shown. */
export interface FieldSpec {
  readonly name: string
  readonly label: string
  readonly kind: 'text' | 'date' | 'time' | 'moment' | 'number' | 'choice' | 'words'
  readonly hint?: string
  readonly needed?: true
  readonly choices?: readonly { readonly value: string; readonly label: string }[]
  /** Shown only while another field has this value. */
  readonly onlyIf?: { readonly field: string; readonly value: string }
  /** Takes the whole width. */
  readonly wide?: true
  /** Kept for the next entry: a day of a diary has several readings. */
  readonly stays?: true
}

/** Those that are shown beside these values. */
export function shownFields(specs: readonly FieldSpec[], values: Fields): readonly FieldSpec[] {
  return specs.filter(({ onlyIf }) => !onlyIf || values[onlyIf.field] === onlyIf.value)
}

/** What is sent of the fields that are shown. */
export function fieldsToSend(specs: readonly FieldSpec[], values: Fields): Fields {
  return Object.fromEntries(
    shownFields(specs, values).map(({ name, choices }) => [name, values[name] ?? choices?.[0].value ?? '']),
  )
}

/** Sent for a day or time that is half written or none: the browser gives nothing of it. */
const HALF_WRITTEN = '?'

/** The fields within an element that are half written. */
export function halfWritten(within: HTMLElement | null): Fields {
  const inputs = [...(within?.querySelectorAll('input') ?? [])]
  return Object.fromEntries(
    inputs.filter(({ validity }) => validity.badInput).map(({ name }) => [name, HALF_WRITTEN]),
  )
}

/** Those whose text is too long; it is told at the field as it is written. */
export function longFields(specs: readonly FieldSpec[], values: Fields): readonly string[] {
  return specs
    .map(({ name }) => name)
    .filter((name) => lengthFault(values[name] ?? '', MESSAGE_LIMITS.words) !== '')
}

export interface FormSpec {
  readonly form: Exclude<FormName, 'canCauseLows' | 'targets'>
  readonly title: string
  /** What one entry is called. */
  readonly one: string
  readonly lead: string
  readonly fields: readonly FieldSpec[]
}

const same = (value: string) => ({ value, label: value })
/** Becomes a choice among the logs' meters once there are logs. */
const METER: FieldSpec = {
  name: 'meter',
  label: 'Meter',
  kind: 'text',
  hint: 'As its log names it. Empty: all.',
}
const VIAL: FieldSpec = { name: 'vial', label: 'Vial or box', kind: 'text', hint: 'In words of your own.' }
const UNIT: FieldSpec = {
  name: 'unit',
  label: 'Unit',
  kind: 'choice',
  choices: [same('mg/dL'), same('mmol/L')],
}

/** The form with the meters of the logs to choose from; `kept`: what the entry has, also where no log has it. */
export function withMeters(
  fields: readonly FieldSpec[],
  meters: OpenedView['meters'],
  kept = '',
): readonly FieldSpec[] {
  if (meters.length === 0) return fields
  const isOffered = kept === '' || meters.some(({ value }) => value === kept)
  const choices = [{ value: '', label: 'all meters' }, ...meters, ...(isOffered ? [] : [same(kept)])]
  return fields.map((field) =>
    field === METER ? { name: METER.name, label: METER.label, kind: 'choice', choices } : field,
  )
}

export const FORM_SPECS: readonly FormSpec[] = [
  {
    form: 'questions',
    title: 'Questions',
    one: 'question',
    lead: 'What you want to ask at the visit. Printed for it.',
    fields: [{ name: 'text', label: 'Question', kind: 'words', wide: true, needed: true }],
  },
  {
    form: 'changes',
    title: 'Changes',
    one: 'change',
    lead: 'What changed since the last visit: treatment, meter, illness, daily life.',
    fields: [{ name: 'text', label: 'Change', kind: 'words', wide: true, needed: true }],
  },
  {
    form: 'strips',
    title: 'Strips',
    one: 'vial',
    lead: 'Vials or boxes of test strips. Readings with strips out of date are marked as doubtful.',
    fields: [
      VIAL,
      { name: 'lot', label: 'Lot', kind: 'text', hint: 'Printed on the vial.' },
      METER,
      { name: 'expires', label: 'Expires', kind: 'date' },
      { name: 'opened', label: 'Opened', kind: 'date' },
      { name: 'finished', label: 'Finished', kind: 'date' },
      { name: 'daysOnceOpen', label: 'Days good once open', kind: 'number', hint: 'By the leaflet.' },
      { name: 'coldest', label: 'Coldest, °C', kind: 'number', hint: 'For use, by the leaflet.' },
      { name: 'hottest', label: 'Hottest, °C', kind: 'number' },
    ],
  },
  {
    form: 'controls',
    title: 'Control results',
    one: 'control result',
    lead: 'Tests with control solution, with the range printed on the strips.',
    fields: [
      { name: 'date', label: 'Day', kind: 'date', needed: true },
      { name: 'result', label: 'Result', kind: 'number', needed: true },
      UNIT,
      { name: 'low', label: 'Range from', kind: 'number', needed: true },
      { name: 'high', label: 'Range to', kind: 'number', needed: true },
      METER,
      VIAL,
    ],
  },
  {
    form: 'medicines',
    title: 'Medicines',
    one: 'medicine',
    lead: 'Some disturb test strips, such as much vitamin C or paracetamol. Change nothing on your own; ask.',
    fields: [
      { name: 'name', label: 'Name', kind: 'text', needed: true },
      { name: 'milligramsADay', label: 'Milligrams a day', kind: 'number' },
      { name: 'from', label: 'From', kind: 'date' },
      { name: 'to', label: 'To', kind: 'date', hint: 'Empty while you take it.' },
    ],
  },
  {
    form: 'laboratoryA1c',
    title: 'Laboratory A1C',
    one: 'laboratory A1C',
    lead: 'Measured in a laboratory. It stands beside the estimate from the readings.',
    fields: [
      { name: 'date', label: 'Day', kind: 'date', needed: true },
      { name: 'value', label: 'A1C', kind: 'number', needed: true },
      { name: 'unit', label: 'Unit', kind: 'choice', choices: [same('%'), same('mmol/mol')] },
    ],
  },
  {
    form: 'clocks',
    title: 'Meter clocks',
    one: 'look at a clock',
    lead: 'What a meter’s clock showed, and the true time then. No reading is moved by it.',
    fields: [
      { name: 'shown', label: 'The meter showed', kind: 'moment', needed: true },
      { name: 'true', label: 'True time', kind: 'moment', needed: true },
      METER,
    ],
  },
  {
    form: 'typed',
    title: 'Typed readings',
    one: 'reading',
    lead: 'Readings of a paper diary, or those that a meter lost. They count as any other and are marked as typed.',
    fields: [
      { name: 'date', label: 'Day', kind: 'date', needed: true, stays: true },
      { name: 'time', label: 'Time', kind: 'time', needed: true },
      { name: 'value', label: 'Reading', kind: 'number', needed: true, hint: 'Or LO, HI.' },
      { ...UNIT, stays: true },
      { name: 'meal', label: 'Meal', kind: 'text', hint: 'Such as before breakfast.' },
      { name: 'note', label: 'Note', kind: 'text' },
    ],
  },
]
