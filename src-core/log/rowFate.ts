import type { ColumnPlan, ValueSlot } from './columns'
import { type CellMoment, readMoment } from './dateCell'
import { type GlucoseCell, readGlucose, unitIn } from './glucoseCell'
import type { ColumnRole, LogColumn, SetAsideReason } from './logReport'
import { UNIT_TELLTALE } from '../reference/meter'
import type { GlucoseUnit } from '../units/glucose'
import { cellKind } from './tables/cellKind'
import { isPartedSerial } from './tables/decimalsParted'
import { holdsRangesAlone } from './tables/rowShape'
import { conceptsOf } from './words/concepts'
import { headerWords } from './words/headerRole'
import { kindMeaning } from './words/kinds'
import { plain } from './words/plain'
import { remembered } from './words/remembered'
import { weekdaysNamed } from './words/weekdays'
import { isSumNote, LONGEST_SUM_WORDS, speaksOfSum, standsForSum, startsAsSum } from './words/sums'

const LONGEST_UNIT = 40

/** The unit in a cell of its own, where 'mg' alone is meant for mg/dL. */
export function unitInCell(cell: string): GlucoseUnit | null {
  return /^mg$/i.test(cell) ? 'mg/dL' : unitIn(cell.slice(0, LONGEST_UNIT))
}

