import { type NoPlan, type TablePlan, VALUE_ALONE, type ValueSlot } from '../columns'
import { readMoment } from '../dateCell'
import { isGramsPerLitre, unitIn } from '../glucoseCell'
import type { CsvRecord } from '../records'
import { conceptsOf } from '../words/concepts'
import { headerWords } from '../words/headerRole'
import { kindMeaning } from '../words/kinds'
import { isControlNote } from '../words/control'
import { plain, plainDigits } from '../words/plain'
import { markIn } from '../words/rowMarks'
import { ColumnProfile } from './columnProfile'
import { looksLikeGlucose } from './findValues'
import { shapeOf } from './rowShape'
import type { TableColumn } from './tableColumn'
import { type TableHead, usualWidth } from './tableHead'

/** What a title says that its table is about. */
export function titleMeaning(title: string): 'glucose' | 'sensor' | 'other' | 'sum' | null {
  if (title === '') return null
  // 'Deleted readings', 'Control tests': nothing below is a reading of the person's, whatever it is called.
  if (isOfMarked(title)) return 'sum'
  const { against, glucose, sensor } = headerWords(title)
  // 'Target range: 6-12 mmol/L' is a goal and no title of a table of goals.
  if (against === 'goal' && /\d/.test(title)) return null
  if (against === 'sum' || against === 'goal') return 'sum'
  if (against !== null) return against === 'other' ? 'other' : null
  if (sensor || conceptsOf(title).has('sensor')) return 'sensor'
  return glucose === 3 ? 'glucose' : null
}

/** Longest title of marked rows, in words; a longer line explains something. */
const MOST_TITLE_WORDS = 4

function isOfMarked(title: string): boolean {
  const words = plain(title)
  if (words.split(' ').length > MOST_TITLE_WORDS) return false
  return (
    markIn(title) === 'deleted' || isControlNote(title) || /^control (tests?|checks?|results?)$/.test(words)
  )
}

/** A table whose days stand in the header: each row is a time or a meal. */
export function planDaysAcross(
  table: TableHead,
  header: CsvRecord,
  all: readonly CsvRecord[],
  columns: readonly TableColumn[],
  open: (missing: NoPlan['missing']) => NoPlan,
  parted: readonly number[] | null,
): TablePlan {
  const { kinds } = shapeOf(header)
  const label = columns[0]
  const days = columns.filter(({ index }) => kinds[index] === 'day' || kinds[index] === 'moment')
  // Rows of doses and other measures tell nothing of the readings beside them.
  const rows = all.filter(({ cells }) => kindMeaning((cells[label.index] ?? '').trim()) !== 'other')
  const profiles = columns.map(({ index }) => new ColumnProfile(rows, index))
  const isGlucose = days.every(
    ({ index }) =>
      profiles[index].filled === 0 || (profiles[index].holdsNumbers && profiles[index].fitsGlucose),
  )
  const named = rows
    .map(({ cells }) => (cells[label.index] ?? '').trim())
    .find((name) => headerWords(name).glucose === 3)
  const titles = `${table.start.title} ${label.header}`.trim()
  const title = titleMeaning(titles)
  const moments = profiles[0].isMostly(profiles[0].momentWords)
  if (!isGlucose || title === 'other' || title === 'sum') {
    return {
      kind: 'other',
      header,
      date: null,
      columns: columns.map(({ index, header: name, role }) => ({ index, header: name, role })),
    }
  }
  const { dotClocks, clockDigits } = profiles[label.index]
  const isDotClock = profiles[label.index].isMostly(dotClocks)
  const isTime = profiles[label.index].holdsTimes || isDotClock || profiles[label.index].isMostly(clockDigits)
  const unit = unitIn(titles) ?? unitIn(named ?? '') ?? (isGramsPerLitre(titles) ? 'g/L' : null)
  const varied = days.some(({ index }) => looksLikeGlucose(profiles[index]))
  if (title !== 'glucose' && named === undefined && unit === null && !(moments && varied))
    return open('glucose')
  const titleUnit = unit ?? table.preambleUnit
  const gramsPerLitre = titleUnit === 'g/L'
  const slots = days.map(({ index }): ValueSlot => ({
    glucose: index,
    date: null,
    day: readMoment(plainDigits(header.cells[index])),
    time: isTime ? label.index : null,
    minute: null,
    halfDay: null,
    dotClock: isDotClock,
    timeInWords: false,
    meterText: '',
    clock: null,
    sharesTime: false,
    meal: isTime ? null : label.index,
    mealText: '',
    headerUnit: gramsPerLitre ? 'mg/dL' : null,
    gramsPerLitre,
  }))
  return {
    ...VALUE_ALONE,
    header,
    usualWidth: usualWidth(table),
    columns: columns.map(({ index, header: name }) => ({
      index,
      header: name,
      role:
        index === label.index
          ? isTime
            ? 'time'
            : 'meal'
          : days.some((day) => day.index === index)
            ? 'glucose'
            : 'ignored',
    })),
    slots,
    utc: table.preambleUtc,
    headerUnit: titleUnit === 'g/L' ? 'mg/dL' : titleUnit,
    gramsPerLitre,
    decimalsParted: parted,
    notes: [{ code: 'several-in-a-line', columns: slots.length }],
  }
}
