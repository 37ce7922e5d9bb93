import {
  FHIR_SYSTEMS,
  type GlucoseSpecimen,
  LOINC_GLUCOSE,
  OFF_SCALE,
  OTHER_MEAL_CODES,
  OWN_AUTHOR,
  TIMING_OF_MEALS,
} from '../../reference/fhir'
import { MEAL_MOMENTS } from '../../reference/mealMoment'
import type { GlucoseUnit } from '../../units/glucose'
import { type CellMoment, readMoment, readTimeCell } from '../dateCell'
import { fromGramsPerLitre, type GlucoseCell, isGramsPerLitre, readGlucose, unitIn } from '../glucoseCell'
import { conceptsOf } from '../words/concepts'
import { headerWords } from '../words/headerRole'
import { kindMeaning } from '../words/kinds'
import { remembered } from '../words/remembered'
import { type JsonObject, memberOf, objectsIn, textIn } from './fhirText'

// What one Observation says, as far as it alone tells.

/** What an Observation is of; `unsure`: glucose of a kind that its code does not let tell. */
export type ObservationOf = GlucoseSpecimen | 'control' | 'other' | 'unsure'

/** Text of all that names a concept: its own words first, then those of its codes. */
function conceptText(concept: unknown): string {
  const words = [
    textIn(concept, 'text'),
    ...objectsIn(concept, 'coding').map((coding) => textIn(coding, 'display')),
  ]
  return words.find((text) => text !== '') ?? ''
}

const LOINC_SYSTEMS: readonly string[] = [
  FHIR_SYSTEMS.loinc,
  'https://loinc.org',
  'urn:oid:2.16.840.1.113883.6.1',
]
/** The stem of the word in English, German, French, Spanish, Italian, Portuguese and Dutch. */
const INTERSTITIAL = /interstiti|intersticia|subcutaneous|subkutan/i
const FROM_LABORATORY = /serum|plasma|siero|suero|soro|laborator|labor\b/i
const NOT_BLOOD = /urin|orina|csf|cerebrospinal|liquor|dialys|tolerance|toleranz|ascit|pleura|synovial/i

/** What an Observation is of, and the unit that its code implies; LOINC's code goes before words. */
export function whatIsObserved(observation: JsonObject): {
  readonly of: ObservationOf
  readonly unit: GlucoseUnit | null
} {
  const code = memberOf(observation, 'code')
  const codings = objectsIn(code, 'coding').filter((coding) =>
    LOINC_SYSTEMS.includes(textIn(coding, 'system').replace(/\/$/, '')),
  )
  for (const coding of codings) {
    const known = LOINC_GLUCOSE.get(textIn(coding, 'code'))
    if (known) return known
  }
  const of = byWords(conceptText(code))
  if (codings.length > 0) return { of: of === 'other' ? 'other' : 'unsure', unit: null }
  return { of, unit: null }
}

const byWords = remembered((text): ObservationOf => {
  if (NOT_BLOOD.test(text)) return 'other'
  const meaning = kindMeaning(text)
  if (meaning === 'control') return 'control'
  if (INTERSTITIAL.test(text) || meaning === 'sensor') return 'sensor'
  const isGlucose = meaning === 'glucose' || headerWords(text).glucose > 0 || conceptsOf(text).has('glucose')
  if (!isGlucose || meaning === 'other') return 'other'
  if (conceptsOf(text).has('statistic')) return 'summary'
  return FROM_LABORATORY.test(text) ? 'laboratory' : 'finger-stick'
})

