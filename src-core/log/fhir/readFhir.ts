import { OWN_BUNDLE_START } from '../../reference/fhir'
import { VALUE_ALONE } from '../columns'
import { decideUnit } from '../decideUnit'
import { decodedText, type EncodingDecision } from '../encoding'
import type { SetAsideReason } from '../logReport'
import type { LogAnswers, LogSource } from '../logSource'
import { parseNamedColumns } from '../namedColumns'
import { previewRows } from '../preview'
import { refusal, subjectRefusal, unitRefusal } from '../questions'
import type { ReadLog } from '../readLog'
import type { Refusal } from '../refusal'
import { RowTable } from '../rowTable'
import { isControlKind, isControlNote } from '../words/control'
import { remembered } from '../words/remembered'
import { markIn } from '../words/rowMarks'
import {
  type FhirFault,
  type FhirPart,
  fhirParts,
  type JsonObject,
  memberOf,
  objectsIn,
  textIn,
} from './fhirText'
import {
  effectiveIn,
  mealIn,
  noteIn,
  observationText,
  referenceIn,
  valueIn,
  whatIsObserved,
} from './observation'

// A file of HL7 FHIR R4 as a log: each Observation is a row, whoever wrote it. Nothing is guessed from its form, since the
// standard says what stands where; a row that gives no reading is set aside with its reason like one of a table.

/** Bundles within Bundles are looked into so deep. */
const DEEPEST = 4

/** One resource with the part in which it stands. */
interface Found {
  readonly line: number
  /** Null where its text is no JSON. */
  readonly resource: JsonObject | null
  readonly fullUrl: string
}

/** The resources of a part: those of a Bundle within it, and those that another one contains. */
function* resourcesIn({ line, value, fullUrl }: FhirPart, depth = 0): Generator<Found> {
  yield { line, resource: value, fullUrl }
  if (value === null || depth === DEEPEST) return
  for (const resource of objectsIn(value, 'contained'))
    yield* resourcesIn({ line, value: resource, fullUrl: '' }, depth + 1)
  if (textIn(value, 'resourceType') !== 'Bundle') return
  for (const entry of objectsIn(value, 'entry')) {
    const [resource] = objectsIn(entry, 'resource')
    if (resource !== undefined)
      yield* resourcesIn({ line, value: resource, fullUrl: textIn(entry, 'fullUrl') }, depth + 1)
  }
}

/** Each row's line, place among the rows and text. */
export function* fhirRowTexts(
  text: Iterable<string>,
): Generator<{ line: number; row: number; text: string }> {
  let row = 0
  for (const part of fhirParts(text)) {
    if ('fault' in part) return
    for (const { line, resource } of resourcesIn(part)) {
      if (isRow(resource))
        yield { line, row: row++, text: resource === null ? '' : observationText(resource) }
    }
  }
}

function isRow(resource: JsonObject | null): boolean {
  return resource === null || textIn(resource, 'resourceType') === 'Observation'
}

