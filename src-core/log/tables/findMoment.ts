import { halfOfDay, readMoment } from '../dateCell'
import { conceptsOf } from '../words/concepts'
import { plain } from '../words/plain'
import { type ColumnProfile, MOST_CELLS } from './columnProfile'
import type { TableColumn } from './tableColumn'

/** Where a table's dates and times stand. */
export interface MomentColumns {
  /** Null where lines above the rows give the day. */
  readonly date: number | null
  readonly time: number | null
  /** Minutes in a column of their own beside that of the hours. */
  readonly minute: number | null
  /** AM and PM in a column of their own. */
  readonly halfDay: number | null
  /** Whether '7.30' is half past seven. */
  readonly dotClock: boolean
  /** Another column of times that may as well be the reading's. */
  readonly rivalTime: number | null
  /** Another column that may as well be the date. */
  readonly rival: number | null
}

/** How much better one column of dates must be than the next to be taken without asking. */
const CLEAR = 1
/** A day of birth or of an order is no day of a reading, also where it is the only one. */
const LEAST_SCORE = -1.5

/**
 * The columns of date and time among `columns`, by words and by what they hold; null where there are none. `all` are
 * the table's columns, `columns` may be some of them.
 */
export function findMoment(
  columns: readonly TableColumn[],
  all: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  hasDayHeadings: boolean,
): MomentColumns | null {
  const named = (role: 'timestamp' | 'date' | 'time'): number | undefined =>
    columns.find((column) => column.named && column.role === role)?.index
  const isHeaded = columns.some(
    ({ index, role, header }) =>
      (role === 'date' || role === 'timestamp' || conceptsOf(header).has('date')) &&
      role !== 'note' &&
      profiles[index].filled > 0,
  )
  const dates = columns
    // Below headings of days, and beside a column headed as the date, the notes hold none of the rows' own.
    .filter(
      ({ index, role }) =>
        isDateColumn(profiles[index], role) && !((hasDayHeadings || isHeaded) && role === 'note'),
    )
    .map(({ index }) => ({ index, score: dateScore(all, profiles, index) }))
    .filter(({ score }) => score > LEAST_SCORE)
    .sort((a, b) => b.score - a.score || a.index - b.index)
  const forced = named('date') ?? named('timestamp')
  const namedTime = named('time')
  const first = dates.at(0)
  let date =
    forced ?? (namedTime !== undefined && profiles[namedTime].holdsDates ? namedTime : first?.index) ?? null
  let rival: number | null = null
  if (
    forced === undefined &&
    namedTime === undefined &&
    dates.length > 1 &&
    dates[0].score - dates[1].score < CLEAR
  ) {
    if (differs(profiles[dates[0].index], profiles[dates[1].index])) rival = dates[1].index
  }
  if (date === null)
    date = columns.find(({ role, index }) => role === 'date' && !profiles[index].holdsNumbers)?.index ?? null
  if (date === null && !hasDayHeadings) {
    date =
      columns.find(
        ({ role, index }) => (role === 'timestamp' || role === 'date') && profiles[index].filled > 0,
      )?.index ?? null
    if (date === null) return null
  }
  const isNamedMoment = date !== null && date === namedTime
  if (date !== null && (isNamedMoment || (profiles[date].holdsMoments && namedTime === undefined))) {
    return { date, time: null, minute: null, halfDay: null, dotClock: false, rival, rivalTime: null }
  }
  const found = findTime(columns, profiles, date)
  return { date, rival, ...found, rivalTime: rivalOf(found.time, columns, all, profiles) }
}

/** Share of the cells that must be days where the header says that they are. */
const MORE_THAN_HALF = 0.5

/** Share of the rows with a time in a column that no word calls one. */
const FEWEST_TIMES = 0.3

function isDateColumn(profile: ColumnProfile, role: TableColumn['role']): boolean {
  // A note holds a day now and then.
  if (role === 'note' && profile.filled < MOST_CELLS * profile.rows) return false
  if (
    (role === 'date' || role === 'timestamp') &&
    profile.days + profile.moments > MORE_THAN_HALF * profile.filled
  )
    return true
  if (profile.holdsDates && profile.filled > 0) {
    // Five digits may be a day of a spreadsheet and nine a moment, or a number of something.
    return (
      role === 'date' ||
      role === 'timestamp' ||
      role === 'time' ||
      !profile.cells.every((cell) => cell === '' || /^\d{5,}$/.test(cell))
    )
  }
  return false
}