export interface RowText {
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
  /^(n|sd|cv|std|min|max|sum|total|totals|average|mean|median|lowest|highest|minimum|maximum|count|number|end|summe|anzahl|mittelwert|durchschnitt|ende|moyenne|nombre|total\w*|fin|promedio|media|numero|mediana|fine|fim|gemiddelde|aantal|einde|readings|measurements|tests|antall?|liczba|pocet|pomiary|mereni|meresek|olcum sayisi|olcumler|αριθμοσ|μετρησεισ|количество|измерении|測定回数|件数|测量次数|次数|messungen|metingen|malinger|matningar|mittauksia|mittausten|mesures|mediciones|medicoes|misurazioni)(?!\p{L})/u

/** Why a row gives no reading, as far as its own text tells; null where nothing speaks against it yet. */
export function fateOf(row: RowText): SetAsideReason | null {
  const { cells, plan, slot, glucose, moment } = row
  if (plan.header && glucose.kind !== 'number' && isRepeatedHeader(cells, plan, slot))
    return 'repeated-header'
  if (isFooter(row)) return 'footer'
  // A unit that is none of glucose belongs to another kind of entry: grams, minutes, insulin units.
  if (row.unitCell !== '' && unitInCell(row.unitCell) === null && /[\p{L}%‰°]/u.test(row.unitCell))
    return 'not-glucose'
  if (namesOther(cells, plan) || isRowOfOther(row)) return 'not-glucose'
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
function isShifted(row: RowText): boolean {
  const { cells, plan, width, strictBefore, slot } = row
  if (plan.header === null || cells.length <= Math.max(width, plan.header.cells.length)) return false
  if (isUnitTwice(cells, plan)) return true
  if (slot.date !== null && isPartedSerial(cells, slot.date)) return true
  if (isTimeOneOn(cells, slot)) return true
  // A number where the unit stands: the decimals of a value that its comma parted.
  if (plan.unit !== null && /^\d+$/.test((cells[plan.unit] ?? '').trim())) return true
  // Days that run to the right hold no texts.
  if (
    slot.day !== null &&
    plan.slots.some(({ glucose }) => readGlucose(cells[glucose] ?? '').kind === 'unreadable')
  )
    return true
  const last = cells.findLastIndex((cell) => cell.trim() !== '')
  // '5,8' parted by the comma of its decimals, in front of a note, a time or nothing.
  if (isHalfOfDecimal(cells, slot.glucose) && holdsNoNumbers(plan, slot.glucose + 1)) return true
  // Blank columns at the end hide that the row has a cell too many.
  if (last <= plan.header.cells.findLastIndex((name) => name.trim() !== ''))
    return strictBefore && cells.length > plan.usualWidth && hasTextBefore(cells, slot) && !endsInNote(row)
  // '5,8' parted by the comma of its decimals: everything behind it is shifted, of which another slot knows nothing.
  if (plan.slots.some(({ glucose }) => isHalfOfDecimal(cells, glucose))) return true
  if (!strictBefore && slot.day === null) return false
  return !endsInNote(row)
}

/** Whether the time is missing in its place and stands in the next. */
function isTimeOneOn(cells: readonly string[], { time }: ValueSlot): boolean {
  return time !== null && (cells[time] ?? '').trim() === '' && cellKind(cells[time + 1] ?? '') === 'time'
}

/** Whether a unit stands again behind the column of units, where another column is. */
function isUnitTwice(cells: readonly string[], { unit, note, columns }: ColumnPlan): boolean {
  if (unit === null || unit + 1 === note || columns.at(unit + 1)?.role === 'unit') return false
  const [first, second] = [cells[unit] ?? '', cells[unit + 1] ?? ''].map((cell) => cell.trim())
  return unitInCell(first) !== null && cellKind(second) === 'unit'
}

/** Whether a column holds no numbers by themselves, or none stands there. */
function holdsNoNumbers({ columns }: ColumnPlan, index: number): boolean {
  const role = columns.at(index)?.role
  return role === undefined || !MAY_HOLD_NUMBERS.includes(role)
}
const MAY_HOLD_NUMBERS: readonly ColumnRole[] = ['glucose', 'insulin', 'carbohydrate', 'event', 'ignored']

/** Whether the last column may be a note with delimiters of its own; then everything before it stands in its place. */
function endsInNote({ cells, plan }: RowText): boolean {
  return (
    plan.note !== null &&
    endsTable(plan, plan.note) &&
    // What stands in one column of readings and is none tells of all of them that they are shifted.
    plan.slots.every(({ glucose }) => readGlucose(cells[glucose] ?? '').kind !== 'unreadable') &&
    isInPlace(cells, plan)
  )
}

/** Whether a text stands before the value or the date that may have held a delimiter. */
function hasTextBefore(cells: readonly string[], { glucose, date, time }: ValueSlot): boolean {
  const last = Math.max(glucose, date ?? 0, time ?? 0)
  return cells
    .slice(0, last)
    .some((cell, index) => index !== date && index !== time && cellKind(cell) === 'text')
}

/** Whether a value may be the first half of a decimal number whose second stands in the next cell. */
function isHalfOfDecimal(cells: readonly string[], glucose: number): boolean {
  const [whole, decimals] = [cells[glucose] ?? '', cells[glucose + 1] ?? ''].map((cell) => cell.trim())
  return /^\d{1,2}$/.test(whole) && Number(whole) <= UNIT_TELLTALE.highestMmol && /^\d{1,2}$/.test(decimals)
}

/** Whether the cells of the strict columns before the note are what they should be. */
function isInPlace(cells: readonly string[], plan: ColumnPlan): boolean {
  const cell = (index: number | null): string => (index === null ? '' : (cells[index] ?? '').trim())
  const unit = cell(plan.unit)
  if (unit !== '' && unitInCell(unit) === null) return false
  // 'Mon; Mon': the weekday twice.
  if (plan.weekday !== null && weekdaysNamed(cell(plan.weekday + 1)) > 0) return false
  const isTyped = plan.typed.every(
    ({ index, holds }) =>
      cell(index) === '' ||
      (holds === 'numbers' ? !isWord(cell(index)) : ['day', 'moment'].includes(cellKind(cell(index)))),
  )
  return isTyped && !plan.columns.some((column) => isWordForDose(cells, column))
}

function isWord(cell: string): boolean {
  return /\p{L}/u.test(cell) && !/\d/.test(cell)
}

/** A word without a number where doses stand was pushed there. */
function isWordForDose(cells: readonly string[], { index, role }: LogColumn): boolean {
  return (role === 'insulin' || role === 'carbohydrate') && isWord(cells[index] ?? '')
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
  if (saysSum(row) || isSumByNote(row) || isPrintedLine(row)) return true
  // A decimal comma that parts a mean pushes its name out of the table.
  if (row.cells.slice(row.width).some(standsForSum)) return true
  const { cells, moment, glucose, slot } = row
  const isUnread = moment === null || moment === 'unreadable' || moment.time === 'unreadable'
  if (slot.time !== null && (slot.timeInWords || isUnread) && standsForSum(cells[slot.time] ?? ''))
    return true
  // A row without its time, among rows with one, whose column of unknown words, or of doses, names a mean.
  if (
    slot.time !== null &&
    isUntimed(row) &&
    row.plan.columns.some(
      ({ role, index }) => MAY_HOLD_A_NAME.includes(role) && standsForSum(cells[index] ?? ''),
    )
  )
    return true
  if (isGoalRow(row)) return true
  // Below headings of days a row has no date of its own: its first cell may name a count or a mean.
  const first = cells.findIndex((cell) => cell.trim() !== '')
  if (slot.date === null && slot.day === null && first >= 0 && isUntimed(row) && namesSum(cells[first]))
    return true
  // Where the days run to the right the first cell names the row.
  if (slot.day !== null && slot.meal !== null && namesSum(cells[slot.meal] ?? '')) return true
  if (moment === 'unreadable' && standsForSum(cells[slot.date ?? 0] ?? '')) return true
  if (moment !== 'unreadable' && !(moment === null && slot.date !== null)) return false
  const words = plain(cells[slot.date ?? 0] ?? '')
  if (moment === null) return words === '' && glucose.kind === 'empty' && onlyOneText(cells)
  return SUMMARY_ROW.test(words) || (!/\d/.test(words) && glucose.kind === 'empty')
}

/** Whether a row without a day of its own holds nothing but ranges: '80-130', '<180'. */
function isGoalRow({ cells, slot }: RowText): boolean {
  if (slot.date === null || (cells[slot.date] ?? '').trim() !== '') return false
  return holdsRangesAlone(cells)
}

function isUntimed({ moment }: RowText): boolean {
  return moment === null || moment === 'unreadable' || moment.time === null || moment.time === 'unreadable'
}

const MAY_HOLD_A_NAME: readonly ColumnRole[] = ['ignored', 'insulin', 'carbohydrate', 'event']

/** Most cells of a line about the file: 'Printed;27.11.2026;10.01'. */
const MOST_OF_A_PRINTED_LINE = 3

/** Whether few cells, of which the first is a word for printing or exporting in front of the day, stand in a wide table. */
function isPrintedLine({ cells, width, slot }: RowText): boolean {
  const first = cells.findIndex((cell) => cell.trim() !== '')
  if (slot.date === null || first < 0 || first >= slot.date || width <= MOST_OF_A_PRINTED_LINE) return false
  if (cells.filter((cell) => cell.trim() !== '').length > MOST_OF_A_PRINTED_LINE) return false
  return conceptsOf(cells[first]).has('administrative')
}

function namesSum(cell: string): boolean {
  return standsForSum(cell) || SUMMARY_ROW.test(plain(cell))
}

/** Whether a row's note makes it a mean or a total: a row with a time is one only where the note begins so. */
function isSumByNote({ cells, plan, moment, slot }: RowText): boolean {
  if (plan.note === null) return false
  const note = cells[plan.note] ?? ''
  if (note === '') return false
  if (moment === null || moment === 'unreadable') return isSumNote(note)
  if (moment.time !== null || moment.day.kind === 'instant')
    return isSumNote(note) && startsAsSum(note) && !isMood(note)
  return slot.time === null ? isSumNote(note) : speaksOfSum(note)
}

/** A word for a mean or a total that may as well be how somebody felt, or a measure of the meal, as `plain` gives it. */
const MOOD =
  /^(average|avg|mean|medium|total|totals|count|counts|change|normal|norm|mittel|mittelmassig|moyen|moyenne|media|medio|medel|gemiddeld|average day)$/
const isMood = remembered((cell) => MOOD.test(plain(cell)))

function onlyOneText(cells: readonly string[]): boolean {
  const texts = cells.filter((cell) => cell.trim() !== '')
  return texts.length === 1 && !/\d/.test(texts[0])
}

/** Whether a cell beside the value names a sum: 'Average', 'Tagesmittel', 'Target'. Notes are texts, not names. */
function saysSum({ cells, plan, slot, moment }: RowText): boolean {
  const isDated = moment !== null && moment !== 'unreadable'
  const isTimed = isDated && typeof moment.time === 'object' && moment.time !== null
  // In a row without a day of its own the name of a sum may stand in any column.
  const hasDay = slot.date === null || (cells[slot.date] ?? '').trim() !== ''
  const first = hasDay || isTimed ? -1 : cells.findIndex((cell) => cell.trim() !== '')
  for (const { index, role } of plan.columns) {
    if (
      // What was read as a day or a time names no sum.
      (isDated && index === slot.date) ||
      (isTimed && index === slot.time) ||
      role === 'note' ||
      role === 'glucose' ||
      (hasDay && (role === 'meter' || role === 'insulin' || role === 'carbohydrate')) ||
      // 'Goal reached' may stand beside a reading, 'Glucose goal' is none.
      (hasDay && role === 'event' && !conceptsOf(cells[index] ?? '').has('glucose'))
    )
      continue
    const cell = cells[index]
    if (cell === undefined || cell.length < 2 || cell.length > LONGEST_SUM_WORDS || !LETTER.test(cell))
      continue
    if (isTimed && isMood(cell)) continue
    if (isSum(cell) || (index === first && SUMMARY_ROW.test(plain(cell)))) return true
  }
  return false
}

/** Whether days run to the right and the row's first cell names another measure: 'Basal units', 'Est. HbA1c'. */
function isRowOfOther({ cells, slot }: RowText): boolean {
  const label = slot.meal ?? slot.time
  return slot.day !== null && label !== null && kindMeaning((cells[label] ?? '').trim()) === 'other'
}

/** Whether a column without a known name, or a second one of kinds, names another measure: 'urine', 'cholesterol'. */
function namesOther(cells: readonly string[], plan: ColumnPlan): boolean {
  return plan.guards.some((index) => {
    const cell = cells[index]
    return cell !== undefined && cell.length <= LONGEST_SUM_WORDS && LETTER.test(cell) && isOther(cell)
  })
}

/** What is drunk or eaten against a low or a high stands beside a reading, as `plain` gives it. */
const TAKEN =
  /^(water|wasser|eau|agua|acqua|vatten|vand|vann|vesi|woda|voda|viz|su|νερο|вода|水|dextrose|traubenzucker|glucose (tabs?|tablets?|gel|drink)|(hyva |huono )?olo|(feeling|felt|mood|sleep|slept|stress|gefuhl|befinden|humeur|humor|umore|stemming|nastroj|nalada|hangulat)( .*)?)$/

const isOther = remembered(
  (cell) =>
    !/\d{2}/.test(cell) &&
    !TAKEN.test(plain(cell)) &&
    conceptsOf(cell).has('other') &&
    headerWords(cell).against === 'other',
)
const LETTER = /\p{L}\.?\p{L}/u
const isSum = remembered((cell) => {
  if (readMoment(cell) !== null) return false
  if (conceptsOf(cell).has('statistic') && isSumNote(cell)) return true
  const { against } = headerWords(cell)
  return against === 'sum' || against === 'goal'
})

/** Whether no column with a name stands behind this one. */
export function endsTable(plan: ColumnPlan, index: number): boolean {
  return plan.columns.slice(index + 1).every(({ header, role }) => header === '' && role === 'ignored')
}
