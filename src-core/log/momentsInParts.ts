import { calendarDate, dayNumber, SECONDS_PER_DAY } from '../units/wallClock'
import { EARLIEST_YEAR, fullYear, isMidnightWord, readMoment } from './dateCell'
import type { CsvRecord } from './records'
import { cellKind } from './tables/cellKind'
import { calendarPart } from './words/calendarParts'
import { conceptsOf } from './words/concepts'
import { monthNumber } from './words/months'
import { plain, plainDigits } from './words/plain'
import { remembered } from './words/remembered'

// Moments that a table gives in parts which no cell tells alone: year, month and day in three columns; minutes since
// midnight; a moment in UTC and the offset of the clock on the wall. They are put together before anything else is read.

/** A row's cells with its moment put together; null where the row does not hold the parts. */
type Together = (cells: readonly string[]) => string[] | null

/** A header stands among a log's first lines, or is a line without a number. */
const FIRST_LINES = 100
const FEWEST_WORDS = 2

/** The records with their moments put together. */
export function* withMomentsTogether(all: Iterable<CsvRecord>): Generator<CsvRecord> {
  let ways: readonly Together[] = []
  for (const record of all) {
    let cells: readonly string[] = record.cells
    for (const together of ways) cells = together(cells) ?? cells
    if (cells !== record.cells) {
      yield { ...record, cells }
      continue
    }
    if (record.line <= FIRST_LINES || !/\d/.test(record.text)) {
      const found = waysBelow(record.cells)
      // Another header ends the table.
      if (found.length > 0 || isHeader(record.cells)) ways = found
    }
    yield record
  }
}

function isHeader(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell.trim() !== '')
  return filled.length >= FEWEST_WORDS && filled.every((cell) => /\p{L}{2}/u.test(cell) && !/\d/.test(cell))
}

function waysBelow(header: readonly string[]): readonly Together[] {
  if (header.length < FEWEST_WORDS) return []
  const [year, month, day] = (['year', 'month', 'day'] as const).map((part) =>
    header.findIndex((cell) => calendarPart(cell) === part),
  )
  const minutes = header.findIndex(saysMinutesOfDay)
  const offset = header.findIndex(saysOffset)
  return [
    ...(year >= 0 && month >= 0 && day >= 0 ? [dayOf(year, month, day)] : []),
    ...(minutes >= 0 ? [clockOf(minutes)] : []),
    ...(offset >= 0 ? [wallClockOf(header, offset)] : []),
  ]
}

const pad = (part: number): string => String(part).padStart(2, '0')

function isoDay(year: number, month: number, day: number): string {
  return `${String(year)}-${pad(month)}-${pad(day)}`
}

/** The day in full in the column of the day, unless another cell of the row gives one. */
function dayOf(year: number, month: number, day: number): Together {
  const columns = [year, month, day]
  return (cells) => {
    const [y, m, d] = columns.map((index) => plainDigits((cells[index] ?? '').trim()))
    if (!/^(\d{4}|\d{2})$/.test(y) || !/^\d{1,2}$/.test(d)) return null
    const whole = fullYear(Number(y), y.length)
    const number = /^\d{1,2}$/.test(m) ? Number(m) : monthNumber(plain(m))
    if (number === null || whole < EARLIEST_YEAR || dayNumber(whole, number, Number(d)) === null) return null
    if (cells.some((cell, index) => !columns.includes(index) && isDay(cell))) return null
    return cells.map((cell, index) =>
      index === day ? isoDay(whole, number, Number(d)) : columns.includes(index) ? '' : cell,
    )
  }
}

const isDay = remembered((cell: string) => ['day', 'moment'].includes(cellKind(cell)))
const isTime = remembered((cell: string) => cellKind(cell) === 'time')

/** Words between 'minutes' and 'midnight' or 'day', as `plain` gives them. */
const BETWEEN =
  /^(of|the|since|after|past|from|in|seit|nach|ab|des|depuis|apres|de|du|la|le|desde|el|del|da|do|a|dalla|dal|dopo|sinds|na|vanaf|van|siden|efter|etter|fra|sedan|fran|od|po|ota|απο|с|от)$/

/** Whether a header says minutes since midnight, or of the day, and nothing else. */
const saysMinutesOfDay = remembered((header: string) => {
  const words = plain(header).split(' ')
  const isWhole = (word: string): boolean => calendarPart(word) === 'day' || isMidnightWord(word)
  return (
    words.some(isWhole) &&
    words.some((word) => conceptsOf(word).has('minute')) &&
    words.every((word) => isWhole(word) || conceptsOf(word).has('minute') || BETWEEN.test(word))
  )
})