/** What says when: `span` where it is a run of days, which no reading is. */
export function effectiveIn(observation: JsonObject): {
  readonly moment: CellMoment | 'unreadable' | null
  readonly isSpan: boolean
} {
  const period = memberOf(observation, 'effectivePeriod')
  const [event] = (memberOf(memberOf(observation, 'effectiveTiming'), 'event') ?? []) as readonly unknown[]
  const text = [
    textIn(observation, 'effectiveDateTime'),
    textIn(observation, 'effectiveInstant'),
    textIn(period, 'start'),
    typeof event === 'string' ? event : '',
  ].find((each) => each !== '')
  const [start, end] = [textIn(period, 'start'), textIn(period, 'end')]
  const isSpan = text === start && end !== '' && !start.includes('T') && !end.includes('T')
  if (text === undefined) return { moment: null, isSpan }
  // A year or a month alone names no day.
  const moment = /^\d{4}-\d{2}-\d{2}(?:T|$)/.test(text) ? (readMoment(text) ?? 'unreadable') : 'unreadable'
  return { moment: withClockTime(moment, observation), isSpan }
}

/** A day alone with the clock time that stands beside it in a component. */
function withClockTime(
  moment: CellMoment | 'unreadable',
  observation: JsonObject,
): CellMoment | 'unreadable' {
  if (moment === 'unreadable' || moment.time !== null || moment.day.kind !== 'day') return moment
  const text = objectsIn(observation, 'component')
    .map((component) => textIn(component, 'valueTime'))
    .find((time) => time !== '')
  return text === undefined ? moment : { day: moment.day, time: readTimeCell(text) }
}

/** The value and its unit; `foreign`: the unit is none of glucose. */
export interface ObservedValue {
  readonly glucose: GlucoseCell
  readonly unit: GlucoseUnit | null
  readonly foreign: boolean
}

const EMPTY: ObservedValue = { glucose: { kind: 'empty' }, unit: null, foreign: false }
const UNREADABLE: ObservedValue = {
  glucose: { kind: 'unreadable', mayBeLow: true },
  unit: null,
  foreign: false,
}

export function valueIn(observation: JsonObject): ObservedValue {
  const side = offScaleSide(observation)
  const quantity = memberOf(observation, 'valueQuantity')
  if (typeof quantity === 'object' && quantity !== null) return quantityIn(quantity, side)
  const text = valueText(observation)
  if (text !== null) return withUnit(readGlucose(text))
  if (Object.keys(observation).some((key) => /^value[A-Z]/.test(key))) return UNREADABLE
  if (side !== null) return { ...EMPTY, glucose: { kind: 'marker', side, limit: null, unit: null } }
  const told = readGlucose(textIn(memberOf(observation, 'dataAbsentReason'), 'text'))
  return told.kind === 'marker' ? withUnit(told) : EMPTY
}

function valueText(observation: JsonObject): string | null {
  const number = memberOf(observation, 'valueInteger')
  if (typeof number === 'number') return String(number)
  const text =
    textIn(observation, 'valueString') || conceptText(memberOf(observation, 'valueCodeableConcept'))
  return text === '' ? null : text
}

function withUnit(glucose: GlucoseCell): ObservedValue {
  return { glucose, unit: 'unit' in glucose ? glucose.unit : null, foreign: false }
}

/** On which side of what the meter can measure a value lies, where its interpretation says so. */
function offScaleSide(observation: JsonObject): 'above' | 'below' | null {
  const codes = objectsIn(observation, 'interpretation')
    .flatMap((concept) => objectsIn(concept, 'coding'))
    .map((coding) => textIn(coding, 'code'))
  if (codes.includes(OFF_SCALE.below)) return 'below'
  return codes.includes(OFF_SCALE.above) ? 'above' : null
}

