import type { ColumnPlan, MarkColumn, OtherPlan, ValueSlot } from './columns'
import { type CellMoment, readMoment } from './dateCell'
import { fillDatesDown } from './fillDatesDown'
import { fromGramsPerLitre, type GlucoseCell, isGramsPerLitre, readGlucose, unitIn } from './glucoseCell'
import type { CsvRecord } from './records'
import type { GlucoseUnit } from '../units/glucose'
import type { RowTable } from './rowTable'
import { decimalColumns, joinedDecimals } from './tables/decimalsParted'
import { joinedFirstText } from './tables/textParted'
import { copied } from './textColumn'
import { mealMoment } from './mealWords'
import { conceptsOf } from './words/concepts'
import { isControlKind, isControlNote } from './words/control'
import { kindMeaning } from './words/kinds'
import { isTemperatureHeader } from './words/tags'
import { remembered } from './words/remembered'
import { changeIn, markIn, markOfState, type RowMark, tickedMark } from './words/rowMarks'
import { isVagueSum } from './words/sums'
import { weekdaysNamed } from './words/weekdays'
import { KindsOfEntry } from './kindsOfEntry'
import { endsTable, fateOf, unitInCell } from './rowFate'
import { inUtc, momentReader, withoutTime, withWeekday } from './rowMoment'

/** Reads the rows of one table into the log's rows, each as far as the row alone tells. */
export interface RowReader {
  /** Whether a record is a row of this table beyond doubt: its date stands where dates stand. */
  fits(record: CsvRecord): boolean
  read(record: CsvRecord): void
  /** Takes the day of a line that gives it for the rows below. */
  takeDay(record: CsvRecord): void
  /** Leaves the rows below without the day above them. */
  forgetDay(): void
  /** Takes the meter that a line names for the rows below. */
  takeMeter(name: string): void
  /** To be called once, after the last row. */
  finish(): void
  /** Filled cells of columns that give nothing, by index. */
  readonly filled: Readonly<Record<number, number>>
}

/** The reader of a table by its plan. */
export function rowReader(rows: RowTable, plan: ColumnPlan | OtherPlan, delimiter: string): RowReader {
  return plan.kind === 'glucose' ? glucoseRows(rows, plan, delimiter) : otherRows(rows, plan)
}

function otherRows(rows: RowTable, plan: OtherPlan): RowReader {
  return {
    fits: ({ cells }) => plan.date !== null && readMoment(cells[plan.date] ?? '') !== null,
    read: ({ line }) => {
      rows.add({
        line,
        fate: 'other-table',
        moment: null,
        glucose: { kind: 'empty' },
        unit: null,
        meter: '',
        meal: '',
        note: '',
      })
    },
    takeDay: () => undefined,
    forgetDay: () => undefined,
    takeMeter: () => undefined,
    finish: () => undefined,
    filled: {},
  }
}

