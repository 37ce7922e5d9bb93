import { columnLabel } from '../wording/importMessages'
import type { ColumnPlan } from './columns'
import { type CellMoment, joinMoment, readMoment, readTimeCell } from './dateCell'
import { fillDatesDown } from './fillDatesDown'
import { fromGramsPerLitre, type GlucoseCell, readGlucose, unitIn } from './glucoseCell'
import type { SetAsideReason } from './logReport'
import type { GlucoseUnit } from '../units/glucose'
import type { CsvRecord } from './records'
import { RowTable } from './rowTable'
import { copied } from './textColumn'
import {
  isControlKind,
  isControlNote,
  isGlucoseKind,
  isMeasuredOtherwise,
  isOtherKind,
  isTemperatureHeader,
  plain,
} from './vocabulary'

/** Reads every row below the header as far as the row alone tells. */
export function readRows(
  records: Iterable<CsvRecord>,
  plan: ColumnPlan,
  delimiter: string,
  capacity: number,
): RowTable {
  const table = new RowTable(capacity)
  const isControl = remembered(isControlKind)
  const addEntries = entryKeeper(table, plan)
  const dateOnlyRows = new Map<string, number>()
  const kinds = new KindsOfEntry(plan.kindsNamed, plan.vagueValues)
  const momentOf = momentReader(plan)
  for (const { line, cells: written, text } of records) {
    const cells = plan.decimalsParted ? withJoinedDecimals(written, plan) : written
    if (line <= plan.lastHeaderLine || isBlank(cells)) continue
    const cell = (index: number | null): string => (index === null ? '' : (cells[index] ?? '').trim())
    const glucose = glucoseIn(cells, plan)
    const moment = momentOf(cells)
    const note = joinedNote(glucose, [noteOf(cells, plan, delimiter), ...tagsOf(cells, plan)])
    const unitCell = cell(plan.unit)
    const kind = cell(plan.kind)
    const meal = unguarded(cell(plan.meal), plan)
    const row = table.n
    kinds.see(row, kind)
    const control =
      isControl(kind) ||
      isControl(meal) ||
      isControlNote(note) ||
      [...plan.otherEntries, ...plan.tags].some((index) => isControl((cells[index] ?? '').trim()))
    const fate = fateOf({ cells, plan, glucose, moment, unitCell, control })
    if (fate === null && isDayAlone(moment)) {
      const first = dateOnlyRows.get(text)
      if (first === undefined) dateOnlyRows.set(text, row)
      else table.equalRows.push({ row, first })
    }
    addEntries(cells, kind)
    table.add({
      line,
      fate,
      moment,
      glucose,
      unit: unitInCell(unitCell) ?? ('unit' in glucose ? glucose.unit : null),
      meter: meterName(unguarded(cell(plan.meter), plan)),
      meal,
      note,
    })
  }
  kinds.setOthersAside(table)
  table.datesFilledDown = fillDatesDown(table)
  return table
}

function glucoseIn(cells: readonly string[], plan: ColumnPlan): GlucoseCell {
  const glucose = readGlucose(cells[plan.glucose] ?? '')
  const saysUnit = 'unit' in glucose && glucose.unit !== null
  if (!plan.gramsPerLitre || saysUnit) return glucose
  const scaled = fromGramsPerLitre(glucose)
  return 'unit' in scaled ? { ...scaled, unit: null } : scaled
}

/** The note, led by what stands in the glucose cell after the number, followed by the tags. */
function joinedNote(glucose: GlucoseCell, notes: readonly string[]): string {
  const remark = glucose.kind === 'number' ? glucose.remark : ''
  return [remark, ...notes].filter((part) => part !== '').join('; ')
}

/** A row of a comma file whose decimal comma stands unquoted: the cell after the value is its decimals. */
function withJoinedDecimals(cells: readonly string[], plan: ColumnPlan): readonly string[] {
  const { glucose } = plan
  if (cells.length !== plan.columns.length + 1 || !/^\d{1,2}$/.test((cells[glucose + 1] ?? '').trim()))
    return cells
  const value = `${cells[glucose].trim()}.${cells[glucose + 1].trim()}`
  return [...cells.slice(0, glucose), value, ...cells.slice(glucose + 2)]
}