function quantityIn(quantity: object, offScale: 'above' | 'below' | null): ObservedValue {
  const value = memberOf(quantity, 'value')
  const comparator = textIn(quantity, 'comparator')
  const side = comparator.startsWith('<') ? 'below' : comparator.startsWith('>') ? 'above' : offScale
  const read = numberIn(value)
  const [code, text] = [textIn(quantity, 'code'), textIn(quantity, 'unit')]
  const named = [code, text].map((name) => unitIn(name))
  const [ofCode, ofText] = named
  if (ofCode !== null && ofText !== null && ofCode !== ofText) return UNREADABLE
  const inGrams = named.every((unit) => unit === null) && [code, text].some(isGramsPerLitre)
  const unit = ofCode ?? ofText
  const isForeign = unit === null && !inGrams && [code, text].some((name) => /[\p{L}%]/u.test(name))
  if (isForeign) return { ...EMPTY, glucose: read, foreign: true }
  if (read.kind === 'empty')
    return side === null ? EMPTY : { ...EMPTY, glucose: { kind: 'marker', side, limit: null, unit } }
  if (read.kind === 'number' && side !== null) {
    const marker: GlucoseCell = { kind: 'marker', side, limit: read.value, unit }
    return withUnit(inGrams ? fromGramsPerLitre(marker) : marker)
  }
  const glucose = inGrams ? fromGramsPerLitre(read) : read
  return { glucose, unit: inGrams ? 'mg/dL' : (unit ?? withUnit(glucose).unit), foreign: false }
}

/** Three decimals may be digits behind a separator in a text, never in a number of JSON. */
const MOST_DECIMALS = 2

function numberIn(value: unknown): GlucoseCell {
  if (value === undefined || value === null) return { kind: 'empty' }
  // A number written as a text is what it says.
  if (typeof value === 'string') return readGlucose(value)
  if (typeof value !== 'number' || !Number.isFinite(value)) return { kind: 'unreadable', mayBeLow: true }
  const decimals = Math.min(MOST_DECIMALS, (/\.(\d+)/.exec(String(value))?.[1] ?? '').length)
  return { kind: 'number', value, decimals, unit: null, remark: '' }
}

const namesMeal = remembered((text) => headerWords(text).role === 'meal')

/** The meal that a component, or the code itself, tells; its words where it has them. */
export function mealIn(observation: JsonObject): string {
  for (const component of objectsIn(observation, 'component')) {
    const concept = memberOf(component, 'valueCodeableConcept')
    const moment = objectsIn(concept, 'coding')
      .map(mealOfCoding)
      .find((each) => each !== null)
    const isMeal = moment !== undefined || namesMeal(conceptText(memberOf(component, 'code')))
    if (!isMeal) continue
    const words = conceptText(concept) || textIn(component, 'valueString') || (moment ?? '').replace('-', ' ')
    if (words !== '') return words
  }
  return ''
}

function mealOfCoding(coding: JsonObject): string | null {
  const [system, code] = [textIn(coding, 'system'), textIn(coding, 'code')]
  const timed = MEAL_MOMENTS.find(
    (moment) => TIMING_OF_MEALS[moment].system === system && TIMING_OF_MEALS[moment].code === code,
  )
  return timed ?? OTHER_MEAL_CODES.get(code) ?? null
}

/** The notes, but for those that this program itself wrote beside a reading. */
export function noteIn(observation: JsonObject): string {
  return objectsIn(observation, 'note')
    .filter((note) => textIn(note, 'authorString') !== OWN_AUTHOR)
    .map((note) => textIn(note, 'text'))
    .filter((text) => text !== '')
    .join('; ')
}

/** What a reference names: its address, else its words. */
export function referenceIn(value: unknown): string {
  return (
    textIn(value, 'reference') || textIn(memberOf(value, 'identifier'), 'value') || textIn(value, 'display')
  )
}

/** The row of a reading as a person may look for it. */
export function observationText(observation: JsonObject): string {
  const quantity = memberOf(observation, 'valueQuantity')
  const value = memberOf(quantity, 'value')
  return [
    textIn(observation, 'effectiveDateTime') ||
      textIn(observation, 'effectiveInstant') ||
      textIn(memberOf(observation, 'effectivePeriod'), 'start'),
    ...objectsIn(observation, 'component').map((component) => textIn(component, 'valueTime')),
    textIn(quantity, 'comparator') +
      (typeof value === 'number' || typeof value === 'string'
        ? String(value)
        : textIn(observation, 'valueString')),
    textIn(quantity, 'unit') || textIn(quantity, 'code'),
    conceptText(memberOf(observation, 'code')),
    textIn(observation, 'status'),
  ]
    .filter((part) => part !== '')
    .join(', ')
}
