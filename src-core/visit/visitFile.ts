import type { Decision, TypedReading } from '../model/decision'
import type { DaySpan } from '../log/readings'
import { type Named, namedAtMost, shortName } from '../model/named'
import { isoDay, parseIsoDay } from '../units/wallClock'
import { EMPTY_VISIT, type Visit, type VisitLog } from './visit'
import { withCodes } from './earlierFiles'
import { firstLineOf, FORMAT, isNewer, parsedJson, VERSION } from './format'
import { HEADER, type Part, PART } from './visitShapes'
import type { Words } from '../wording/words'

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
  const checked = (part: Part) => {
    const json = JSON.stringify(part)
    return { sha256: tools.sha256(json), json }
  }
  const parts = partsOf(visit, tools).map(checked)
  const end = checked({ part: 'end', parts: parts.length, sha256: checksumOfAll(parts, tools) })
  const lines = [...parts, end].map(({ sha256, json }) => `${sha256} ${json}`)
  return `${[PLAIN_HEADER, ...lines].join('\n')}\n`
}

/** Holds the parts and their order together: the SHA-256 of their checksums, one on a line. */
function checksumOfAll(parts: readonly { readonly sha256: string }[], tools: ByteTools): string {
  return tools.sha256(parts.map(({ sha256 }) => `${sha256}\n`).join(''))
}

function partsOf(visit: Visit, tools: ByteTools): readonly Part[] {
  const span = (of: DaySpan | null) => of && { from: isoDay(of.from), to: isoDay(of.to) }
  const { logs, typed, decisions, kit, shifts, period, versus, goal, ...rest } = visit
  const settings = {
    shifts: shifts.map(({ from, to, ...shift }) => ({ from: isoDay(from), to: isoDay(to), ...shift })),
    period: span(period),
    versus: span(versus),
    ...rest,
    ...(goal && { goal }),
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
export function readVisit(words: Words, text: string, tools: ByteTools): VisitRead {
  const [, ...lines] = text.split('\n')
  const first = firstLineOf(text)
  if (isNewer(first)) return { kind: 'refused', message: words.visitFile.VISIT_FILE.newer }
  const header = HEADER.safeParse(first)
  if (!header.success) return { kind: 'refused', message: words.visitFile.VISIT_FILE.notAVisit }
  const damage: string[] = []
  const parts: ReadPart[] = []
  let broken = 0
  let end: End | null = null
  for (const [i, line] of lines.entries()) {
    if (line.trim() === '') continue
    if (end !== null) {
      damage.push(words.visitFile.afterTheEnd(i + 2))
      break
    }
    const read = readPart(words, line, i + 2, tools)
    if (read.why !== null) damage.push(read.why)
    if (read.part?.part === 'end') end = read.part
    else if (read.part === null) broken++
    else parts.push({ part: read.part, sha256: read.sha256 })
  }
  if (end === null) damage.push(words.visitFile.CUT_OFF)
  else if (parts.length + broken < end.parts) damage.push(words.visitFile.PART_MISSING)
  else if (broken === 0 && !isAsSaved(parts, end, tools)) damage.push(words.visitFile.PARTS_CHANGED)
  if (parts.length === 0) return { kind: 'refused', message: words.visitFile.VISIT_FILE.nothingSound }
  const count = (of: Part['part']) => parts.filter(({ part }) => part.part === of).length
  if (count('settings') === 0) damage.push(words.visitFile.SETTINGS_MISSING)
  // Of parts that stand once the last is taken.
  if (Math.max(count('settings'), count('kit')) > 1) damage.push(words.visitFile.PARTS_CHANGED)
  return { kind: 'read', visit: visitOf(parts, tools), damage }
}

function isAsSaved(parts: readonly ReadPart[], end: End, tools: ByteTools): boolean {
  if (parts.length !== end.parts) return false
  return end.sha256 === undefined || end.sha256 === checksumOfAll(parts, tools)
}

type End = Extract<Part, { part: 'end' }>
interface ReadPart {
  readonly part: Part
  readonly sha256: string
}

function readPart(
  words: Words,
  line: string,
  lineNumber: number,
  tools: ByteTools,
): { readonly part: Part | null; readonly sha256: string; readonly why: string | null } {
  const match = /^(?:([0-9a-f]{64}) )?(\{.*\})\r?$/s.exec(line)
  const [, checksum, body] = (match ?? []) as (string | undefined)[]
  const json = parsedJson(body ?? '')
  const claimed = typeof json === 'object' && json !== null && 'part' in json ? json.part : null
  const named = PART_NAMES.find((name) => name === claimed) ?? null
  const sha256 = tools.sha256(body ?? '')
  const damaged = { part: null, sha256, why: words.visitFile.damagedPart(lineNumber, named) }
  if (json === undefined || (checksum !== undefined && sha256 !== checksum)) return damaged
  const unknown = removeUnknownKeys(json)
  const read = PART.safeParse(json)
  if (!read.success) return damaged
  const { data } = read
  if (data.part === 'log' && tools.sha256(tools.fromBase64(data.log.base64)) !== data.log.sha256)
    return damaged
  return {
    part: data,
    sha256,
    why: unknown.length === 0 ? null : words.visitFile.unknownKeys(lineNumber, keysShown(unknown)),
  }
}

const PART_NAMES = PART.options.map(({ shape }) => shape.part.value)

/** Somebody else's words: nothing in them may steer a terminal, and many of them tell no more than a few. */
function keysShown(keys: readonly string[]): Named<string> {
  return namedAtMost(
    keys.map((key) => shortName(key.replace(/\p{C}/gu, '\ufffd'))),
    MOST_KEYS,
  )
}
const MOST_KEYS = 5

/** Takes the keys that this version does not know out of a part; gives these keys. */
function removeUnknownKeys(json: unknown): readonly string[] {
  const read = PART.safeParse(json)
  const issues = read.success ? [] : read.error.issues
  const unknown = issues.flatMap((issue) => (issue.code === 'unrecognized_keys' ? [issue] : []))
  for (const { path, keys } of unknown) {
    let place = json as Record<PropertyKey, unknown>
    for (const step of path) place = place[step] as Record<PropertyKey, unknown>
    for (const key of keys) Reflect.deleteProperty(place, key)
  }
  return unknown.flatMap(({ keys }) => keys)
}

function visitOf(parts: readonly ReadPart[], tools: ByteTools): Visit {
  let visit = EMPTY_VISIT
  const [logs, typed, decisions]: [VisitLog[], TypedReading[], Decision[]] = [[], [], []]
  for (const { part } of parts) {
    if (part.part === 'log') {
      const { base64, ...log } = part.log
      logs.push({ ...log, bytes: tools.fromBase64(base64) })
    } else if (part.part === 'typed') typed.push(part.typed)
    else if (part.part === 'decision') decisions.push(part.decision)
    else if (part.part === 'kit') visit = { ...visit, kit: part.kit }
    else if (part.part === 'settings') {
      const { shifts, period, versus, ...settings } = part.settings
      visit = {
        ...visit,
        ...settings,
        shifts: shifts.map(({ from, to, ...shift }) => ({ ...daySpan({ from, to }), ...shift })),
        period: period && daySpan(period),
        versus: versus && daySpan(versus),
      }
    }
  }
  return withCodes({ ...visit, logs, typed, decisions })
}

function daySpan({ from, to }: { readonly from: string; readonly to: string }): DaySpan {
  return { from: parseIsoDay(from) as number, to: parseIsoDay(to) as number }
}