function glucoseRows(table: RowTable, plan: ColumnPlan, delimiter: string): RowReader {
  const isControl = remembered(isControlKind)
  const saysControl = remembered(isControlNote)
  const mayTellOfControl = [...plan.otherEntries, ...plan.tags, ...plan.guards]
  const readValue = remembered(readGlucose)
  const saysMgDl = remembered((kind) => unitIn(kind) === 'mg/dL')
  const saysMmol = remembered((kind) => unitIn(kind) === 'mmol/L')
  const isGrams = remembered(isGramsPerLitre)
  const kindUnit = (kind: string): GlucoseUnit | null =>
    kind === '' ? null : saysMgDl(kind) ? 'mg/dL' : saysMmol(kind) ? 'mmol/L' : null
  const addEntries = entryKeeper(table, plan)
  const addedRows = new Map<string, number>()
  const dateOnlyRows = new Map<string, number>()
  const kinds = new KindsOfEntry(plan.kindsNamed, plan.vagueValues)
  const readers = plan.slots.map((slot) => ({ slot, momentOf: momentReader(slot, plan) }))
  // Cells behind a last column of notes belong to the note.
  const noteEnds = plan.note !== null && endsTable(plan, plan.note) ? plan.note : Infinity
  const tellsState = (index: number): boolean =>
    plan.marks.some((mark) => mark.index === index && (mark.isState || mark.ticks !== null))
  const ignored = plan.guardedNotes
    ? []
    : plan.columns
        .filter(
          ({ role, index }) =>
            role === 'ignored' && index < noteEnds && index !== plan.weekday && !tellsState(index),
        )
        .map(({ index }) => index)
  const filled: Record<number, number> = {}
  const firstRow = table.n
  const [main] = readers
  const headerWidth = plan.header?.cells.length ?? null
  const width = headerWidth ?? plan.columns.length
  const decimals = decimalColumns(plan.header)
  const markOf = markReader(plan.marks, width)
  const strictBefore = textColumnsBefore(plan)
  let dayAbove: CellMoment | null = null
  let meterAbove = ''
  if (plan.dayHeading) takeDay(plan.dayHeading)

  /** Of a row that deletes another one, the latest that was added alike; remembers one that adds. */
  function addedRow(
    cells: readonly string[],
    { glucose }: ValueSlot,
    change: 'add' | 'delete',
    row: number,
  ): number | undefined {
    const key = JSON.stringify([glucose, cells.filter((_, index) => index !== plan.changes)])
    const before = addedRows.get(key)
    if (change === 'add') addedRows.set(key, row)
    else addedRows.delete(key)
    return change === 'delete' ? before : undefined
  }

  function takeBack(row: number): void {
    table.fates.setAside(row, 'not-glucose')
    table.ofUnsureKind.add(row)
  }

  function takeDay({ cells }: CsvRecord): void {
    for (const cell of cells) {
      const moment = readMoment(cell)
      if (moment !== null) dayAbove = moment
    }
  }

  function fits({ cells }: CsvRecord): boolean {
    const { date } = main.slot
    if (date !== null) {
      if ((cells[date] ?? '') === '') return false
      const moment = main.momentOf(cells, null)
      return moment !== 'unreadable' && moment !== null
    }
    return plan.dayAbove || main.slot.day !== null
      ? readValue(cells[main.slot.glucose] ?? '').kind === 'number'
      : false
  }

  function read({ line, cells: written, text }: CsvRecord): void {
    const inPlace =
      headerWidth === null ? written : joinedFirstText(written, main.slot.date, headerWidth, delimiter)
    const cells =
      plan.decimalsParted === null ? inPlace : joinedDecimals(inPlace, decimals, plan.decimalsParted)
    for (const index of ignored) {
      const cell = cells[index]
      if (cell !== undefined && cell !== '' && cell.trim() !== '') filled[index] = (filled[index] ?? 0) + 1
    }
    const cell = (index: number | null): string => (index === null ? '' : (cells[index] ?? '').trim())
    const kind = cell(plan.entryKind)
    const writtenUnit = cell(plan.unit)
    // Grams per litre in the column of units or behind the name of the kind.
    const inGrams = isGrams(writtenUnit) || (writtenUnit === '' && isGrams(kind))
    const mark = markOf(cells)
    const unitCell = inGrams ? 'mg/dL' : writtenUnit
    const meter = plan.meter === null ? meterAbove : unguarded(cell(plan.meter), plan)
    const ownNote = [noteOf(cells, plan, delimiter), ...tagsOf(cells, plan)]
    // Of several readings in a line each filled cell is a row; a line with none is one row without a value.
    const weekdays = plan.weekday === null ? 0 : weekdaysNamed(cell(plan.weekday))
    const several = readers.length > 1
    const present = several ? readers.filter(({ slot }) => cell(slot.glucose) !== '') : readers
    for (const { slot, momentOf } of present.length > 0 ? present : readers.slice(0, 1)) {
      const glucose = glucoseIn(readValue(cells[slot.glucose] ?? ''), slot, inGrams)
      const said = plan.utc ? inUtc(momentOf(cells, dayAbove)) : momentOf(cells, dayAbove)
      const whole = withWeekday(said, weekdays)
      if (plan.weekday !== null && weekdays !== 0 && whole === said && slot === present[0]?.slot)
        filled[plan.weekday] = (filled[plan.weekday] ?? 0) + 1
      const moment = slot.sharesTime && present.length > 1 ? withoutTime(whole) : whole
      const note = joinedNote(glucose, ownNote)
      const meal = slot.mealText !== '' ? slot.mealText : unguarded(cell(slot.meal), plan)
      const row = table.n
      kinds.see(row, kind)
      const control =
        isControl(kind) ||
        isControl(meal) ||
        mark === 'control' ||
        saysControl(note) ||
        mayTellOfControl.some((index) => isControl((cells[index] ?? '').trim()))
      const change = plan.changes === null ? null : changeIn(cell(plan.changes))
      const added = change === null ? undefined : addedRow(cells, slot, change, row)
      if (added !== undefined) takeBack(added)
      const deleted =
        change === 'delete' || mark === 'deleted' || markIn(kind) === 'deleted' || markIn(meal) === 'deleted'
      const fate = fateOf({
        cells,
        plan,
        slot,
        glucose,
        moment,
        unitCell,
        control,
        deleted,
        width,
        strictBefore,
      })
      if (fate === null && isDayAlone(moment)) {
        const key = several ? `${String(slot.glucose)} ${text}` : text
        const first = dateOnlyRows.get(key)
        if (first === undefined) dateOnlyRows.set(key, row)
        else table.equalRows.push({ row, first })
      }
      // A header names the meal of every row: it tells nothing of this one.
      if (fate === 'empty-date' && ((meal !== '' && slot.mealText === '') || cells.some(namesMoment)))
        table.ofNamedMoment.add(row)
      if (deleted || (fate === 'footer' && (hasClock(moment) || isVagueSum(cell(plan.note)))))
        table.ofUnsureKind.add(row)
      if (!several || slot === present[0]?.slot) addEntries(cells, kind)
      table.add({
        line,
        fate,
        moment,
        glucose,
        // A unit behind the number is closer to it than one in another cell.
        unit:
          'unit' in glucose && glucose.unit !== null
            ? glucose.unit
            : (unitInCell(unitCell) ?? kindUnit(kind) ?? (plan.headerUnit === null ? slot.headerUnit : null)),
        meter: slot.meterText || meter,
        meal,
        note,
      })
    }
  }

  return {
    fits,
    read,
    takeDay,
    forgetDay: () => {
      dayAbove = null
    },
    takeMeter: (name) => {
      meterAbove = name
    },
    filled,
    finish: () => {
      kinds.setOthersAside(table)
      table.datesFilledDown += fillDatesDown(table, firstRow)
    },
  }
}

