import { columnLabel } from '../wording/importMessages'
import type { ColumnPlan, OtherPlan, ValueSlot } from './columns'
import { type CellMoment, type CellTime, halfOfDay, joinMoment, readMoment, readTimeCell } from './dateCell'
import { fillDatesDown } from './fillDatesDown'
import { fromGramsPerLitre, type GlucoseCell, readGlucose, unitIn } from './glucoseCell'
import type { SetAsideReason } from './logReport'
import { mealMoment } from './mealWords'
import type { GlucoseUnit } from '../units/glucose'
import type { CsvRecord } from './records'
import type { RowTable } from './rowTable'
import { joinedDecimals } from './tables/decimalsParted'
import { copied } from './textColumn'
import { isControlKind, isControlNote } from './words/control'
import { kindMeaning } from './words/kinds'
import { isTemperatureHeader } from './words/tags'
import { conceptsOf } from './words/concepts'
import { headerWords } from './words/headerRole'
import { plain, plainDigits } from './words/plain'
import { remembered } from './words/remembered'
import { isSumNote, isVagueSum, LONGEST_SUM_WORDS, speaksOfSum, startsAsSum } from './words/sums'

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
  const isDeleted = remembered(isDeletedRow)
  const statusSaysDeleted = plan.status !== null && isDeletedRow(plan.columns[plan.status].header)
  const addEntries = entryKeeper(table, plan)
  const dateOnlyRows = new Map<string, number>()
  const kinds = new KindsOfEntry(plan.kindsNamed, plan.vagueValues)
  const readers = plan.slots.map((slot) => ({ slot, momentOf: momentReader(slot, plan) }))
  // Cells behind a last column of notes belong to the note.
  const noteEnds = plan.note !== null && endsTable(plan, plan.note) ? plan.note : Infinity
  const ignored = plan.guardedNotes
    ? []
    : plan.columns
        .filter(({ role, index }) => role === 'ignored' && index < noteEnds)
        .map(({ index }) => index)
  const filled: Record<number, number> = {}
  const firstRow = table.n
  const [main] = readers
  const width = plan.header?.cells.length ?? plan.columns.length
  const texts = plan.columns
    .filter(({ role }) => role === 'note' || role === 'meal' || role === 'meter' || role === 'unit')
    .map(({ index }) => index)
  const strictBefore = textColumnsBefore(plan)
  let dayAbove: CellMoment | null = null
  let meterAbove = ''
  if (plan.dayHeading) takeDay(plan.dayHeading)

  function takeDay({ cells }: CsvRecord): void {
    for (const cell of cells) {
      const moment = readMoment(cell)
      if (moment !== null) dayAbove = moment
    }
  }

  function fits({ cells }: CsvRecord): boolean {
    const { date } = main.slot
    if (date !== null) {
      const cell = cells[date] ?? ''
      return cell !== '' && main.momentOf(cells, null) !== 'unreadable' && main.momentOf(cells, null) !== null
    }
    return plan.dayAbove || main.slot.day !== null
      ? readGlucose(cells[main.slot.glucose] ?? '').kind === 'number'
      : false
  }

  function read({ line, cells: written, text }: CsvRecord): void {
    const cells = plan.decimalsParted ? joinedDecimals(written, width, texts) : written
    for (const index of ignored) {
      const cell = cells[index]
      if (cell !== undefined && cell !== '' && cell.trim() !== '') filled[index] = (filled[index] ?? 0) + 1
    }
    const cell = (index: number | null): string => (index === null ? '' : (cells[index] ?? '').trim())
    const kind = cell(plan.entryKind)
    const unitCell = cell(plan.unit)
    const meter = plan.meter === null ? meterAbove : meterName(unguarded(cell(plan.meter), plan))
    const ownNote = [noteOf(cells, plan, delimiter), ...tagsOf(cells, plan)]
    // Of several readings in a line each filled cell is a row; a line with none is one row without a value.
    const several = readers.length > 1
    const present = several ? readers.filter(({ slot }) => cell(slot.glucose) !== '') : readers
    for (const { slot, momentOf } of present.length > 0 ? present : readers.slice(0, 1)) {
      const glucose = glucoseIn(cells, slot)
      const moment =
        slot.sharesTime && present.length > 1
          ? withoutTime(momentOf(cells, dayAbove))
          : momentOf(cells, dayAbove)
      const note = joinedNote(glucose, ownNote)
      const meal = slot.mealText !== '' ? slot.mealText : unguarded(cell(slot.meal), plan)
      const row = table.n
      kinds.see(row, kind)
      const control =
        isControl(kind) ||
        isControl(meal) ||
        isControlNote(note) ||
        [...plan.otherEntries, ...plan.tags].some((index) => isControl((cells[index] ?? '').trim()))
      const deleted =
        plan.status !== null &&
        (isDeleted(cell(plan.status)) || (statusSaysDeleted && isYes(cell(plan.status))))
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
      if (deleted || (fate === 'footer' && isVagueSum(cell(plan.note)))) table.ofUnsureKind.add(row)
      if (!several || slot === present[0]?.slot) addEntries(cells, kind)
      table.add({
        line,
        fate,
        moment,
        glucose,
        unit:
          unitInCell(unitCell) ??
          ('unit' in glucose && glucose.unit !== null
            ? glucose.unit
            : plan.headerUnit === null
              ? slot.headerUnit
              : null),
        meter,
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

const DELETED =
  /\b(deleted?|removed|void(ed)?|invalid|cancel+ed|excluded|entered in error|error|geloscht|storniert|ungultig|entfernt|supprime|annule|invalide|anulad[oa]|eliminad[oa]|borrad[oa]|cancelad[oa]|annullat[oa]|cancellat[oa]|eliminat[oa]|verwijderd|geannuleerd|ongeldig|slettet|raderad|borttagen|slettede|poistettu|usuniet\w*|anulowan\w*|smazan\w*|torolve|torolt|silindi|iptal)\b|διαγρ|ακυρ|удален|отмен|削除|删除|刪除|無効|作废/

/** A tick in a column that is headed 'Deleted'. */
function isYes(cell: string): boolean {
  return /^(y|yes|true|t|x|1|ja|j|oui|o|si|s|sim|kylla|tak|ano|igen|evet|ναι|да|はい|是|✓|✗)$/.test(
    plain(cell) || cell.trim(),
  )
}

/** Whether the cell of a status column says that the row was deleted. */
function isDeletedRow(status: string): boolean {
  return DELETED.test(plain(status))
}

function glucoseIn(cells: readonly string[], slot: ValueSlot): GlucoseCell {
  const glucose = readGlucose(cells[slot.glucose] ?? '')
  const saysUnit = 'unit' in glucose && glucose.unit !== null
  if (!slot.gramsPerLitre || saysUnit) return glucose
  const scaled = fromGramsPerLitre(glucose)
  return 'unit' in scaled ? { ...scaled, unit: null } : scaled
}

/** The note, led by what stands in the glucose cell after the number, followed by the tags. */
function joinedNote(glucose: GlucoseCell, notes: readonly string[]): string {
  const remark = glucose.kind === 'number' ? glucose.remark : ''
  return [remark, ...notes].filter((part) => part !== '').join('; ')
}

function isDayAlone(moment: CellMoment | 'unreadable' | null): boolean {
  return moment !== null && moment !== 'unreadable' && moment.time === null && moment.day.kind !== 'instant'
}

/** Keeps a row's insulin, carbohydrate and event cells, and its value where its kind may be another. */
function entryKeeper(table: RowTable, plan: ColumnPlan): (cells: readonly string[], kind: string) => void {
  const add = (label: string, text: string, byKind: boolean): void => {
    if (text !== '') table.entries.push({ row: table.n, label, text: copied(text), byKind })
  }
  return (cells, kind) => {
    for (const index of plan.otherEntries) {
      const label = columnLabel(index, plan.columns[index].header.trim())
      add(label, (cells[index] ?? '').trim(), false)
    }
    if (kind === '' || plan.kindsNamed?.includes(kind) || kindMeaning(kind) === 'glucose') return
    const unit = plan.unit === null ? '' : ` ${cells[plan.unit] ?? ''}`
    add(copied(kind), `${cells[plan.slots[0].glucose] ?? ''}${unit}`.trim(), true)
  }
}

type MomentOf = (cells: readonly string[], dayAbove: CellMoment | null) => CellMoment | 'unreadable' | null

/** Column and row form of one moment; consecutive rows of one day share the reading of its text. */
function momentReader(slot: ValueSlot, plan: ColumnPlan): MomentOf {
  let lastText = ''
  let lastMoment: CellMoment | 'unreadable' | null = null
  return (cells, dayAbove) => {
    if (slot.date !== null) {
      const text = cells[slot.date] ?? ''
      if (text !== lastText) {
        lastText = text
        lastMoment = text.trim() === '' ? null : (readMoment(plainDigits(text)) ?? 'unreadable')
      }
    } else lastMoment = slot.day ?? dayAbove
    const day = lastMoment === null && plan.dayAbove ? dayAbove : lastMoment
    if (day === 'unreadable') return day
    if (slot.clock !== null) return joinMoment(day?.day ?? { kind: 'missing' }, slot.clock)
    if (slot.time === null) return day
    const time = timeIn(cells, slot)
    if (time === null)
      return slot.date !== null && day?.time != null && !isMidnight(day)
        ? day
        : day === null
          ? null
          : { day: day.day, time: null }
    return joinMoment(day?.day ?? { kind: 'missing' }, time)
  }
}

/** Days of a database come with a midnight that is no time where times have a column of their own. */
function isMidnight({ time }: CellMoment): boolean {
  return typeof time === 'object' && time?.second === 0 && time.offsetMinutes === null && !time.utc
}

/** The day of a moment; instants keep what tells their day. */
function withoutTime(moment: CellMoment | 'unreadable' | null): CellMoment | 'unreadable' | null {
  return moment === null || moment === 'unreadable' || moment.day.kind === 'instant'
    ? moment
    : { day: moment.day, time: null }
}

function timeIn(cells: readonly string[], slot: ValueSlot): CellTime | 'unreadable' | null {
  let text = plainDigits((cells[slot.time ?? 0] ?? '').trim())
  if (text === '') return null
  if (slot.minute !== null) text = `${text}:${(cells[slot.minute] ?? '').trim().padStart(2, '0')}`
  const halfDay = slot.halfDay === null ? '' : (cells[slot.halfDay] ?? '').trim()
  const half = halfOfDay(halfDay)
  if (half !== null) text = `${text} ${half}`
  if (slot.dotClock) text = text.replace(/^(\d{1,2})[.,](\d{2})(?!\d)/, '$1:$2')
  const time = readTimeCell(text)
  if (time === 'unreadable' && (slot.timeInWords ? !/\d/.test(text) : isTimeInWords(text))) return null
  return time
}

/** 'morning', 'mittags': a part of the day, no time of it. */
function isTimeInWords(text: string): boolean {
  return !/\d/.test(text) && (conceptsOf(text).has('partOfDay') || mealMoment(text) !== null)
}

const LONGEST_UNIT = 40

/** The unit in a cell of its own, where 'mg' alone is meant for mg/dL. */
function unitInCell(cell: string): GlucoseUnit | null {
  return /^mg$/i.test(cell) ? 'mg/dL' : unitIn(cell.slice(0, LONGEST_UNIT))
}

interface RowText {
  readonly cells: readonly string[]
  readonly plan: ColumnPlan
  readonly slot: ValueSlot
  readonly glucose: GlucoseCell
  readonly moment: CellMoment | 'unreadable' | null
  readonly unitCell: string
  /** Whether kind, meal or note tell of a control-solution test. */
  readonly control: boolean
  readonly deleted: boolean
  /** How many columns the table has. */
  readonly width: number
  /** Whether columns of text stand before the value or the date. */
  readonly strictBefore: boolean
}

/** Words of summary rows. */
const SUMMARY_ROW =
  /^(n|sd|cv|std|min|max|sum|total|totals|average|mean|median|lowest|highest|minimum|maximum|count|number|end|summe|anzahl|mittelwert|durchschnitt|ende|moyenne|nombre|total\w*|fin|promedio|media|numero|mediana|fine|fim|gemiddelde|aantal|einde|readings|measurements)\b/

/** Why a row gives no reading, as far as its own text tells; null where nothing speaks against it yet. */
function fateOf(row: RowText): SetAsideReason | null {
  const { cells, plan, slot, glucose, moment } = row
  if (plan.header && glucose.kind !== 'number' && isRepeatedHeader(cells, plan, slot))
    return 'repeated-header'
  if (isFooter(row)) return 'footer'
  // A unit that is none of glucose belongs to another kind of entry: grams, minutes, insulin units.
  if (row.unitCell !== '' && unitInCell(row.unitCell) === null && /\p{L}/u.test(row.unitCell))
    return 'not-glucose'
  if (namesOther(cells, plan)) return 'not-glucose'
  if (isShifted(row)) return 'ragged-row'
  if (glucose.kind === 'empty') {
    return plan.otherEntries.some((index) => (cells[index] ?? '').trim() !== '')
      ? 'not-glucose'
      : 'empty-value'
  }
  if (row.control) return 'control-solution'
  if (row.deleted) return 'not-glucose'
  if (glucose.kind === 'unreadable') return 'unreadable-value'
  if (moment === null || (moment !== 'unreadable' && moment.day.kind === 'missing')) return 'empty-date'
  if (moment === 'unreadable' || moment.day.kind === 'impossible' || moment.time === 'unreadable') {
    // A row that is shifted has its date, or a value, in another column than the rest.
    const shifted = cells.length !== plan.columns.length && moment === 'unreadable'
    return shifted ? 'ragged-row' : 'unreadable-date'
  }
  return null
}

/** Whether cells too many have pushed what stands behind a text into the next columns. */
function isShifted({ cells, plan, width, strictBefore, slot }: RowText): boolean {
  if (!strictBefore || plan.header === null || cells.length <= Math.max(width, plan.header.cells.length))
    return false
  const last = cells.findLastIndex((cell) => cell.trim() !== '')
  if (last < Math.max(width, plan.header.cells.length)) return false
  // The last column may be a note with delimiters of its own; then everything before it stands in its place.
  return !(
    plan.note !== null &&
    endsTable(plan, plan.note) &&
    readGlucose(cells[slot.glucose] ?? '').kind !== 'unreadable' &&
    isInPlace(cells, plan)
  )
}

/** Whether the cells of the strict columns before the note are what they should be. */
function isInPlace(cells: readonly string[], plan: ColumnPlan): boolean {
  return (
    plan.unit === null ||
    (cells[plan.unit] ?? '').trim() === '' ||
    unitInCell((cells[plan.unit] ?? '').trim()) !== null
  )
}

function isRepeatedHeader(cells: readonly string[], plan: ColumnPlan, slot: ValueSlot): boolean {
  const header = plan.header?.cells ?? []
  const same = (index: number): boolean => plain(cells[index] ?? '') === plain(header[index] ?? '')
  return (
    plain(cells[slot.glucose] ?? '') !== '' &&
    same(slot.glucose) &&
    same(slot.date ?? slot.time ?? slot.glucose)
  )
}

/** Sums, means and goals among the rows, and closing lines. */
function isFooter(row: RowText): boolean {
  if (saysSum(row.cells, row.plan) || isSumByNote(row)) return true
  if (row.slot.timeInWords && isSumNote(row.cells[row.slot.time ?? 0] ?? '')) return true
  const { cells, moment, glucose, slot } = row
  if (moment !== 'unreadable' && !(moment === null && slot.date !== null)) return false
  const words = plain(cells[slot.date ?? 0] ?? '')
  if (moment === null) return words === '' && glucose.kind === 'empty' && onlyOneText(cells)
  return SUMMARY_ROW.test(words) || (!/\d/.test(words) && glucose.kind === 'empty')
}

/** Whether a row's note makes it a mean or a total: a row with a time is one only where the note begins so. */
function isSumByNote({ cells, plan, moment, slot }: RowText): boolean {
  if (plan.note === null) return false
  const note = cells[plan.note] ?? ''
  if (note === '') return false
  if (moment === null || moment === 'unreadable') return isSumNote(note)
  if (moment.time !== null || moment.day.kind === 'instant') return isSumNote(note) && startsAsSum(note)
  return slot.time === null ? isSumNote(note) : speaksOfSum(note)
}

function onlyOneText(cells: readonly string[]): boolean {
  const texts = cells.filter((cell) => cell.trim() !== '')
  return texts.length === 1 && !/\d/.test(texts[0])
}

/** Whether a cell beside the value names a sum: 'Average', 'Tagesmittel', 'Target'. Notes are texts, not names. */
function saysSum(cells: readonly string[], plan: ColumnPlan): boolean {
  for (const { index, role } of plan.columns) {
    if (
      role === 'note' ||
      role === 'glucose' ||
      role === 'meter' ||
      role === 'event' ||
      role === 'insulin' ||
      role === 'carbohydrate'
    )
      continue
    const cell = cells[index]
    if (cell === undefined || cell.length < 2 || cell.length > LONGEST_SUM_WORDS || !LETTER.test(cell))
      continue
    if (isSum(cell)) return true
  }
  return false
}

/** Whether a column without a known name, or a second one of kinds, names another measure: 'urine', 'cholesterol'. */
function namesOther(cells: readonly string[], plan: ColumnPlan): boolean {
  return plan.guards.some((index) => {
    const cell = cells[index]
    return cell !== undefined && cell.length <= LONGEST_SUM_WORDS && LETTER.test(cell) && isOther(cell)
  })
}

const isOther = remembered(
  (cell) => !/\d{2}/.test(cell) && conceptsOf(cell).has('other') && headerWords(cell).against === 'other',
)
const LETTER = /\p{L}\.?\p{L}/u
const isSum = remembered((cell) => {
  if (readMoment(cell) !== null) return false
  if (conceptsOf(cell).has('statistic') && isSumNote(cell)) return true
  const { against } = headerWords(cell)
  return against === 'sum' || against === 'goal'
})

/** Whether no column with a name stands behind this one. */
function endsTable(plan: ColumnPlan, index: number): boolean {
  return plan.columns.slice(index + 1).every(({ header, role }) => header === '' && role === 'ignored')
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

/** A meter's name or serial number; spreadsheets are made to keep leading zeros by ="00417". */
function meterName(cell: string): string {
  return cell.replace(/^="(.*)"$/, '$1').trim()
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
   * glucose leaves all others out; where none does, only known other kinds are. A sensor's go where finger-sticks are.
   */
  setOthersAside(table: RowTable): void {
    const meanings = new Map([...this.#rows.keys()].map((kind) => [kind, kindMeaning(kind)]))
    const anyGlucose = [...meanings.values()].includes('glucose')
    for (const [kind, rows] of this.#rows) {
      const meaning = meanings.get(kind) ?? 'unknown'
      const counts = this.#named
        ? this.#named.includes(kind)
        : meaning === 'glucose' ||
          meaning === 'control' ||
          meaning === 'moment' ||
          (meaning === 'sensor'
            ? !anyGlucose
            : meaning === 'other'
              ? !isMeasuredOtherwise(kind) && !this.#vague
              : !this.#vague || !anyGlucose)
      if (counts) continue
      // Where a person named the kinds that count, the others are none by their word.
      const known = meaning === 'other' || meaning === 'sensor'
      for (const row of rows) {
        const reason = table.reasonOf(row)
        if (!known && this.#named === null) table.ofUnsureKind.add(row)
        if (reason !== 'repeated-header' && reason !== 'footer') table.setAside(row, 'not-glucose')
      }
    }
  }
}

/** Whether a kind of entry is one whose values are never glucose, whatever the column is called. */
function isMeasuredOtherwise(kind: string): boolean {
  return headerWords(kind).against === 'other'
}
