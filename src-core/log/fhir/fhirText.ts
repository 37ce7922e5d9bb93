// The resources of a file of HL7 FHIR, one by one, so that a long one never stands in memory as a whole.

export type JsonObject = Readonly<Record<string, unknown>>

/** One resource, or what holds one: a Bundle's entry, a line. */
export interface FhirPart {
  /** 1-based: the entry's number in a Bundle, else the line. */
  readonly line: number
  /** Null where its text is no JSON. */
  readonly value: JsonObject | null
  readonly fullUrl: string
}

/** Why a text is no FHIR; `after`: how many parts were sound before. */
export type FhirFault =
  | { readonly fault: 'not-fhir' }
  | { readonly fault: 'broken'; readonly after: number }
  | { readonly fault: 'too-large'; readonly after: number }

/** So much of the beginning is looked at for a line that is a resource by itself. */
const HEAD = 400_000
/** No resource of readings is longer; a printed report within one may be some of it. */
const LONGEST_PART = 16_000_000

/** A member of an object, whatever its keys are called: none is inherited. */
export function memberOf(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, key)
    ? (value as JsonObject)[key]
    : undefined
}

export function textIn(value: unknown, key: string): string {
  const member = memberOf(value, key)
  return typeof member === 'string' ? member.trim() : ''
}

/** The objects of a list; an object that should be a list is one of one. */
export function objectsIn(value: unknown, key: string): readonly JsonObject[] {
  const member = memberOf(value, key)
  return (Array.isArray(member) ? member : [member]).filter(isObject)
}

function isObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** Every part of a text; a fault ends it. */
export function* fhirParts(text: Iterable<string>): Generator<FhirPart | FhirFault> {
  const pieces: Iterator<string, unknown> = text[Symbol.iterator]()
  let head = ''
  let isWhole = false
  while (head.length < HEAD && !isWhole) {
    const step = pieces.next()
    if (step.done === true) isWhole = true
    else head += step.value
  }
  function* whole(): Generator<string> {
    yield head
    if (!isWhole) yield* { [Symbol.iterator]: () => pieces }
  }
  yield* hasLines(head) ? partsOfLines(whole()) : partsOfBundle(whole())
}

/** Whether the first line is an object by itself and others follow it. */
function hasLines(head: string): boolean {
  const start = head.trimStart()
  const end = start.indexOf('\n')
  return end >= 0 && /\S/.test(start.slice(end)) && parsedObject(start.slice(0, end)) !== null
}

function parsedObject(text: string): JsonObject | null {
  try {
    const value: unknown = JSON.parse(text)
    return isObject(value) ? value : null
  } catch {
    return null
  }
}

function* partsOfLines(text: Iterable<string>): Generator<FhirPart | FhirFault> {
  let line = 0
  let sound = 0
  let rest = ''
  function* partOf(content: string): Generator<FhirPart | FhirFault> {
    line++
    if (content.trim() === '') return
    const value = parsedObject(content)
    if (value !== null && textIn(value, 'resourceType') === '') {
      yield { fault: 'not-fhir' }
      return
    }
    if (value !== null) sound++
    yield { line, value, fullUrl: '' }
  }
  for (const piece of text) {
    const lines = (rest + piece).split('\n')
    rest = lines.pop() ?? ''
    for (const content of lines) yield* partOf(content)
    if (rest.length > LONGEST_PART) {
      yield { fault: 'too-large', after: sound }
      return
    }
  }
  yield* partOf(rest)
}

/** What opens and closes; within a string its end, or what hides the next character. */
const OUTSIDE = /["{}[\]]/g
const WITHIN = /["\\]/g

/** The entries of a Bundle each by itself, and what is left of the text around them; a lone resource is one part. */
function* partsOfBundle(text: Iterable<string>): Generator<FhirPart | FhirFault> {
  let buffer = ''
  let at = 0
  let depth = 0
  let inString = false
  let stringFrom = 0
  /** The last string outside the entries, one level deep: the key that a list stands behind. */
  let key = ''
  let inEntries = false
  let entryFrom = -1
  let keptFrom = 0
  /** The text without its entries. */
  let around = ''
  let number = 0
  for (const piece of text) {
    // What was looked at and is not needed goes.
    const from = entryFrom >= 0 ? entryFrom : Math.min(keptFrom, inString ? stringFrom : keptFrom)
    buffer = buffer.slice(from) + piece
    at -= from
    keptFrom -= from
    stringFrom -= from
    if (entryFrom >= 0) entryFrom = 0
    if (buffer.length > LONGEST_PART || around.length > LONGEST_PART) {
      yield { fault: 'too-large', after: number }
      return
    }
    for (;;) {
      const mark = inString ? WITHIN : OUTSIDE
      mark.lastIndex = at
      const found = mark.exec(buffer)
      if (found === null) {
        at = buffer.length
        break
      }
      const [sign] = found
      if (sign === '\\') {
        // Its second half may be in the next piece.
        if (found.index + 1 >= buffer.length) {
          at = found.index
          break
        }
        at = found.index + 2
        continue
      }
      at = found.index + 1
      if (sign === '"') {
        inString = !inString
        if (inString) stringFrom = found.index
        else if (depth === 1) key = buffer.slice(stringFrom + 1, found.index)
      } else if (sign === '{' || sign === '[') {
        if (depth === 1) inEntries = sign === '[' && key === 'entry'
        if (depth === 2 && inEntries && sign === '{') {
          around += buffer.slice(keptFrom, found.index)
          entryFrom = found.index
        }
        depth++
      } else {
        depth--
        if (depth === 1) inEntries = false
        if (depth !== 2 || entryFrom < 0) continue
        const entry = parsedObject(buffer.slice(entryFrom, at))
        if (entry === null) {
          yield { fault: 'broken', after: number }
          return
        }
        number++
        around += '0'
        entryFrom = -1
        keptFrom = at
        const resource = memberOf(entry, 'resource')
        if (isObject(resource)) yield { line: number, value: resource, fullUrl: textIn(entry, 'fullUrl') }
      }
    }
  }
  if (entryFrom >= 0) {
    yield { fault: 'broken', after: number }
    return
  }
  const rest = parsedObject(around + buffer.slice(keptFrom))
  if (rest === null) yield { fault: 'broken', after: number }
  else if (textIn(rest, 'resourceType') === '') yield { fault: 'not-fhir' }
  // The entries were told before; what stands around them is the Bundle's own, or a lone resource.
  else yield { line: 1, value: rest, fullUrl: '' }
}
