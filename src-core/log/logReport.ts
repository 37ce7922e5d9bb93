import type { GlucoseUnit } from '../units/glucose'
import type { Shift } from './shifts'

/** Why a row gave no reading. */
export const SET_ASIDE_REASONS = [
  'not-glucose',
  'control-solution',
  'empty-value',
  'unreadable-value',
  'impossible-value',
  'empty-date',
  'unreadable-date',
  'future-date',
  'clock-reset',
  'duplicate',
  'repeated-header',
  'footer',
  'ragged-row',
  'other-table',
  'laboratory',
  'withdrawn',
  'derived',
] as const
export type SetAsideReason = (typeof SET_ASIDE_REASONS)[number]

/** A row that gave no reading. */
export interface SetAsideRow {
  /** 1-based line of the file on which the row starts. */
  readonly line: number
  readonly reason: SetAsideReason
  /** The row as it stands in the file. */
  readonly text: string
  /** Set where the row may have been a low that is now not counted. */
  readonly maybeLow?: boolean
}

/** The rows set aside by reason, in the order in which the reasons first came. */
export function setAsideByReason({
  setAside,
}: Pick<LogReport, 'setAside'>): ReadonlyMap<SetAsideReason, readonly SetAsideRow[]> {
  const byReason = new Map<SetAsideReason, SetAsideRow[]>()
  for (const row of setAside) {
    const rows = byReason.get(row.reason)
    if (rows) rows.push(row)
    else byReason.set(row.reason, [row])
  }
  return byReason
}

/** What a column of a log holds. */
export const COLUMN_ROLES = [
  'timestamp',
  'date',
  'time',
  'glucose',
  'unit',
  'meal',
  'note',
  'meter',
  'kind',
  'insulin',
  'carbohydrate',
  'event',
  'ignored',
] as const
export type ColumnRole = (typeof COLUMN_ROLES)[number]

/** A column by its place, 0-based, and its header, '' where it has none. */
export interface ColumnName {
  readonly index: number
  readonly header: string
}

export interface LogColumn extends ColumnName {
  readonly role: ColumnRole
}

/** A table of the file: a header, or none, and the rows below it. */
export interface LogTable {
  /** 1-based; null where it has none. */
  readonly headerLine: number | null
  readonly firstLine: number
  readonly lastLine: number
  /** Whether readings came from it. */
  readonly read: boolean
  readonly rows: number
}

/** A column of a table that was read which holds something and gave nothing. */
export interface UnusedColumn extends ColumnName {
  /** How many cells are filled. */
  readonly filled: number
}

/** A guess about a log, with what it rests on. */
export interface UnitDecision {
  readonly value: GlucoseUnit | 'mixed'
  readonly basis: 'header' | 'cell' | 'column' | 'values' | 'answer'
}
export type DayOrder = 'ymd' | 'dmy' | 'mdy'
export interface DateOrderDecision {
  readonly value: DayOrder | 'epoch' | 'serial' | 'name'
  readonly basis: 'form' | 'header' | 'rows' | 'answer'
}

/** A thing that a careful reader should know of how a log was read. */
export type LogNote =
  | PlanNote
  /** Finger-sticks stand beside it, and every figure comes from them. */
  | { readonly code: 'log-of-sensor' }
  /** The dates name none; it is that of the first, from a title above them or as answered. */
  | { readonly code: 'year-given'; readonly year: number; readonly titled: boolean }
  /** Values of a size that no meter shows in their unit; `mixed`: they are read in the other. */
  | {
      readonly code: 'odd-values'
      readonly odd: OddValues
      readonly line: number
      readonly mixed: boolean
    }
  | { readonly code: 'grams-per-litre' }
  | { readonly code: 'decimals-parted' }
  | { readonly code: 'character-set-guessed'; readonly label: string }
  | { readonly code: 'instants'; readonly zone: string }
  /** Rows that name a part of the day where others have a clock time. */
  | { readonly code: 'times-in-words'; readonly rows: number }
  | { readonly code: 'dates-filled-down'; readonly rows: number }
  /** Rows give the number of the day, lines above them the month. */
  | { readonly code: 'months-above' }
  /** A field in quotes holds what looks like a row, and was read as one; `line`: the first. */
  | { readonly code: 'quotes-broken'; readonly count: number; readonly line: number }
  /** The same in every row, in seconds from 00:00: the days alone are kept. */
  | { readonly code: 'placeholder-time'; readonly second: number }
  /** A table that this program wrote: it has no rows that were set aside. */
  | { readonly code: 'own-readings' }
  /** Moved because a person said so. */
  | { readonly code: 'moved'; readonly readings: number; readonly shift: Shift }
  /** A stretch whose hours fit far better half a day away; nothing was moved. */
  | { readonly code: 'half-day-off'; readonly readings: number; readonly shift: Shift }
  /** A stretch dated years before (positive) or after the rows around it; nothing was moved. */
  | {
      readonly code: 'years-off'
      readonly readings: number
      readonly years: number
      readonly shift: Shift
    }

/** What was found in one log, and what was decided about it. Everything but the readings. */
export interface LogReport {
  /** Base name of the file, 'standard input' for standard input; never a path. */
  readonly name: string
  /** SHA-256 of the bytes, lower-case hexadecimal. */
  readonly sha256: string
  readonly bytes: number
  /** Whether a person typed its readings, without a meter. */
  readonly typed?: true
  readonly encoding: string
  readonly delimiter: string
  /** 1-based line of the header, null where there is none. */
  readonly headerLine: number | null
  readonly columns: readonly LogColumn[]
  /** Every table of the file, in its order. */
  readonly tables: readonly LogTable[]
  readonly notUsed: readonly UnusedColumn[]
  readonly unit: UnitDecision
  readonly dateOrder: DateOrderDecision
  readonly rows: { readonly total: number; readonly accepted: number; readonly setAside: number }
  readonly setAside: readonly SetAsideRow[]
  readonly notes: readonly LogNote[]
}

/** What a careful reader should know of how a table was read. */
export type PlanNote =
  | { readonly code: 'sensor-beside'; readonly column: number }
  | { readonly code: 'same-glucose-beside'; readonly column: number; readonly columns: number }
  | { readonly code: 'time-by-content'; readonly column: number }
  | { readonly code: 'several-in-a-line'; readonly columns: number }
  | { readonly code: 'time-of-several' }

/** Values that are not of the size of the unit named. */
export interface OddValues {
  readonly first: number
  readonly count: number
  readonly of: number
  /** Unit that the first of them was to have, and what says so: the header, the cells of all rows, its own row. */
  readonly stated: GlucoseUnit
  readonly saidBy: 'header' | 'log' | 'row'
  /** Where they were written in g/L: whether most such values of the table have hundredths. Null elsewhere. */
  readonly grams: { readonly haveHundredths: boolean } | null
}