/** Reads a text that begins as an object of JSON does. */
export function readFhirLog(
  source: LogSource,
  encoding: EncodingDecision,
  answers: LogAnswers,
  counted: Pick<LogSource, 'chunks'>,
): ReadLog | readonly Refusal[] {
  const named = answers.columns === undefined ? null : parseNamedColumns(answers.columns)
  if (named && 'unreadable' in named) {
    return [refusal(source.name, 'no-glucose-column', { key: 'unreadable-columns', part: named.unreadable })]
  }
  const rows = new FhirRows()
  const fault = rows.read(decodedText(counted, encoding.label))
  if (fault !== null && !(source.isBeginning && fault.fault === 'broken'))
    return [faultRefusal(source, fault)]
  const { table } = rows
  if (table.n === 0) return [refusal(source.name, 'no-readings', { key: 'no-observation' })]
  const subjects = rows.finish()
  const wanted = named?.kinds ?? null
  if (subjects.length > 1 && wanted === null) {
    const preview = (subject: string) =>
      previewRows(table, { isShown: (row) => rows.subjectOf(row) === subject })
    return [subjectRefusal(source.name, subjects, preview)]
  }
  if (wanted !== null && subjects.some((subject) => wanted.includes(subject))) rows.leaveOthers(wanted)
  const most = rows.whyNone()
  if (most !== null) return [refusal(source.name, 'no-readings', { key: 'all-set-aside', most })]
  const isOwn = firstOf(decodedText(source, encoding.label)).startsWith(OWN_BUNDLE_START)
  const plan = isOwn ? { ...VALUE_ALONE, guardedNotes: true } : VALUE_ALONE
  const unit = decideUnit(table, {
    from: 0,
    to: table.n,
    header: null,
    hasUnitColumn: true,
    foreign: false,
    trusted: isOwn,
    answer: answers.unit ?? null,
    instead: answers.instead?.unit ?? null,
  })
  if ('open' in unit) return [unitRefusal(source.name, plan, table, unit)]
  return {
    source,
    encoding,
    delimiter: 'none',
    plan,
    tables: [
      {
        plan,
        told: {
          headerLine: null,
          firstLine: table.line[0],
          lastLine: table.line[table.n - 1],
          read: true,
          rows: table.n,
        },
        filled: {},
        otherName: null,
        lastText: '',
        title: '',
      },
    ],
    table,
    units: [unit],
    unit: unit.decision,
    dateOrder: { value: 'ymd', basis: 'form' },
    yearGiven: null,
  }
}

function faultRefusal({ name }: LogSource, fault: FhirFault): Refusal {
  switch (fault.fault) {
    case 'not-fhir':
      return refusal(name, 'unreadable-file', { key: 'not-fhir' })
    case 'too-large':
      return refusal(name, 'field-too-large', { key: 'resource-too-large' }, { line: fault.after + 1 })
    case 'broken':
      return refusal(name, 'unreadable-file', { key: 'broken-json', after: fault.after })
  }
}

function firstOf(text: Iterable<string>): string {
  let first = ''
  for (const piece of text) {
    first += piece
    if (first.length >= OWN_BUNDLE_START.length) break
  }
  return first
}

const saysControl = remembered(isControlKind)
const notesControl = remembered(isControlNote)

/** States of an Observation that was taken back (R4, valueset-observation-status.html), and of one not made yet. */
const TAKEN_BACK: readonly string[] = ['entered-in-error', 'cancelled']

/** The rows of a file as they are read, with what only the whole file tells of them. */
class FhirRows {
  readonly table = new RowTable(1024)
  /** Of each row the addresses of its device and its subject, each text held once. */
  readonly #devices: string[] = []
  readonly #subjects: string[] = []
  /** Names by address. */
  readonly #names = new Map<string, string>()
  #ownNames: ReadonlyMap<string, string> | null = null
  /** Addresses of what is a reading by itself, and of each derived one those of its sources. */
  readonly #readings = new Set<string>()
  readonly #derived = new Map<number, readonly string[]>()
  /** Texts of rows without a time of day, with the first of each. */
  readonly #dayRows = new Map<string, number>()
  readonly #texts = new Map<string, string>()

  /** Reads all; what is wrong with the text as a whole, else null. */
  read(text: Iterable<string>): FhirFault | null {
    this.table.addPart()
    for (const part of fhirParts(text)) {
      if ('fault' in part) return part
      for (const found of resourcesIn(part)) this.#take(found)
    }
    return null
  }