function isDayAlone(moment: CellMoment | 'unreadable' | null): boolean {
  return moment !== null && moment !== 'unreadable' && moment.time === null && moment.day.kind !== 'instant'
}

/** Keeps a row's insulin, carbohydrate and event cells, and its value where its kind may be another. */
function entryKeeper(table: RowTable, plan: ColumnPlan): (cells: readonly string[], kind: string) => void {
  const isGlucose = remembered(isGlucoseKind)
  const add = (label: string, text: string, byKind: boolean): void => {
    if (text !== '') table.entries.push({ row: table.n, label, text: copied(text), byKind })
  }
  return (cells, kind) => {
    for (const index of plan.otherEntries) {
      const label = columnLabel(index, plan.columns[index].header.trim())
      add(label, (cells[index] ?? '').trim(), false)
    }
    if (kind === '' || plan.kindsNamed?.includes(kind) || isGlucose(kind)) return
    const unit = plan.unit === null ? '' : ` ${cells[plan.unit] ?? ''}`
    add(copied(kind), `${cells[plan.glucose] ?? ''}${unit}`.trim(), true)
  }
}

/** Column and row form of one moment; consecutive rows of one day share the reading of its text. */
function momentReader(plan: ColumnPlan): (cells: readonly string[]) => CellMoment | 'unreadable' | null {
  let lastText = ''
  let lastMoment: CellMoment | 'unreadable' | null = null
  return (cells) => {
    const text = cells[plan.date] ?? ''
    if (text !== lastText) {
      lastText = text
      lastMoment = text.trim() === '' ? null : (readMoment(text) ?? 'unreadable')
    }
    if (plan.time === null || lastMoment === 'unreadable') return lastMoment
    const time = readTimeCell(cells[plan.time] ?? '')
    if (time === null) return lastMoment
    return joinMoment(lastMoment?.day ?? { kind: 'missing' }, time)
  }
}

const LONGEST_UNIT = 40

/** The unit in a cell of its own, where 'mg' alone is meant for mg/dL. */
function unitInCell(cell: string): GlucoseUnit | null {
  return /^mg$/i.test(cell) ? 'mg/dL' : unitIn(cell.slice(0, LONGEST_UNIT))
}

function isBlank(cells: readonly string[]): boolean {
  for (const cell of cells) if (cell !== '' && cell.trim() !== '') return false
  return true
}

interface RowText {
  readonly cells: readonly string[]
  readonly plan: ColumnPlan
  readonly glucose: GlucoseCell
  readonly moment: CellMoment | 'unreadable' | null
  readonly unitCell: string
  /** Whether kind, meal or note tell of a control-solution test. */
  readonly control: boolean
}

/** Words of summary rows at a log's end. */
const SUMMARY_ROW =
  /^(n|sd|cv|std|min|max|sum|total|totals|average|mean|median|lowest|highest|minimum|maximum|count|number|end|summe|anzahl|mittelwert|durchschnitt|ende|moyenne|nombre|total\w*|fin|promedio|media|numero|mediana|fine|fim|gemiddelde|aantal|einde|readings|measurements)\b/

