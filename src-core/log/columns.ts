import type { GlucoseUnit } from '../units/glucose'
import type { CellMoment, CellTime } from './dateCell'
import type { DayOrder, LogColumn, PlanNote } from './logReport'
import type { CsvRecord } from './records'
import type { TickMeaning } from './words/rowMarks'

/** Where one reading of a row stands. A table with several in a line has several of these. */
export interface ValueSlot {
  readonly glucose: number
  /** Column of the date, with or without the time; null where a line above, or the header, gives the day. */
  readonly date: number | null
  /** The day that the header gives, where days run to the right. */
  readonly day: CellMoment | null
  readonly time: number | null
  readonly minute: number | null
  readonly halfDay: number | null
  /** Whether '7.30' is half past seven, or '7-30'. */
  readonly dotClock: boolean
  /** Whether the column of the time holds words such as 'morning', which tell the day alone. */
  readonly timeInWords: boolean
  /** The clock time that the header gives. */
  readonly clock: CellTime | null
  /** Whether the line's time is that of all its readings: where it has several, each keeps the day alone. */
  readonly sharesTime: boolean
  /** The meal's column, or what the header says of it. */
  readonly meal: number | null
  readonly mealText: string
  /** The meter that this column's header names among several; '' where it names none. */
  readonly meterText: string
  /** Unit that this column's header names. */
  readonly headerUnit: GlucoseUnit | null
  readonly gramsPerLitre: boolean
}

/** A column whose cells may say of a row that it is no reading of the person. */
export interface MarkColumn {
  readonly index: number
  /** What its ticks mean; null where its cells say it in words. */
  readonly ticks: TickMeaning | null
  /** Whether its header says that it gives the state of the row. */
  readonly isState: boolean
}

/** Which column holds what, and where the rows begin. */
export interface ColumnPlan {
  readonly kind: 'glucose'
  readonly header: CsvRecord | null
  readonly columns: readonly LogColumn[]
  /** How many cells most rows have. */
  readonly usualWidth: number
  readonly slots: readonly ValueSlot[]
  /** Column of weekdays beside the date. */
  readonly weekday: number | null
  /** Whether lines with a day alone stand above the rows of that day. */
  readonly dayAbove: boolean
  /** Whether words say that the times are in UTC, which the cells do not. */
  readonly utc: boolean
  /** A day that stood right above the first row. */
  readonly dayHeading: CsvRecord | null
  readonly unit: number | null
  readonly note: number | null
  /** Further columns of notes: tags, temperature. */
  readonly tags: readonly number[]
  readonly meter: number | null
  /** Column of the kind of entry. */
  readonly entryKind: number | null
  /** Columns of text in which another measure may be named. */
  readonly guards: readonly number[]
  /** Columns that may say of a row that it was deleted, or a test of control solution. */
  readonly marks: readonly MarkColumn[]
  /** Column that says of each row whether it was added or deleted, in a journal of changes. */
  readonly changes: number | null
  /** Columns beside the readings that hold numbers, or days, throughout: a word in one was pushed there. */
  readonly typed: readonly { readonly index: number; readonly holds: 'numbers' | 'days' }[]
  /** Insulin, carbohydrate and event columns. */
  readonly otherEntries: readonly number[]
  /** The kinds of entry that count as glucose, where a person named them. */
  readonly kindsNamed: readonly string[] | null
  /** Unit that the header, the units row or the title names for all readings; null where they differ or say nothing. */
  readonly headerUnit: GlucoseUnit | null
  /** Whether header or units row say grams per litre, of which 1 is 100 mg/dL. */
  readonly gramsPerLitre: boolean
  /** Whether they name another unit that is not read. */
  readonly foreignUnit: boolean
  /** Whether the column's header names values, not glucose. */
  readonly vagueValues: boolean
  /** Columns whose values unquoted decimal commas part in two cells; null where they part none. */
  readonly decimalsParted: readonly number[] | null
  /** Order of the date that the header or the units row spells out. */
  readonly headerOrder: DayOrder | null
  readonly sensorColumn: boolean
  /** Whether a word or a unit says that its values are glucose. */
  readonly saysGlucose: boolean
  /** Whether the log is a table of readings that this program wrote, whose notes are guarded against spreadsheets. */
  readonly guardedNotes: boolean
  readonly notes: readonly PlanNote[]
}

/** The plan of a table that says glucose and names nothing besides: others are this one and what they find. */
export const VALUE_ALONE: ColumnPlan = {
  kind: 'glucose',
  header: null,
  columns: [],
  usualWidth: 0,
  slots: [],
  weekday: null,
  dayAbove: false,
  utc: false,
  dayHeading: null,
  unit: null,
  note: null,
  tags: [],
  meter: null,
  entryKind: null,
  guards: [],
  marks: [],
  changes: null,
  typed: [],
  otherEntries: [],
  kindsNamed: null,
  headerUnit: null,
  gramsPerLitre: false,
  foreignUnit: false,
  vagueValues: false,
  decimalsParted: null,
  headerOrder: null,
  sensorColumn: false,
  saysGlucose: true,
  guardedNotes: false,
  notes: [],
}

/** A table of the log that holds no glucose. */
export interface OtherPlan {
  readonly kind: 'other'
  readonly header: CsvRecord | null
  /** Column of its dates, by which its rows are known; null where none was found. */
  readonly date: number | null
  readonly columns: readonly LogColumn[]
}

/** Why no plan can be made; `candidates` are the columns to choose from, the likeliest first. */
export interface NoPlan {
  readonly kind: 'open'
  readonly missing:
    | 'glucose'
    | 'date'
    | 'named-column'
    | 'one-glucose-column'
    | 'moment-or-other'
    | 'kinds'
    | 'one-date-column'
    | 'one-table'
    | 'one-time-column'
    | 'half-days'
    | 'whose'
  /** The name or number that no column has, for 'named-column'; the header that may be anything, for 'moment-or-other'. */
  readonly name?: string
  readonly candidates: readonly CandidateColumn[]
  /** For 'kinds': the column of kinds, 1-based, and the kinds that stand in it, the commonest first. */
  readonly kinds?: {
    readonly column: number
    readonly names: readonly string[]
    /** Whether it is a column of people. */
    readonly people?: true
  }
  /** How many of the candidates may well hold readings together, and how many are asked about, for 'one-glucose-column'. */
  readonly together?: readonly number[]
  readonly header: CsvRecord | null
  readonly line: number | null
}

/** A column to choose from, with the first cells that it holds. */
export interface CandidateColumn extends LogColumn {
  readonly cells: readonly string[]
}

export type TablePlan = ColumnPlan | OtherPlan | NoPlan