/** Columns of free text that stand before the date or the value: a row with a cell too many is shifted behind them. */
function textColumnsBefore(plan: ColumnPlan): boolean {
  const last = Math.max(
    ...plan.slots.map(({ glucose, date, time }) => Math.max(glucose, date ?? 0, time ?? 0)),
  )
  return plan.columns.some(
    ({ index, role }) =>
      index < last &&
      (role === 'note' ||
        role === 'meal' ||
        role === 'event' ||
        role === 'ignored' ||
        role === 'meter' ||
        role === 'kind'),
  )
}

/** What a row says of itself in its columns of marks: deleted, or control solution. */
function markReader(
  marks: readonly MarkColumn[],
  width: number,
): (cells: readonly string[]) => RowMark | null {
  return (cells) => {
    for (const { index, ticks, isState } of marks) {
      const cell = (cells[index] ?? '').trim()
      const mark = ticks !== null ? tickedMark(ticks, cell) : isState ? markOfState(cell) : markIn(cell)
      if (mark !== null) return mark
      // With a cell too many before it the state stands further on.
      if (
        isState &&
        cells.length > width &&
        cells.slice(index + 1).some((next) => markOfState(next) !== null)
      )
        return 'deleted'
    }
    return null
  }
}

function glucoseIn(glucose: GlucoseCell, slot: ValueSlot, inGrams: boolean): GlucoseCell {
  const saysUnit = 'unit' in glucose && glucose.unit !== null
  if (!(slot.gramsPerLitre || inGrams) || saysUnit) return glucose
  const scaled = fromGramsPerLitre(glucose)
  return 'unit' in scaled ? { ...scaled, unit: null } : scaled
}