/** Why a row gives no reading, as far as its own text tells; null where nothing speaks against it yet. */
function fateOf(row: RowText): SetAsideReason | null {
  const { cells, plan, glucose, moment } = row
  if (plan.header && glucose.kind !== 'number' && isRepeatedHeader(cells, plan)) return 'repeated-header'
  if (isFooter(cells, plan, moment, glucose)) return 'footer'
  // A unit that is none of glucose belongs to another kind of entry: grams, minutes, insulin units.
  if (row.unitCell !== '' && unitInCell(row.unitCell) === null && /\p{L}/u.test(row.unitCell))
    return 'not-glucose'
  if (glucose.kind === 'empty') {
    return plan.otherEntries.some((index) => (cells[index] ?? '').trim() !== '')
      ? 'not-glucose'
      : 'empty-value'
  }
  if (row.control) return 'control-solution'
  if (glucose.kind === 'unreadable') return 'unreadable-value'
  if (moment === null || (moment !== 'unreadable' && moment.day.kind === 'missing')) return 'empty-date'
  if (moment === 'unreadable' || moment.day.kind === 'impossible' || moment.time === 'unreadable') {
    // A row that is shifted has its date, or a value, in another column than the rest.
    const shifted = cells.length !== plan.columns.length && moment === 'unreadable'
    return shifted ? 'ragged-row' : 'unreadable-date'
  }
  return null
}

function isRepeatedHeader(cells: readonly string[], plan: ColumnPlan): boolean {
  const header = plan.header?.cells ?? []
  const same = (index: number): boolean => plain(cells[index] ?? '') === plain(header[index] ?? '')
  return plain(cells[plan.glucose] ?? '') !== '' && same(plan.glucose) && same(plan.date)
}

function isFooter(
  cells: readonly string[],
  plan: ColumnPlan,
  moment: CellMoment | 'unreadable' | null,
  glucose: GlucoseCell,
): boolean {
  if (moment !== 'unreadable') return false
  const words = plain(cells[plan.date] ?? '')
  return SUMMARY_ROW.test(words) || (!/\d/.test(words) && glucose.kind === 'empty')
}

/** The note of a row. */
function noteOf(cells: readonly string[], plan: ColumnPlan, delimiter: string): string {
  if (plan.note === null) return ''
  // Unquoted delimiters in the last cell belong to the note.
  const isLast = plan.note === plan.columns.length - 1
  const text =
    isLast && cells.length > plan.columns.length
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

/** A meter's name or serial number; spreadsheets are made to keep leading zeros by ="00417". */
function meterName(cell: string): string {
  return cell.replace(/^="(.*)"$/, '$1').trim()
}

/** A question about a text, asked once for each different one: columns of kinds and meals hold few. */
function remembered(question: (text: string) => boolean): (text: string) => boolean {
  const answers = new Map<string, boolean>()
  return (text) => {
    let answer = answers.get(text)
    if (answer === undefined) {
      answer = question(text)
      answers.set(text, answer)
    }
    return answer
  }
}

/** Sorts the rows by kind of entry once all kinds are known. */
class KindsOfEntry {
  readonly #rows = new Map<string, number[]>()
  readonly #named: readonly string[] | null
  readonly #vague: boolean

  /** `vague` says that the column of values may hold other values too ('Value', 'Result'). */
  constructor(named: readonly string[] | null, vague: boolean) {
    this.#named = named
    this.#vague = vague
  }

  see(row: number, kind: string): void {
    if (kind === '') return
    const rows = this.#rows.get(kind)
    if (rows) rows.push(row)
    else this.#rows.set(kind, [row])
  }

  /**
   * In a column of glucose all kinds count but those of other measures. In one of values a kind that says
   * glucose leaves all others out; where none does, only known other kinds are.
   */
  setOthersAside(table: RowTable): void {
    const kinds = [...this.#rows.keys()]
    const anyGlucose = kinds.some(isGlucoseKind)
    for (const [kind, rows] of this.#rows) {
      const counts = this.#named
        ? this.#named.includes(kind)
        : isGlucoseKind(kind) ||
          isControlKind(kind) ||
          (this.#vague ? !anyGlucose && !isOtherKind(kind) : !isMeasuredOtherwise(kind))
      if (counts) continue
      const known = isMeasuredOtherwise(kind)
      for (const row of rows) {
        const reason = table.reasonOf(row)
        // Where a person named the kinds that count, the others are none by their word.
        if (!known && this.#named === null) table.ofUnsureKind.add(row)
        if (reason !== 'repeated-header' && reason !== 'footer') table.setAside(row, 'not-glucose')
      }
    }
  }
}
