import type { LogEntry } from './entries'
import { mergeLogs } from './logbook'
import type { ColumnRole, DayOrder, LogReport } from './logReport'
import type { ImportContext, LogAnswers, LogSource } from './logSource'
import { type ChangeableRole, parseNamedColumns } from './namedColumns'
import { readLog } from './readLog'
import type { Readings } from './readings'
import { type Shift, shiftOn, shiftsOf } from './shifts'
import { shortName } from '../model/named'
import type { GlucoseUnit } from '../units/glucose'
import { SECONDS_PER_MINUTE } from '../units/wallClock'

// What a person may change of how a log was read, and what each choice would make of it, before it is made.

/** What is to be changed. */
export type Subject =
  | { readonly of: 'unit' }
  | { readonly of: 'dates' }
  | { readonly of: 'clock' }
  | { readonly of: 'column'; readonly role: ChangeableRole }

/** What is chosen. */
export type WayChosen =
  | { readonly of: 'unit'; readonly unit: GlucoseUnit }
  | { readonly of: 'dates'; readonly order: DayOrder }
  | { readonly of: 'clock'; readonly hours: '12' | '24' }
  /** `header`: short, as it is shown. */
  | { readonly of: 'column'; readonly role: ChangeableRole; readonly index: number; readonly header: string }

/** The log as one choice would have it read. */
export interface Way {
  readonly chosen: WayChosen
  readonly answers: LogAnswers
  readonly isNow: boolean
  readonly read: AsRead
  /** Two readings of `read`, by their index: of those that come out otherwise than now where there are any. */
  readonly shown: readonly number[]
}

/** What comes of reading a log. */
export interface AsRead {
  readonly report: LogReport
  readonly readings: Readings
  readonly entries: readonly LogEntry[]
}

/** The choices that read the log otherwise than now, and the one that holds. */
export interface Ways {
  readonly ways: readonly Way[]
  /** Whether only the beginning of the log was read for them. */
  readonly isBeginning: boolean
}

/** So much of a log is read for all choices together, and at least and at most for each: about 600 and 30,000 rows. */
const BYTES_READ = 2_000_000
const BYTES_FOR_EACH = { least: 20_000, most: 1_000_000 }
const ROWS_SHOWN = 2

/** Every way to read a log that gives readings, as far as one subject goes. */
export function waysToRead(
  whole: LogSource,
  subject: Subject,
  context: ImportContext,
  shifts: readonly Shift[] = [],
): Ways {
  const answers = whole.answers ?? {}
  const first = asRead(beginningOf(whole, BYTES_FOR_EACH.least).source, answers, context, shifts)
  const given = first === null ? [] : choices(subject, first.report, answers)
  const { least, most } = BYTES_FOR_EACH
  const bytes = Math.min(most, Math.max(least, Math.floor(BYTES_READ / (given.length + 1))))
  const { source, isBeginning } = beginningOf(whole, bytes)
  const reader = (given: LogAnswers) => asRead(source, given, context, shifts)
  const now = reader(answers)
  if (now === null) return { ways: [], isBeginning }
  const current = signature(now)
  const ways = given.flatMap(({ chosen, answers: chosenAnswers }): Way[] => {
    const read = reader(chosenAnswers)
    if (read === null || read.readings.n === 0) return []
    const lines = signature(read)
    const isNow = isSame(lines, current)
    if (isNow && !holds(chosen, now.report, answers)) return []
    const others = isNow ? [] : differing(lines.readings, current.readings)
    return [
      {
        chosen,
        answers: chosenAnswers,
        isNow,
        read,
        shown: (others.length > 0 ? others : inOrderOfLine(read)).slice(0, ROWS_SHOWN),
      },
    ]
  })
  return { ways, isBeginning }
}

/** A log with a stretch of its times moved: how many readings it had before, and those that move, by their index. */
export interface Moved {
  readonly readingsBefore: number
  readonly after: AsRead
  readonly moved: readonly number[]
}

/** What moving a stretch would do to a log, besides the stretches moved before; null where it cannot be read. */
export function moved(
  whole: LogSource,
  shift: Shift,
  context: ImportContext,
  shifts: readonly Shift[],
): Moved | null {
  const answers = whole.answers ?? {}
  const before = asRead(whole, answers, context, shifts)
  const after = asRead(whole, answers, context, [...shifts, shift])
  if (before === null || after === null) return null
  const { readings } = after
  const own = shiftsOf(shifts, whole.sha256)
  const isMoved = (i: number): boolean => {
    const logged = {
      at: readings.at[i] - readings.shiftMinutes[i] * SECONDS_PER_MINUTE,
      flags: readings.flags[i],
    }
    return readings.shiftMinutes[i] !== 0 && shiftOn(logged, own) === 0
  }
  return { readingsBefore: before.readings.n, after, moved: inOrderOfLine(after).filter(isMoved) }
}

function asRead(
  source: LogSource,
  answers: LogAnswers,
  context: ImportContext,
  shifts: readonly Shift[],
): AsRead | null {
  const read = readLog(source, answers, context)
  if (!('table' in read)) return null
  const { sources, readings, entries } = mergeLogs([read], context, shifts)
  return { report: sources[0], readings, entries }
}

