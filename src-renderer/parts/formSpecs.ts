import type { Fields, FormName } from '../../src-core/bridge/forms/formRequest'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import type { OpenedView } from '../../src-core/bridge/visitView'
import type { WindowWords } from '../../src-core/wording/words'

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
  return specs.map(({ name }) => name).filter((name) => (values[name] ?? '').length > MESSAGE_LIMITS.words)
}

export interface FormSpec extends Told {
  readonly form: ListForm
  readonly fields: readonly FieldSpec[]
}

type ListForm = Exclude<FormName, 'treatment' | 'targets'>
/** What is said of a form, but for its fields. */
type Told = Omit<WindowWords['visitForms']['FORMS'][ListForm], 'fields'>

export const same = (value: string) => ({ value, label: value })

/** The form with the meters of the logs to choose from; `kept`: what the entry has, also where no log has it. */
export function withMeters(
  words: WindowWords,
  fields: readonly FieldSpec[],
  meters: OpenedView['meters'],
  kept = '',
): readonly FieldSpec[] {
  if (meters.length === 0) return fields
  const { ALL_METERS, METER } = words.visitForms
  const isOffered = kept === '' || meters.some(({ value }) => value === kept)
  const choices = [{ value: '', label: ALL_METERS }, ...meters, ...(isOffered ? [] : [same(kept)])]
  return fields.map((field) =>
    field.name === 'meter' ? { name: 'meter', label: METER.label, kind: 'choice', choices } : field,
  )
}

/** The forms of the lists that a visit holds. */
export function formSpecs({ visitForms }: WindowWords): readonly FormSpec[] {
  const { FORMS, METER, UNIT, VIAL } = visitForms
  const { questions, changes, strips, controls, medicines, laboratoryA1c, clocks } = FORMS
  /** Becomes a choice among the logs' meters once there are logs. */
  const meter: FieldSpec = { name: 'meter', kind: 'text', ...METER }
  const vial: FieldSpec = { name: 'vial', kind: 'text', ...VIAL }
  const written = { name: 'text', kind: 'words', wide: true, needed: true } as const
  return [
    { form: 'questions', ...questions, fields: [{ ...written, ...questions.fields.text }] },
    { form: 'changes', ...changes, fields: [{ ...written, ...changes.fields.text }] },
    {
      form: 'strips',
      ...strips,
      fields: [
        vial,
        { name: 'lot', kind: 'text', ...strips.fields.lot },
        meter,
        { name: 'expires', kind: 'date', ...strips.fields.expires },
        { name: 'opened', kind: 'date', ...strips.fields.opened },
        { name: 'finished', kind: 'date', ...strips.fields.finished },
        { name: 'daysOnceOpen', kind: 'number', ...strips.fields.daysOnceOpen },
        { name: 'coldest', kind: 'number', ...strips.fields.coldest },
        { name: 'hottest', kind: 'number', ...strips.fields.hottest },
      ],
    },
    {
      form: 'controls',
      ...controls,
      fields: [
        { name: 'date', kind: 'date', needed: true, ...controls.fields.date },
        { name: 'result', kind: 'number', needed: true, ...controls.fields.result },
        unitSpec(UNIT),
        { name: 'low', kind: 'number', needed: true, ...controls.fields.low },
        { name: 'high', kind: 'number', needed: true, ...controls.fields.high },
        meter,
        vial,
      ],
    },
    {
      form: 'medicines',
      ...medicines,
      fields: [
        { name: 'name', kind: 'text', needed: true, ...medicines.fields.name },
        { name: 'milligramsADay', kind: 'number', ...medicines.fields.milligramsADay },
        { name: 'from', kind: 'date', ...medicines.fields.from },
        { name: 'to', kind: 'date', ...medicines.fields.to },
      ],
    },
    {
      form: 'laboratoryA1c',
      ...laboratoryA1c,
      fields: [
        { name: 'date', kind: 'date', needed: true, ...laboratoryA1c.fields.date },
        { name: 'value', kind: 'number', needed: true, ...laboratoryA1c.fields.value },
        { name: 'unit', kind: 'choice', choices: [same('%'), same('mmol/mol')], ...UNIT },
      ],
    },
    {
      form: 'clocks',
      ...clocks,
      fields: [
        { name: 'shown', kind: 'moment', needed: true, ...clocks.fields.shown },
        { name: 'true', kind: 'moment', needed: true, ...clocks.fields.true },
        meter,
      ],
    },
    { form: 'typed', ...FORMS.typed, fields: typedFields({ visitForms }) },
  ]
}

/** The fields of a reading that is typed. */
export function typedFields({ visitForms }: Pick<WindowWords, 'visitForms'>): readonly FieldSpec[] {
  const { date, time, value, meal, note } = visitForms.FORMS.typed.fields
  return [
    { name: 'date', kind: 'date', needed: true, stays: true, ...date },
    { name: 'time', kind: 'time', needed: true, ...time },
    { name: 'value', kind: 'number', needed: true, ...value },
    { ...unitSpec(visitForms.UNIT), stays: true },
    { name: 'meal', kind: 'text', ...meal },
    { name: 'note', kind: 'text', ...note },
  ]
}

function unitSpec(told: { readonly label: string }): FieldSpec {
  return { name: 'unit', kind: 'choice', choices: [same('mg/dL'), same('mmol/L')], ...told }
}