  #take({ line, resource, fullUrl }: Found): void {
    if (isRow(resource)) return this.#add(line, resource, fullUrl)
    const name =
      textIn(resource, 'resourceType') === 'Device'
        ? deviceName(resource)
        : textIn(resource, 'resourceType') === 'Patient'
          ? patientName(resource)
          : ''
    if (name !== '') for (const address of addressesOf(resource, fullUrl)) this.#names.set(address, name)
  }

  #add(line: number, observation: JsonObject | null, fullUrl: string): void {
    const { table } = this
    const row = table.n
    if (observation === null) {
      this.#devices.push('')
      this.#subjects.push('')
      table.add({
        ...{ line, fate: 'unreadable-value', moment: null, unit: null, meter: '', meal: '', note: '' },
        glucose: { kind: 'unreadable', mayBeLow: true },
      })
      return
    }
    const { of, unit: ofCode } = whatIsObserved(observation)
    const { moment, isSpan } = effectiveIn(observation)
    const { glucose, unit, foreign } = valueIn(observation)
    const meal = mealIn(observation)
    const note = noteIn(observation)
    const status = textIn(observation, 'status')
    const isControl = of === 'control' || saysControl(meal) || notesControl(note)
    const fate = ((): SetAsideReason | null => {
      if (TAKEN_BACK.includes(status) || markIn(meal) === 'deleted') return 'withdrawn'
      if (of === 'summary' || isSpan) return 'derived'
      if (of === 'other' || of === 'unsure' || foreign) return 'not-glucose'
      if (of === 'laboratory') return 'laboratory'
      if (isControl) return 'control-solution'
      if (glucose.kind === 'empty') return 'empty-value'
      if (glucose.kind === 'unreadable') return 'unreadable-value'
      if (moment === null) return 'empty-date'
      const isUnread =
        moment === 'unreadable' || moment.day.kind === 'impossible' || moment.time === 'unreadable'
      return isUnread ? 'unreadable-date' : null
    })()
    // What was taken back, a laboratory's, or glucose of a kind that is not known is told of where it is low.
    if (fate === 'withdrawn' || fate === 'laboratory' || (fate === 'not-glucose' && of === 'unsure'))
      table.ofUnsureKind.add(row)
    if (of === 'sensor') table.ofSensor.add(row)
    const derivedFrom = objectsIn(observation, 'derivedFrom').map(referenceIn)
    if (derivedFrom.length > 0) this.#derived.set(row, derivedFrom)
    else if (fate === null)
      for (const address of addressesOf(observation, fullUrl)) this.#readings.add(address)
    const device = memberOf(observation, 'device')
    const contained = containedName(observation, device)
    this.#devices.push(this.#once(contained || referenceIn(device)))
    const subject = memberOf(observation, 'subject')
    this.#subjects.push(this.#once(referenceIn(subject)))
    for (const one of [device, subject]) {
      const [address, words] = [textIn(one, 'reference'), textIn(one, 'display')]
      if (address !== '' && words !== '' && !this.#names.has(address)) this.#names.set(address, words)
    }
    if (fate === null && moment !== 'unreadable' && moment?.time === null && moment.day.kind === 'day') {
      const text = JSON.stringify(observation)
      const first = this.#dayRows.get(text)
      if (first === undefined) this.#dayRows.set(text, row)
      else table.equalRows.push({ row, first })
    }
    table.add({ line, fate, moment, glucose, unit: unit ?? ofCode, meter: '', meal, note })
  }

  #once(text: string): string {
    const known = this.#texts.get(text)
    if (known !== undefined) return known
    this.#texts.set(text, text)
    return text
  }

  /** Resolves what rows name; gives the subjects of those that are readings. */
  finish(): readonly string[] {
    const { table } = this
    for (const [row, sources] of this.#derived) {
      const reason = table.fates.reasonOf(row)
      const isValue = reason === null || reason === 'not-glucose'
      if (isValue && sources.some((source) => this.#readings.has(source)))
        table.fates.setAside(row, 'derived')
    }
    const withSeconds = new Set<string>()
    for (let row = 0; row < table.n; row++) {
      const device = this.#devices[row]
      if (device !== '') table.meters.set(row, this.#names.get(device) ?? lastPart(device))
      if (secondOfMinute(table, row) !== 0) withSeconds.add(device)
    }
    // The standard wants seconds even where a meter has none; then all of them are 0.
    for (let row = 0; row < table.n; row++)
      table.hasSeconds[row] = withSeconds.has(this.#devices[row]) ? 1 : 0
    const subjects = new Set<string>()
    for (let row = 0; row < table.n; row++)
      if (table.fates.reasonOf(row) === null && this.#subjects[row] !== '') subjects.add(this.subjectOf(row))
    return [...subjects]
  }

  /** Whose a row is: by name where the file has one that is no other's too. No mark that ends an answer stands in it. */
  subjectOf(row: number): string {
    const subject = this.#subjects[row]
    return (this.#namesOfSubjects().get(subject) ?? subject).replace(/[,|]/g, ' ').trim()
  }

  #namesOfSubjects(): ReadonlyMap<string, string> {
    if (this.#ownNames !== null) return this.#ownNames
    const named = [...new Set(this.#subjects)].flatMap((subject): [string, string][] => {
      const name = this.#names.get(subject)
      return name === undefined ? [] : [[subject, name]]
    })
    this.#ownNames = new Map(
      named.filter(([subject, name]) => named.every((other) => other[0] === subject || other[1] !== name)),
    )
    return this.#ownNames
  }

  /** Sets the rows of all but these aside. */
  leaveOthers(wanted: readonly string[]): void {
    const { table } = this
    for (let row = 0; row < table.n; row++) {
      if (table.fates.reasonOf(row) !== null || wanted.includes(this.subjectOf(row))) continue
      table.fates.setAside(row, 'not-glucose')
      if (this.#subjects[row] === '') table.ofUnsureKind.add(row)
    }
  }

  /** The commonest reason where no row is a reading; null where one is. */
  whyNone(): SetAsideReason | null {
    const counts = new Map<SetAsideReason, number>()
    for (let row = 0; row < this.table.n; row++) {
      const reason = this.table.fates.reasonOf(row)
      if (reason === null) return null
      counts.set(reason, (counts.get(reason) ?? 0) + 1)
    }
    const [[most]] = [...counts].sort(([, a], [, b]) => b - a)
    return most
  }
}

const SECONDS_PER_MINUTE = 60

function secondOfMinute(table: RowTable, row: number): number {
  const second = table.secondOf(row)
  const ofInstant = Math.floor(table.day[row] / 1000)
  const whole = table.isInstant(row) ? ofInstant : typeof second === 'number' ? second : 0
  return ((whole % SECONDS_PER_MINUTE) + SECONDS_PER_MINUTE) % SECONDS_PER_MINUTE
}

/** The ways in which a resource is referred to. */
function addressesOf(resource: unknown, fullUrl: string): readonly string[] {
  const [type, id] = [textIn(resource, 'resourceType'), textIn(resource, 'id')]
  return [fullUrl, ...(id === '' ? [] : [`${type}/${id}`])].filter((address) => address !== '')
}

function deviceName(device: unknown): string {
  const [name] = objectsIn(device, 'deviceName').map((each) => textIn(each, 'name'))
  const [identifier] = objectsIn(device, 'identifier').map((each) => textIn(each, 'value'))
  return (
    [
      name,
      textIn(device, 'displayName'),
      textIn(device, 'modelNumber'),
      identifier,
      textIn(device, 'serialNumber'),
    ].find((text) => text !== undefined && text !== '') ?? ''
  )
}

function patientName(patient: unknown): string {
  const [name] = objectsIn(patient, 'name')
  const given = memberOf(name, 'given')
  const parts: unknown[] = [...(Array.isArray(given) ? (given as unknown[]) : []), memberOf(name, 'family')]
  return textIn(name, 'text') || parts.filter((part) => typeof part === 'string').join(' ')
}

/** The name of a device that the Observation itself contains. */
function containedName(observation: JsonObject, device: unknown): string {
  const reference = textIn(device, 'reference')
  if (!reference.startsWith('#')) return ''
  const [found] = objectsIn(observation, 'contained').filter(
    (one) => textIn(one, 'id') === reference.slice(1),
  )
  return deviceName(found)
}

/** 'meter-7' of 'Device/meter-7'. */
function lastPart(address: string): string {
  return address.includes(' ') ? address : (address.split('/').at(-1) ?? address)
}
