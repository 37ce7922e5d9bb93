import type { ColumnPlan, MarkColumn, ValueSlot } from '../columns'
import { readTimeCell } from '../dateCell'
import { isForeignUnit, isGramsPerLitre, unitIn } from '../glucoseCell'
import type { ColumnRole, PlanNote } from '../logReport'
import { dateOrderInHeader } from '../words/dateOrderInHeader'
import { isTagHeader } from '../words/tags'
import { conceptsOf } from '../words/concepts'
import { isClockHeader } from '../words/headerRole'
import { plainDigits } from '../words/plain'
import { changeIn, isNoTick, isTick, tickedMark, tickMeaning } from '../words/rowMarks'
import { isUtc, saysUtc } from '../words/utc'
import { weekdaysNamed } from '../words/weekdays'
import { type ColumnProfile } from './columnProfile'
import type { MomentColumns } from './findMoment'
import { holdsOthers, momentsOf, takeTurns } from './findValues'
import type { TableColumn } from './tableColumn'
import type { TableStart } from './tableStart'
import { isOwnFile, type TableHead, usualWidth } from './tableHead'

interface Rest {
  readonly entryKind: number | null
  readonly dayAbove: boolean
  readonly kindsNamed: readonly string[] | null
  readonly parted: readonly number[] | null
  readonly isSensor: boolean
  readonly saysGlucose: boolean
}