const MINUTES_PER_DAY = 1_440

/** The minutes as a clock time, unless another cell of the row gives one. */
function clockOf(column: number): Together {
  return (cells) => {
    const cell = plainDigits((cells[column] ?? '').trim())
    const minutes = /^\d{1,4}(?:\.0)?$/.test(cell) ? Number(cell) : MINUTES_PER_DAY
    if (minutes >= MINUTES_PER_DAY || cells.some((each, index) => index !== column && isTime(each)))
      return null
    return cells.toSpliced(column, 1, `${pad(Math.floor(minutes / 60))}:${pad(minutes % 60)}`)
  }
}

/** Whether a header says minutes, hours or seconds east of UTC. */
const saysOffset = remembered((header: string) => {
  const name = plain(header.replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2'))
  return (
    /\b(utc|gmt)\b/.test(name) && /\b(offset|versatz|decalage|desfase|verschil|difference|diff)\b/.test(name)
  )
})

/** Offsets from UTC lie within 14 hours (IANA time zones). */
const MOST_OFFSET_MINUTES = 14 * 60

/** Minutes east of UTC; null where a cell gives none. */
function offsetMinutes(cell: string, header: string): number | null {
  const text = plainDigits(cell.trim())
  const clock =
    /^(?:utc|gmt)?([+-]?)(\d{1,2}):(\d{2})(?::00)?$/i.exec(text) ?? /^([+-])(\d{2})(\d{2})$/.exec(text)
  const number = clock === null && /^[+-]?\d{1,8}(?:\.\d+)?$/.test(text) ? Number(text) : null
  const name = plain(header)
  const perMinute = /\b(s|sec|secs|seconds?|sekunden|secondes)\b/.test(name)
    ? 60
    : /\b(h|hrs?|hours?|std|stunden|heures|horas|ore|uren)\b/.test(name) ||
        // Where the header names no unit, few are hours.
        (!/\bmin/.test(name) && Math.abs(number ?? 0) <= MOST_OFFSET_MINUTES / 60)
      ? 1 / 60
      : 1
  const minutes =
    clock !== null
      ? (clock[1] === '-' ? -1 : 1) * (Number(clock[2]) * 60 + Number(clock[3]))
      : number === null
        ? null
        : Math.round(number / perMinute)
  return minutes === null || Math.abs(minutes) > MOST_OFFSET_MINUTES ? null : minutes
}

/** The moment in UTC by the clock on the wall, with its offset; left alone where another cell gives a moment as well. */
function wallClockOf(header: readonly string[], offset: number): Together {
  const saysUtc = header.map((cell) => /\b(utc|gmt|zulu)\b/.test(plain(cell)))
  const offsetOf = remembered((cell: string) => offsetMinutes(cell, header[offset]))
  return (cells) => {
    const minutes = offsetOf(cells[offset] ?? '')
    if (minutes === null) return null
    const moments = cells.flatMap((cell, index) =>
      index === offset || cellKind(cell) !== 'moment' ? [] : [index],
    )
    if (moments.length !== 1) return null
    const [column] = moments
    const ms = instantOf(cells[column], saysUtc[column] ?? false)
    if (ms === null) return null
    const wall = Math.floor(ms / 1000) + minutes * 60
    const day = calendarDate(Math.floor(wall / SECONDS_PER_DAY))
    const second = wall - Math.floor(wall / SECONDS_PER_DAY) * SECONDS_PER_DAY
    const clock = [second / 3600, (second / 60) % 60, second % 60]
      .map((part) => pad(Math.floor(part)))
      .join(':')
    const east = Math.abs(minutes)
    const zone = `${minutes < 0 ? '-' : '+'}${pad(Math.floor(east / 60))}:${pad(east % 60)}`
    const whole = `${isoDay(day.year, day.month, day.day)}T${clock}${zone}`
    return cells.map((cell, index) => (index === column ? whole : index === offset ? '' : cell))
  }
}

/** A moment in milliseconds; null where it is not one of UTC. */
function instantOf(cell: string, isUtc: boolean): number | null {
  const moment = readMoment(cell)
  if (moment?.day.kind === 'instant') return moment.day.ms
  const { day, time } = moment ?? { day: null, time: null }
  if (!isUtc || day?.kind !== 'day' || time === null || time === 'unreadable' || time.offsetMinutes !== null)
    return null
  return (day.day * SECONDS_PER_DAY + time.second) * 1000
}