function dateScore(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  index: number,
): number {
  const { role, words } = columns[index]
  const profile = profiles[index]
  let score = 0
  if (role === 'timestamp' || role === 'date') score += 3
  else if (role === 'time') score += 2.5
  score += words.occasion * (words.occasion < 0 ? 5 : 2)
  if (
    profile.isConstant &&
    profiles.some((other) => other !== profile && other.holdsDates && !other.isConstant)
  )
    score -= 3
  if (profile.moments > profile.midnights) score += 0.5
  if (profile.filled < 0.5 * profile.rows) score -= 1
  // What a clock on the wall showed goes before the same moment in UTC.
  const isUtc =
    /\b(utc|gmt|zulu)\b/.test(plain(columns[index].header)) ||
    columns.some((column) => column.index !== index && isLocalOf(profiles[column.index], profile))
  if (isUtc) score -= 1.5
  return score
}

/** Offsets from UTC lie within these bounds, in quarters of an hour; summer time makes a second one (IANA time zones). */
const OFFSETS = { mostHours: 14, step: 900, mostOfOnePlace: 2 } as const

/** Whether a column of moments without a zone is that of another in UTC, by the clock of one place. */
function isLocalOf(local: ColumnProfile, utc: ColumnProfile): boolean {
  if (!local.holdsMoments || !utc.holdsMoments) return false
  const offsets = new Set<number>()
  for (const [i, cell] of utc.cells.entries()) {
    if (cell === '' || local.cells[i] === '') continue
    const [there, here] = [readMoment(cell), readMoment(local.cells[i])]
    if (there?.day.kind !== 'instant' || here?.day.kind !== 'day' || typeof here.time !== 'object')
      return false
    const offset = here.day.day * 86_400 + (here.time?.second ?? 0) - Math.floor(there.day.ms / 60_000) * 60
    // A cell may leave the seconds out.
    const quarters = Math.round(offset / OFFSETS.step)
    if (Math.abs(offset - quarters * OFFSETS.step) >= 60 || Math.abs(offset) > OFFSETS.mostHours * 3600)
      return false
    offsets.add(quarters)
  }
  return offsets.size > 0 && offsets.size <= OFFSETS.mostOfOnePlace
}

function differs(a: ColumnProfile, b: ColumnProfile): boolean {
  return a.cells.some((cell, i) => cell !== '' && b.cells[i] !== '' && cell !== b.cells[i])
}