export function finish(
  table: TableHead,
  columns: TableColumn[],
  profiles: readonly ColumnProfile[],
  when: MomentColumns,
  values:
    | { readonly kind: 'one'; readonly glucose: number; readonly others: readonly number[] }
    | { readonly kind: 'several'; readonly glucose: readonly number[] },
  rest: Rest,
): ColumnPlan {
  const { start } = table
  const notes: PlanNote[] = []
  const indexes = values.kind === 'one' ? [values.glucose] : values.glucose
  const used = new Set<number>(indexes)
  if (values.kind === 'one') {
    if (values.others.length > 0)
      notes.push({ code: 'same-glucose-beside', column: values.glucose, columns: values.others.length + 1 })
    const sensor = columns.some(
      ({ words, index }) =>
        words.sensor &&
        words.glucose === 3 &&
        index !== values.glucose &&
        holdsOthers(profiles[index], profiles[values.glucose]),
    )
    if (sensor && !columns[values.glucose].words.sensor)
      notes.push({ code: 'sensor-beside', column: values.glucose })
  } else notes.push({ code: 'several-in-a-line', columns: indexes.length })
  const first = (role: ColumnRole): number | null =>
    columns.find((column) => column.role === role && !used.has(column.index))?.index ?? null
  const unitColumn = first('unit')
  const meal =
    columns.find(
      (column) =>
        column.role === 'meal' && !used.has(column.index) && !isNumbered(column, profiles[column.index]),
    )?.index ?? mealByContent(columns, profiles, used, when)
  const texts = (index: number): string => `${columns[index].name}`
  const titleUnit = unitIn(start.title) ?? (isGramsPerLitre(start.title) ? 'g/L' : table.preambleUnit)
  const owns = indexes.length > 1 ? momentsOf(indexes, columns, profiles) : null
  // Before and after a meal are two moments; two meters, or a test and its repeat, share one.
  const ofMoments = indexes.filter((index) => columns[index].words.moment).length > 1
  const ofMeters =
    indexes.length > 1 && indexes.every((index) => conceptsOf(columns[index].header).has('meter'))
  const hoursAcross = indexes.some((index) => isClockHeader(columns[index].header, groupOf(start, index)))
  const slots = indexes.map((index): ValueSlot => {
    const own = indexes.length > 1 ? (owns?.get(index) ?? null) : null
    const column = columns[index]
    const isClock = isClockHeader(column.header, groupOf(start, index))
    const byMoment = indexes.length > 1 && (column.words.moment || isClock)
    const clock = byMoment
      ? (clockOf(isClock ? column.header : clockBeside(column.header)) ??
        (hoursAcross ? wordClock(column.header) : null))
      : null
    const gramsPerLitre =
      isGramsPerLitre(texts(index)) || (titleUnit === 'g/L' && unitIn(texts(index)) === null)
    return {
      glucose: index,
      date: own?.date ?? when.date,
      day: null,
      time: own?.time ?? (own === null && clock === null ? when.time : null),
      minute: (own ?? when).minute,
      halfDay: (own ?? when).halfDay,
      dotClock: (own ?? when).dotClock,
      timeInWords: isInWords(profiles, (own ?? when).time),
      clock,
      sharesTime: ofMoments && own === null && clock === null,
      meal: indexes.length === 1 || !byMoment ? meal : null,
      mealText:
        byMoment && (clock === null || !isClock)
          ? [groupOf(start, index), column.header].filter((part) => part !== '').join(' ')
          : '',
      meterText: ofMeters ? columns[index].header.replace(/[\s,;([{]*(?:mg|mmol)\b.*$/i, '') : '',
      headerUnit: gramsPerLitre ? 'mg/dL' : (unitIn(texts(index)) ?? null),
      gramsPerLitre,
    }
  })
  for (const slot of slots)
    for (const index of [slot.date, slot.time, slot.minute, slot.halfDay, slot.meal])
      if (index !== null) used.add(index)
  const hasTimes = when.time !== null || (when.date !== null && profiles[when.date].holdsMoments)
  if (hasTimes && slots.some(({ sharesTime }) => sharesTime) && !takeTurns(indexes, profiles))
    notes.push({ code: 'time-of-several' })
  if (values.kind === 'one' && when.time !== null && columns[when.time].words.role === null)
    notes.push({ code: 'time-by-content', column: when.time })
  const units = new Set(slots.flatMap(({ headerUnit }) => (headerUnit === null ? [] : [headerUnit])))
  // A unit that one of several headers names is that of all.
  const ownUnit = units.size === 1 ? ([...units][0] ?? null) : null
  const contradicted = ownUnit !== null && titleUnit !== null && titleUnit !== 'g/L' && ownUnit !== titleUnit
  const noteColumn = columns.find(
    ({ role, header, index }) => role === 'note' && !used.has(index) && !isTagHeader(header),
  )
  const dates = [...new Set(slots.map(({ date }) => date))].flatMap((date) =>
    date === null ? [] : [columns[date].name],
  )
  const gramsPerLitre = slots.some((slot) => slot.gramsPerLitre)
  const main = columns[indexes[0]]
  return {
    kind: 'glucose',
    header: start.header,
    columns: columns.map(({ index, header, role }) => ({
      index,
      header,
      role: keptRole(index, role, slots, rest.entryKind, meal),
    })),
    usualWidth: usualWidth(table),
    slots: contradicted ? slots.map((slot) => ({ ...slot, headerUnit: null })) : slots,
    weekday: columns.find(({ index }) => !used.has(index) && holdsWeekdays(profiles[index]))?.index ?? null,
    dayAbove: rest.dayAbove && slots.some(({ date }) => date === null || profiles[date].filled === 0),
    utc:
      table.preambleUtc ||
      slots.some(({ date, time }) =>
        [date, time].some((index) => index !== null && saysUtc(columns[index].name)),
      ) ||
      columns.some(({ index }) => !used.has(index) && isZoneOfUtc(profiles[index])),
    dayHeading: start.dayHeading,
    unit: unitColumn,
    note: noteColumn?.index ?? null,
    tags: columns
      .filter((column) => column.role === 'note' && column !== noteColumn && !used.has(column.index))
      .map(({ index }) => index),
    meter:
      first('meter') ??
      (rest.entryKind !== null && columns[rest.entryKind].words.role === 'meter' ? rest.entryKind : null),
    entryKind: rest.entryKind,
    guards: columns
      .filter(({ index, role, words, header }) => {
        const isOpen =
          role === 'kind' ||
          role === 'glucose' ||
          (role === 'ignored' && words.role === null && header !== '')
        // What stands beside a column of glucose tells of the person; beside one of values it may name the measure.
        return !used.has(index) && index !== rest.entryKind && isOpen && main.words.glucose < 3
      })
      .map(({ index }) => index),
    marks: columns.flatMap((column) =>
      used.has(column.index) || column === noteColumn || column.index === unitColumn
        ? []
        : markColumn(column, profiles[column.index]),
    ),
    changes: columns.find(({ index }) => !used.has(index) && holdsChanges(profiles[index]))?.index ?? null,
    typed: typedColumns(columns, profiles, used),
    otherEntries: columns
      .filter(
        ({ role, index }) =>
          !used.has(index) && (role === 'insulin' || role === 'carbohydrate' || role === 'event'),
      )
      .map(({ index }) => index),
    kindsNamed: rest.kindsNamed,
    headerUnit: contradicted
      ? null
      : (ownUnit ?? (units.size === 0 && titleUnit !== 'g/L' ? titleUnit : null)),
    gramsPerLitre,
    foreignUnit: slots.some(({ glucose }) => isForeignUnit(texts(glucose))),
    vagueValues: !conceptsOf(main.name).has('glucose'),
    decimalsParted: rest.parted,
    headerOrder: dates.map(dateOrderInHeader).find((order) => order !== null) ?? null,
    sensorColumn: main.words.sensor || rest.isSensor,
    saysGlucose:
      rest.saysGlucose ||
      indexes.some(
        (index) => columns[index].words.glucose === 3 || columns[index].words.unit || columns[index].named,
      ),
    guardedNotes: isOwnFile(start.header),
    notes,
  }
}

/** What columns of these roles hold says nothing of the state of a row. */
const NO_STATES: readonly ColumnRole[] = [
  'date',
  'time',
  'timestamp',
  'unit',
  'meter',
  'insulin',
  'carbohydrate',
  'event',
]
/** Most different texts of a column of states, and the longest of them. */
const STATES = { most: 12, longest: 40 } as const

/** The column as one of marks, where its header or its cells make it one. */
function markColumn(
  { index, header, role, words }: TableColumn,
  profile: ColumnProfile,
): readonly MarkColumn[] {
  const isState = words.status
  const ticks = tickMeaning(header)
  const texts = [...profile.distinct.keys()]
  const isTicked = texts.length > 0 && texts.every((text) => isTick(text) || isNoTick(text))
  // Where no row counts, the column says something else.
  const leavesSome = ticks !== null && texts.some((text) => tickedMark(ticks, text) === null)
  if (ticks === 'deleted' || (ticks !== null && isTicked && leavesSome)) return [{ index, ticks, isState }]
  const holdsStates =
    !NO_STATES.includes(role) &&
    texts.length <= STATES.most &&
    !profile.holdsNumbers &&
    !profile.holdsDates &&
    texts.every((text) => text.length <= STATES.longest)
  return isState || holdsStates ? [{ index, ticks: null, isState }] : []
}

/** Columns that are not read and hold numbers, or days, throughout. */
function typedColumns(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  used: ReadonlySet<number>,
): ColumnPlan['typed'] {
  return columns.flatMap(({ index }): ColumnPlan['typed'] => {
    const profile = profiles[index]
    if (used.has(index) || profile.filled < FEWEST_TYPED) return []
    if (profile.holdsDates) return [{ index, holds: 'days' }]
    return profile.holdsNumbers ? [{ index, holds: 'numbers' }] : []
  })
}
const FEWEST_TYPED = 2

/** Whether every row says whether it was added or deleted, and both stand there. */
function holdsChanges({ filled, rows, distinct }: ColumnProfile): boolean {
  const changes = [...distinct.keys()].map(changeIn)
  return filled === rows && !changes.includes(null) && changes.includes('add') && changes.includes('delete')
}

/** Whether every cell is UTC. */
function isZoneOfUtc({ filled, rows, distinct }: ColumnProfile): boolean {
  return filled > 0 && filled === rows && [...distinct.keys()].every(isUtc)
}

/** Whether every cell is the name of a weekday. */
function holdsWeekdays({ filled, distinct }: ColumnProfile): boolean {
  return filled > 0 && [...distinct.keys()].every((text) => weekdaysNamed(text) > 0)
}

/** Whether a column of times holds words for parts of the day and no clock times. */
function isInWords(profiles: readonly ColumnProfile[], time: number | null): boolean {
  return time !== null && profiles[time].momentWords > 0 && profiles[time].isMostly(profiles[time].texts)
}

function groupOf({ group }: TableStart, index: number): string {
  if (group === null) return ''
  for (let i = Math.min(index, group.cells.length - 1); i >= 0; i--) {
    const cell = group.cells[i].trim()
    if (cell !== '') return cell
  }
  return ''
}

/** A column of words for meals under a header of other words. */
function mealByContent(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  used: ReadonlySet<number>,
  when: MomentColumns,
): number | null {
  const wordsForTime =
    when.time !== null && profiles[when.time].isMostly(profiles[when.time].momentWords) ? when.time : null
  if (wordsForTime !== null) return wordsForTime
  return (
    columns.find(
      ({ index, role, words }) =>
        !used.has(index) &&
        (role === 'ignored' || role === 'kind') &&
        words.against === null &&
        profiles[index].isMostly(profiles[index].momentWords),
    )?.index ?? null
  )
}

/** The clock time that stands beside a meal's name, in brackets or not: 'before lunch (12:30)'; '' where there is none. */
function clockBeside(header: string): string {
  return /(?<![\d:.])(?:[01]?\d|2[0-3]):[0-5]\d(?![\d:])/.exec(plainDigits(header))?.[0] ?? ''
}

/** 'Noon' and 'midnight' among headers that are clock times. */
function wordClock(header: string): ValueSlot['clock'] {
  const time = /\d/.test(header) ? null : readTimeCell(header)
  return typeof time === 'object' ? time : null
}

function clockOf(header: string): ValueSlot['clock'] {
  const text = plainDigits(header).trim()
  const match = /([01]?\d|2[0-3])([:.h]\s?[0-5]\d|\s?(?:h|uhr|am|pm|時|点))/i.exec(text)
  if (!match) return null
  const time = readTimeCell(
    match[0]
      .replace(/\s?(uhr|時|点)$/i, ':00')
      .replace(/h$/i, ':00')
      .replace('.', ':'),
  )
  return typeof time === 'object' ? time : null
}

/** Whether a column that may name a moment holds numbers alone: beds, not bedtimes. */
function isNumbered({ words, named }: TableColumn, { filled, numbers }: ColumnProfile): boolean {
  return words.moment && !named && filled > 0 && numbers === filled
}

function keptRole(
  index: number,
  role: ColumnRole,
  slots: readonly ValueSlot[],
  entryKind: number | null,
  meal: number | null,
): ColumnRole {
  if (slots.some(({ glucose }) => glucose === index)) return 'glucose'
  const slot = slots.find(({ date, time, minute, halfDay }) => [date, time, minute, halfDay].includes(index))
  if (slot)
    return index === slot.date ? (slot.time === null && slot.clock === null ? 'timestamp' : 'date') : 'time'
  if (index === entryKind) return 'kind'
  if (index === meal || slots.some((each) => each.meal === index)) return 'meal'
  // What tells no meal of any reading is not used.
  if (role === 'meal') return 'ignored'
  if (role === 'glucose' || role === 'date' || role === 'timestamp' || role === 'time' || role === 'kind')
    return 'ignored'
  return role
}