/** Without them there are no readings: their columns are not offered for anything else. */
const OF_READINGS: ReadonlySet<ColumnRole> = new Set(['timestamp', 'date', 'time', 'glucose'])

interface Choice {
  readonly chosen: WayChosen
  readonly answers: LogAnswers
}

function choices(subject: Subject, { columns }: LogReport, answers: LogAnswers): readonly Choice[] {
  switch (subject.of) {
    case 'unit':
      return (['mg/dL', 'mmol/L'] as const).map((unit) => ({
        chosen: { of: 'unit', unit },
        answers: { ...answers, instead: { ...answers.instead, unit } },
      }))
    case 'dates':
      return (['dmy', 'mdy', 'ymd'] as const).map((order) => ({
        chosen: { of: 'dates', order },
        answers: { ...answers, instead: { ...answers.instead, dates: order } },
      }))
    case 'clock':
      return (['24', '12'] as const).map((hours) => ({
        chosen: { of: 'clock', hours },
        answers: { ...answers, columns: withNamed(answers.columns, 'clock', hours) },
      }))
    case 'column': {
      const { role } = subject
      return columns
        .filter((column) => OF_READINGS.has(role) || !OF_READINGS.has(column.role))
        .map(({ index, header }) => ({
          chosen: { of: 'column', role, index, header: shortName(header) },
          answers: { ...answers, columns: withNamed(answers.columns, role, String(index + 1)) },
        }))
    }
  }
}

/** Whether the log is read so now. */
function holds(chosen: WayChosen, { unit, dateOrder, columns }: LogReport, answers: LogAnswers): boolean {
  switch (chosen.of) {
    case 'unit':
      return unit.value === chosen.unit
    case 'dates':
      return dateOrder.value === chosen.order
    case 'clock':
      return chosen.hours === clockAnswered(answers)
    case 'column':
      return columns.some(({ index, role }) => index === chosen.index && isRole(role, chosen.role))
  }
}

function clockAnswered({ columns = '' }: LogAnswers): '12' | '24' {
  const named = parseNamedColumns(columns)
  return ('unreadable' in named ? null : named.clock) ?? '24'
}

/** A column of date and time together is called that of the date. */
export function isRole(role: ColumnRole, changeable: ChangeableRole): boolean {
  return role === changeable || (changeable === 'date' && role === 'timestamp')
}

/** The named columns with one named anew; nothing else may then be the same column. */
function withNamed(columns: string | undefined, name: string, column: string): string {
  const names = name === 'date' ? ['date', 'timestamp'] : [name]
  const others = (columns ?? '').split(',').filter((part) => {
    const [role = '', named = ''] = part.split('=').map((piece) => piece.trim())
    return role !== '' && !names.includes(role) && (named !== column || role === 'clock')
  })
  return [...others, `${name}=${column}`].join(',')
}

interface Signature {
  /** Of each reading, in the order of the log's lines: all that is read of it. */
  readonly readings: readonly { readonly index: number; readonly line: number; readonly text: string }[]
  readonly entries: string
}

function signature({ readings, entries }: AsRead): Signature {
  return {
    readings: inOrderOfLine({ readings }).map((index) => ({
      index,
      line: readings.line[index],
      text: [
        readings.at[index],
        readings.mgDl[index],
        readings.flags[index],
        readings.meal(index),
        readings.note(index),
        readings.meters[readings.meter[index]],
      ].join('\t'),
    })),
    entries: entries.map(({ at, line, label, text }) => [at, line, label, text].join('\t')).join('\n'),
  }
}

function isSame(a: Signature, b: Signature): boolean {
  return (
    a.entries === b.entries &&
    a.readings.length === b.readings.length &&
    a.readings.every(({ line, text }, i) => line === b.readings[i].line && text === b.readings[i].text)
  )
}

function differing(these: Signature['readings'], those: Signature['readings']): readonly number[] {
  const before = new Map(those.map(({ line, text }) => [line, text]))
  return these.filter(({ line, text }) => before.get(line) !== text).map(({ index }) => index)
}

function inOrderOfLine({ readings }: Pick<AsRead, 'readings'>): readonly number[] {
  return Array.from({ length: readings.n }, (_, i) => i).sort((a, b) => readings.line[a] - readings.line[b])
}

/** A log cut behind one of its lines where it is long. */
function beginningOf(
  whole: LogSource,
  most: number,
): { readonly source: LogSource; readonly isBeginning: boolean } {
  if (whole.bytes <= most) return { source: whole, isBeginning: false }
  const head = new Uint8Array(most)
  let filled = 0
  for (const chunk of whole.chunks()) {
    head.set(chunk.subarray(0, most - filled), filled)
    filled = Math.min(most, filled + chunk.length)
    if (filled === most) break
  }
  const lineEnd = head.lastIndexOf(0x0a)
  // In UTF-16 with the lower byte first a line end is two bytes, the second of them 0.
  const end = lineEnd < 0 ? filled : lineEnd + (lineEnd % 2 === 0 && head[lineEnd + 1] === 0 ? 2 : 1)
  const bytes = head.subarray(0, end)
  return {
    source: { ...whole, bytes: bytes.length, chunks: () => [bytes], isBeginning: true },
    isBeginning: true,
  }
}
