import type { Named } from '../model/named'
import type { GlucoseUnit } from '../units/glucose'
import type { DayNumber } from '../units/wallClock'
import type { UnitOpen } from './decideUnit'
import type { NotText } from './encoding'
import type { ColumnName, DayOrder, SetAsideReason, OddValues } from './logReport'

/** Why a whole log was refused, in the words of the command line's contract. */
export type RefusalCode =
  | 'empty-file'
  | 'not-text'
  | 'no-glucose-column'
  | 'no-date-column'
  | 'no-readings'
  | 'unit-unknown'
  | 'date-order-unknown'
  | 'field-too-large'
  | 'unreadable-file'

/** What stops the reading without more to name. */
type PlainReason =
  | 'empty-file'
  | 'markup'
  | 'blanks'
  | 'two-values'
  | 'field-too-large'
  | 'no-readings'
  | 'no-date-column'
  | 'several-date-columns'
  | 'several-time-columns'
  | 'several-glucose-columns'
  | 'several-tables'
  | 'several-names'
  | 'half-days'
  /** A visit without log or typed reading. */
  | 'empty-visit'
  /** JSON, but none of HL7 FHIR; FHIR without an Observation. */
  | 'not-fhir'
  | 'no-observation'
  | 'resource-too-large'

/** What the reading stumbled on, with what its sentence names; the catalogue's `importMessages` says it. */
export type RefusalReason =
  | { readonly key: PlainReason }
  | { readonly key: 'date-order' }
  | { readonly key: 'not-text'; readonly form: Exclude<NotText['notText'], 'empty'> }
  /** `headerless`: no column has a name, and several hold numbers. */
  | { readonly key: 'no-glucose-column'; readonly headerless: boolean }
  /** `other`: number of the column that says glucose. Headers and other names here are short, as they are shown. */
  | { readonly key: 'moment-or-other'; readonly header: string; readonly other: number }
  /** Number of the column of kinds, and the commonest of them. */
  | { readonly key: 'kinds-unknown'; readonly column: number; readonly kinds: Named<string> }
  /** Number of the column of people, and how many it names. */
  | { readonly key: 'several-people'; readonly column: number; readonly people: number }
  /** JSON that breaks off or cannot be read; `after`: how many entries were sound. */
  | { readonly key: 'broken-json'; readonly after: number }
  /** Of HL7 FHIR: how many subjects. */
  | { readonly key: 'several-subjects'; readonly people: number }
  | { readonly key: 'no-such-column'; readonly name: string }
  /** `part`: where the list of columns cannot be read on. */
  | { readonly key: 'unreadable-columns'; readonly part: string }
  | { readonly key: 'unit'; readonly open: Exclude<UnitOpen['open'], 'odd-values'> }
  | { readonly key: 'odd-values'; readonly odd: OddValues }
  /** The likeliest year of the first date. */
  | { readonly key: 'year'; readonly year: number }
  /** No row of any log gives a reading; `most`: the commonest reason. */
  | { readonly key: 'all-set-aside'; readonly most: SetAsideReason }
  | {
      readonly key: 'empty-period'
      readonly which: 'period' | 'versus'
      readonly asked: DayRange
      readonly covered: DayRange
    }

interface DayRange {
  readonly from: DayNumber
  readonly to: DayNumber
}

/** A glucose value with its unit. */
export type ValueInUnit = readonly [value: number, unit: GlucoseUnit]

/** One answer that a question accepts. */
export interface Choice {
  /** The value of the option that gives this answer, such as 'dmy'. */
  readonly answer: string
  readonly label: ChoiceLabel
  /** A piece of the log read this way; for the person's own eyes, never in a message. */
  readonly example: ChoiceExample
  /** What the whole log would come to with this answer; null where nothing can be said. */
  readonly effect: ChoiceEffect | null
}

/** What an answer says. */
export type ChoiceLabel =
  /** All values, whatever they look like. */
  | { readonly of: 'unit'; readonly unit: GlucoseUnit }
  | { readonly of: 'all-in'; readonly unit: GlucoseUnit | 'g/L' }
  | { readonly of: 'as-rows-say' }
  /** Each value in the unit that its size fits; those that cannot be of `unit`, in the other. */
  | { readonly of: 'each-by-size' }
  | { readonly of: 'odd-in-other'; readonly unit: GlucoseUnit | 'g/L' }
  | { readonly of: 'dates'; readonly order: DayOrder }
  | { readonly of: 'year'; readonly year: number }
  | { readonly of: 'clock'; readonly hours: '12' | '24' }
  | ({ readonly of: 'column' } & ColumnName)
  /** Several, each of whose filled cells is a reading. */
  | { readonly of: 'columns'; readonly columns: readonly ColumnName[] }
  | { readonly of: 'kind'; readonly name: string }
  | { readonly of: 'person'; readonly name: string }
  /** All readings are one person's. */
  | { readonly of: 'one-person' }

export type ChoiceExample =
  | { readonly of: 'rows'; readonly rows: readonly RowShown[] }
  | { readonly of: 'cells'; readonly text: string }
  | { readonly of: 'values'; readonly rows: readonly ValueShown[] }
  | { readonly of: 'day'; readonly day: DayNumber }

/** A row as it would be read; what cannot be told is null. */
export interface RowShown {
  readonly line: number
  /** Its day, or the numbers of a date whose order is open. */
  readonly date: DayNumber | readonly number[] | null
  /** Second of the day. */
  readonly second: number | null
  readonly value: number
  readonly unit: GlucoseUnit | null
}

/** One value read one way, and the same in the other unit. */
export interface ValueShown {
  readonly line: number
  readonly read: ValueInUnit
  readonly other: ValueInUnit
}

export type ChoiceEffect =
  | { readonly of: 'mean'; readonly read: ValueInUnit; readonly other: ValueInUnit }
  /** `future`: rows after today. */
  | { readonly of: 'days'; readonly from: DayNumber; readonly to: DayNumber; readonly future: number }

/** What a log leaves open, as data: a command line prints it, a window asks it. */
export interface Question {
  /** The option that answers it, such as '--dates'. */
  readonly option: '--log-unit' | '--dates' | '--columns'
  readonly choices: readonly Choice[]
}

/** A log that was not read, or needs an answer first. */
export interface Refusal {
  /** Its name; null where the visit as a whole is meant. */
  readonly log: string | null
  readonly code: RefusalCode
  /** 1-based; null where no line is to blame. */
  readonly line: number | null
  readonly reason: RefusalReason
  readonly question: Question | null
}