function findTime(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  date: number | null,
): Omit<MomentColumns, 'date' | 'rival' | 'rivalTime'> {
  const none = { time: null, minute: null, halfDay: null, dotClock: false }
  const others = columns.filter(({ index, words }) => index !== date && words.occasion >= 0)
  const halfDay =
    others.find(
      ({ index, role, header }) =>
        role !== 'note' &&
        role !== 'meter' &&
        profiles[index].isMostly(profiles[index].halfDays) &&
        saysHalf(header, profiles[index]),
    )?.index ??
    // Closing lines below a few rows leave the name of the column to tell it.
    others.find(({ index, header }) => HALF_HEADER.test(header.trim()) && profiles[index].halfDays > 0)
      ?.index ??
    null
  const named = others.find((column) => column.named && column.role === 'time')
  const isTime = ({ role }: TableColumn): boolean => role === 'time' || role === 'timestamp'
  // Where a column is headed as the time and holds some, those beside it have been pushed there.
  const isHeaded = others.some((column) => isTime(column) && profiles[column.index].times > 0)
  const fewest = isHeaded ? MOST_CELLS : FEWEST_TIMES
  const clock =
    named ??
    others.find((column) => isTime(column) && profiles[column.index].holdsTimes) ??
    others.find(
      (column) => isTime(column) && profiles[column.index].isMostly(profiles[column.index].dotClocks),
    ) ??
    others.find((column) => column.role === 'timestamp' && profiles[column.index].holdsMoments) ??
    others.find(
      (column) => isTime(column) && profiles[column.index].isMostly(profiles[column.index].clockDigits),
    ) ??
    others.find(
      (column) =>
        column.words.against === null &&
        profiles[column.index].holdsTimes &&
        // A cell that was pushed there by another is no column of times.
        profiles[column.index].filled >= fewest * profiles[column.index].rows &&
        canBeTime(column),
    )
  if (clock) {
    const profile = profiles[clock.index]
    return {
      ...none,
      time: clock.index,
      halfDay,
      dotClock:
        profile.dotClocks > 0 &&
        profile.isMostly(profile.dotClocks + profile.times) &&
        profile.times < profile.filled,
    }
  }
  const hour = others.find((column) => saysAlone(column, 'hour') && isWithin(profiles[column.index], 23))
  const minute = others.find(
    (column) => column !== hour && saysAlone(column, 'minute') && isWithin(profiles[column.index], 59),
  )
  if (hour && minute) return { ...none, time: hour.index, minute: minute.index, halfDay }
  const words =
    others.find(
      ({ role, index }) => role === 'time' && profiles[index].filled > 0 && !profiles[index].holdsDates,
    ) ??
    // Closing lines below a few rows hide that most of its cells are clock times.
    others.find(({ role, index, header }) => {
      const { times, dotClocks, clockDigits, filled, holdsDates } = profiles[index]
      const concepts = conceptsOf(header)
      return (
        role === 'timestamp' &&
        (concepts.has('time') || concepts.has('moment')) &&
        !holdsDates &&
        times + Math.max(dotClocks, clockDigits) > MORE_THAN_HALF * filled
      )
    })
  if (!words) return { ...none, halfDay: null }
  const profile = profiles[words.index]
  return {
    ...none,
    time: words.index,
    halfDay,
    dotClock: profile.dotClocks > 0 && profile.isMostly(profile.dotClocks + profile.times),
  }
}

/** A second column of clock times that is as likely the reading's: no word for another thing, and other times. */
function rivalOf(
  time: number | null,
  columns: readonly TableColumn[],
  all: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
): number | null {
  if (time === null || all[time].named || !profiles[time].holdsTimes) return null
  // A single word for time, or one for measuring, settles it.
  const isPlain =
    all[time].words.role === 'time' &&
    !/\b(start|begin\w*|from|von|debut|inicio|inizio|end|ende|stop|until|bis|fin|fine|start\w*|to)\b/i.test(
      all[time].header,
    )
  if (isPlain || all[time].words.occasion > 0) return null
  const rival = columns.find(
    ({ index, words }) =>
      index !== time &&
      words.against === null &&
      words.occasion === 0 &&
      profiles[index].holdsTimes &&
      profiles[index].filled >= 0.8 * profiles[index].rows &&
      differs(profiles[index], profiles[time]),
  )
  return rival?.index ?? null
}

const HALF_HEADER = /^\(?a\.?m\.?\s?[/|or-]{1,2}\s?p\.?m\.?\)?$/i

function canBeTime({ role }: TableColumn): boolean {
  return role === 'ignored' || role === 'meal'
}

/** A single letter may be a weekday as well: it needs its header, or the other half beside it. */
function saysHalf(header: string, { distinct }: ColumnProfile): boolean {
  const cells = [...distinct.keys()].filter((cell) => halfOfDay(cell) !== null)
  return (
    cells.some((cell) => cell.length > 1) ||
    /\b(am|pm)\b/.test(plain(header)) ||
    new Set(cells.map(halfOfDay)).size > 1
  )
}

/** Whether a header is a word for hours or minutes of the clock and nothing else. */
function saysAlone({ header }: TableColumn, concept: 'hour' | 'minute'): boolean {
  const name = header.split('(', 1)[0]
  return !plain(name).includes(' ') && conceptsOf(name).has(concept)
}

const MOST_WITHIN = 0.9

function isWithin(profile: ColumnProfile, most: number): boolean {
  return (
    profile.values.length > 0 &&
    // The header says it: closing lines below a few rows may hold other things here.
    profile.numbers > MORE_THAN_HALF * profile.filled &&
    // A row with a cell too many has another number here.
    profile.values.filter((value) => Number.isInteger(value) && value >= 0 && value <= most).length >=
      MOST_WITHIN * profile.values.length
  )
}
