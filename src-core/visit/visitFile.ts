import type { DaySpan } from '../log/readings'
import { isoDay, parseIsoDay } from '../units/wallClock'
import {
  CUT_OFF,
  damagedPart,
  PART_MISSING,
  SETTINGS_MISSING,
  unknownKeys,
  VISIT_FILE,
} from '../wording/visitFile'
import { EMPTY_VISIT, type Visit } from './visit'
import { FORMAT, VERSION } from './format'
import { HEADER, type Part, PART } from './visitShapes'

/** What the platform lends: the core has no cryptography and no base64 of its own. */
export interface ByteTools {
  /** SHA-256 of a text's UTF-8 bytes or of bytes, lower-case hexadecimal. */
  sha256(data: string | Uint8Array): string
  toBase64(bytes: Uint8Array): string
  fromBase64(text: string): Uint8Array
}

export type VisitRead =
  /** `damage`: what was not sound or not known, each with its line; empty for a whole file. */
  | { readonly kind: 'read'; readonly visit: Visit; readonly damage: readonly string[] }
  | { readonly kind: 'refused'; readonly message: string }

/** The first line of an unprotected file. */
export const PLAIN_HEADER = JSON.stringify({ format: FORMAT, version: VERSION })

/** The visit as the text of its file: the header, one part on a line led by its SHA-256, and the count at the end. */
export function visitText(visit: Visit, tools: ByteTools): string {
  const parts = partsOf(visit, tools)
  const lines = [...parts, { part: 'end' as const, parts: parts.length }].map((part) => {
    const json = JSON.stringify(part)
    return `${tools.sha256(json)} ${json}`
  })
  return `${[PLAIN_HEADER, ...lines].join('\n')}\n`
}

function partsOf(visit: Visit, tools: ByteTools): readonly Part[] {
  const span = (of: DaySpan | null) => of && { from: isoDay(of.from), to: isoDay(of.to) }
  const { logs, typed, decisions, kit, shifts, period, versus, ...rest } = visit
  const settings = {
    shifts: shifts.map(({ from, to, minutes }) => ({ from: isoDay(from), to: isoDay(to), minutes })),
    period: span(period),
    versus: span(versus),
    ...rest,
  }
  return [
    { part: 'settings', settings },
    ...(Object.keys(kit).length === 0 ? [] : [{ part: 'kit' as const, kit }]),
    ...decisions.map((decision) => ({ part: 'decision' as const, decision })),
    ...typed.map((reading) => ({ part: 'typed' as const, typed: reading })),
    ...logs.map(({ bytes, ...log }) => ({
      part: 'log' as const,
      log: { ...log, base64: tools.toBase64(bytes) },
    })),
  ]
}

/**
 * Reads the text of an unprotected file. Parts that are damaged are left out and told; nothing is taken that does not
 * match its checksum. A part without a checksum, written by hand, is taken as it is.
 */
export function readVisit(text: string, tools: ByteTools): VisitRead {
  const [first, ...lines] = text.split('\n')
  const header = HEADER.safeParse(parsedJson(first))
  if (!header.success) return { kind: 'refused', message: VISIT_FILE.notAVisit }
  if (header.data.version > VERSION) return { kind: 'refused', message: VISIT_FILE.newer }
  const damage: string[] = []
  const parts: Part[] = []
  let end: number | null = null
  lines.forEach((line, i) => {
    if (line.trim() === '' || end !== null) return
    const { part, why } = readPart(line, i + 2, tools)
    if (why !== null) damage.push(why)
    if (part?.part === 'end') end = part.parts
    else if (part !== null) parts.push(part)
  })
  if (end === null) damage.push(CUT_OFF)
  else if (parts.length < end && damage.length === 0) damage.push(PART_MISSING)
  if (!parts.some(({ part }) => part === 'settings')) damage.push(SETTINGS_MISSING)
  if (parts.length === 0) return { kind: 'refused', message: VISIT_FILE.nothingSound }
  return {
    kind: 'read',
    visit: parts.reduce((visit, part) => withPart(visit, part, tools), EMPTY_VISIT),
    damage,
  }
}

function readPart(
  line: string,
  lineNumber: number,
  tools: ByteTools,
): { readonly part: Part | null; readonly why: string | null } {
  const match = /^(?:([0-9a-f]{64}) )?(\{.*\})\r?$/s.exec(line)
  const json = match === null ? undefined : parsedJson(match[2])
  const named = typeof json === 'object' && json !== null && 'part' in json ? String(json.part) : null
  const damaged = { part: null, why: damagedPart(lineNumber, named) }
  if (match === null || json === undefined) return damaged
  const [, checksum, body] = match as unknown as [string, string | undefined, string]
  if (checksum !== undefined && tools.sha256(body) !== checksum) return damaged
  const { value, unknown } = withoutUnknownKeys(json)
  const read = PART.safeParse(value)
  if (!read.success) return damaged
  const { data } = read
  if (data.part === 'log' && tools.sha256(tools.fromBase64(data.log.base64)) !== data.log.sha256)
    return damaged
  return { part: data, why: unknown.length === 0 ? null : unknownKeys(lineNumber, unknown) }
}

/** The part without the keys that this version does not know, and these keys. */
function withoutUnknownKeys(json: unknown): { readonly value: unknown; readonly unknown: readonly string[] } {
  const read = PART.safeParse(json)
  const issues = read.success ? [] : read.error.issues
  const unknown = issues.flatMap((issue) => (issue.code === 'unrecognized_keys' ? [issue] : []))
  if (unknown.length === 0) return { value: json, unknown: [] }
  const value = structuredCopy(json)
  for (const { path, keys } of unknown) {
    let place = value as Record<PropertyKey, unknown>
    for (const step of path) place = place[step] as Record<PropertyKey, unknown>
    for (const key of keys) Reflect.deleteProperty(place, key)
  }
  return { value, unknown: unknown.flatMap(({ keys }) => keys) }
}

function structuredCopy(json: unknown): unknown {
  return JSON.parse(JSON.stringify(json)) as unknown
}

function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}

function withPart(visit: Visit, part: Part, tools: ByteTools): Visit {
  switch (part.part) {
    case 'log': {
      const { base64, ...log } = part.log
      return { ...visit, logs: [...visit.logs, { ...log, bytes: tools.fromBase64(base64) }] }
    }
    case 'typed':
      return { ...visit, typed: [...visit.typed, part.typed] }
    case 'decision':
      return { ...visit, decisions: [...visit.decisions, part.decision] }
    case 'kit':
      return { ...visit, kit: part.kit }
    case 'settings': {
      const { shifts, period, versus, ...settings } = part.settings
      return {
        ...visit,
        ...settings,
        shifts: shifts.map(({ from, to, minutes }) => ({ ...daySpan({ from, to }), minutes })),
        period: period && daySpan(period),
        versus: versus && daySpan(versus),
      }
    }
    case 'end':
      return visit
  }
}

function daySpan({ from, to }: { readonly from: string; readonly to: string }): DaySpan {
  return { from: parseIsoDay(from) as number, to: parseIsoDay(to) as number }
}