/** The note, led by what stands in the glucose cell after the number, followed by the tags. */
function joinedNote(glucose: GlucoseCell, notes: readonly string[]): string {
  const remark = glucose.kind === 'number' ? glucose.remark : ''
  return [remark, ...notes].filter((part) => part !== '').join('; ')
}

function hasClock(moment: CellMoment | 'unreadable' | null): boolean {
  return moment !== null && moment !== 'unreadable' && typeof moment.time === 'object' && moment.time !== null
}

function isDayAlone(moment: CellMoment | 'unreadable' | null): boolean {
  return moment !== null && moment !== 'unreadable' && moment.time === null && moment.day.kind !== 'instant'
}

/** Keeps a row's insulin, carbohydrate and event cells, and its value where its kind may be another. */
function entryKeeper(table: RowTable, plan: ColumnPlan): (cells: readonly string[], kind: string) => void {
  const add = (label: string | number, text: string, byKind: boolean): void => {
    if (text !== '') table.entries.push({ row: table.n, label, text: copied(text), byKind })
  }
  return (cells, kind) => {
    for (const index of plan.otherEntries) {
      const label = plan.columns[index].header.trim() || index + 1
      add(label, (cells[index] ?? '').trim(), false)
    }
    if (kind === '' || plan.kindsNamed?.includes(kind) || kindMeaning(kind) === 'glucose') return
    const unit = plan.unit === null ? '' : ` ${cells[plan.unit] ?? ''}`
    add(copied(kind), `${cells[plan.slots[0].glucose] ?? ''}${unit}`.trim(), true)
  }
}

/** Whether a cell is a word for a meal or a part of the day. */
function namesMoment(cell: string): boolean {
  return /\p{L}/u.test(cell) && (mealMoment(cell) !== null || conceptsOf(cell).has('partOfDay'))
}

/** The note of a row. */
function noteOf(cells: readonly string[], plan: ColumnPlan, delimiter: string): string {
  if (plan.note === null) return ''
  // Unquoted delimiters in the last cell belong to the note.
  const isLast = endsTable(plan, plan.note)
  const text =
    isLast && cells.length > plan.note + 1
      ? joinedTail(cells, plan.note, delimiter)
      : (cells[plan.note] ?? '')
  return unguarded(text, plan)
}

/** What the tags of a row say; a temperature is led by its column's name, which holds the degrees. */
function tagsOf(cells: readonly string[], plan: ColumnPlan): readonly string[] {
  return plan.tags.map((index) => {
    const tag = (cells[index] ?? '').trim()
    const { header } = plan.columns[index]
    return tag !== '' && isTemperatureHeader(header) ? `${header} ${tag}` : tag
  })
}

/** A text without the apostrophe that guards it in a file of readings that this program wrote. */
function unguarded(text: string, plan: ColumnPlan): string {
  const trimmed = text.trim()
  return plan.guardedNotes && /^'[=+\-@\t\n\r\uff1d\uff0b\uff0d\uff20]/.test(trimmed)
    ? trimmed.slice(1)
    : trimmed
}

function joinedTail(cells: readonly string[], from: number, delimiter: string): string {
  const tail = cells.slice(from)
  while (tail.length > 1 && tail[tail.length - 1].trim() === '') tail.pop()
  return tail.join(delimiter)
}
