import type { DaySpan } from '../log/readings'
import type { Summary } from '../statistics/summary'
import type { LowsOfPeriod } from './lowsOfTwo'
import type { HabitChange, MomentKind, TestingHabit } from './testingHabit'

/** What is set side by side: fields of a summary, in the order in which they are told. */
export const COMPARED_MEASURES = [
  'meanMgDl',
  'medianMgDl',
  'sdMgDl',
  'cvPercent',
  'percentBelow54',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
] as const satisfies readonly (keyof Summary)[]

export type MeasureName = (typeof COMPARED_MEASURES)[number]

/** Of the first period; unclear where the interval of the difference holds 0 or there is none. */
export type Verdict = 'higher' | 'lower' | 'unclear'

export type Interval = readonly [number, number]

/** One figure of two periods; mg/dL, or percent and percentage points. */
export interface Change {
  readonly first: number | null
  readonly second: number | null
  /** First - second. */
  readonly difference: number | null
  /** 95 % interval of the difference; null where a period has too few days with readings. */
  readonly ci95: Interval | null
  /** By this interval alone; what is printed hangs on all rows together too. */
  readonly verdict: Verdict
  /** Two-sided, of the same test; null without an interval. */
  readonly p: number | null
}

export interface MeasureChange extends Change {
  readonly measure: MeasureName
}

/** Means at one mix of the times of day. */
export interface SameTimesOfDay extends Change {
  /** Hours at which the blocks used begin: 0, 3, ... 21. */
  readonly fromHours: readonly number[]
  /** Why the verdict is withheld whatever the interval; null where it is not. */
  readonly verdictReason: 'mix-moved' | null
}

/** Means at one mix of the times of day and of before and after meals. */
export interface SameMeals extends Change {
  readonly cells: readonly { readonly fromHour: number; readonly moment: MomentKind }[]
}

/** Why there are no means at the same meals. */
export type NoSameMeals = 'few-tags' | 'few-cells'

/** The mean of one three-hour block in both periods. */
export interface BlockChange {
  readonly fromHour: number
  readonly toHour: number
  readonly firstN: number
  readonly secondN: number
  readonly firstMeanMgDl: number
  readonly secondMeanMgDl: number
  readonly differenceMgDl: number
  /** Two-sided, by the days with readings in the block; null with too few of them in a period. */
  readonly p: number | null
  /** The same adjusted for looking at all blocks that were tested alike; null of the others. */
  readonly adjustedP: number | null
  readonly verdict: Verdict
  /** Why there can be none but `unclear`: the block was tested at other meals or times, or on too few days. */
  readonly verdictReason: 'mix-moved' | 'few-days' | null
}

/** How much of each period's readings one meter gave, percent. */
export interface MeterShare {
  /** Index into the logbook's meters. */
  readonly meter: number
  readonly firstPercent: number
  readonly secondPercent: number
}

/** All rows of the table as one: whether they show more than chance. */
export interface RowsTogether {
  /** Rows that were judged: those that are not withheld. */
  readonly rows: number
  /** Simes, Biometrika 1986;73:751-754. */
  readonly p: number
  /** Whether p is 0.1 or less: only then a row is called higher or lower. */
  readonly clear: boolean
}

/** Two periods as logged, doubtful readings among them. */
export interface Comparison {
  /** Of the first period and the second. */
  readonly lows: readonly [LowsOfPeriod, LowsOfPeriod]
  readonly measures: readonly MeasureChange[]
  /** Null where fewer than four blocks of the day hold five readings in both periods. */
  readonly sameTimesOfDay: SameTimesOfDay | null
  readonly sameMeals: SameMeals | NoSameMeals
  /** Null where no row could be judged. */
  readonly together: RowsTogether | null
  /**
   * How the habit of testing changed. Where it did, the measures' verdicts tell of the log, not of the person's
   * glucose: none is printed.
   */
  readonly habitChanges: readonly HabitChange[]
  /** Of the first period and the second. */
  readonly habits: readonly [TestingHabit, TestingHabit]
  /** Blocks with five readings or more in both periods. */
  readonly blocks: readonly BlockChange[]
  readonly meters: readonly MeterShare[]
  /** Days that lie in both periods. */
  readonly sharedDays: DaySpan | null
}

/** Means at the same times of day need so many blocks that both periods tested. */
export const FEWEST_BLOCKS = 4
/** Below this percentage of readings with a meal's tag in either period there are no means at the same meals. */
export const FEWEST_TAGGED_PERCENT = 60
/** Share of the changes named that may be chance, over the blocks of the day; a design choice. */
export const FALSE_DISCOVERY_RATE = 0.05

/** What an interval of the difference says of the first period. */
export function verdictOf(ci95: Interval | null): Verdict {
  if (ci95 === null || (ci95[0] <= 0 && ci95[1] >= 0)) return 'unclear'
  return ci95[0] > 0 ? 'higher' : 'lower'
}

/** The second figure taken from the first. */
export function changeOf(
  first: number | null,
  second: number | null,
  ci95: Interval | null,
  p: number | null,
): Change {
  return {
    first,
    second,
    difference: first === null || second === null ? null : first - second,
    ci95,
    verdict: verdictOf(ci95),
    p: ci95 === null ? null : p,
  }
}

/** Chance that all rows together are called clear by chance; a design choice. */
export const ERROR_OF_ALL_ROWS = 0.1

/** What may be said of a change: no verdict at all, or none beside all the other rows. */
export type Standing = 'judged' | 'withheld' | 'not-with-all-rows'

/** The standing of the rows of one kind. */
export function standingOf(comparison: Comparison, of: keyof typeof isWithheld): Standing {
  if (isWithheld[of](comparison)) return 'withheld'
  return comparison.together?.clear === false ? 'not-with-all-rows' : 'judged'
}

/** Of which changes no verdict is printed, since other tests alone could have made them. */
export const isWithheld = {
  measures: ({ habitChanges }: Judged) => habitChanges.length > 0,
  sameTimes: ({ sameTimesOfDay, habitChanges }: Judged) =>
    sameTimesOfDay?.verdictReason === 'mix-moved' || habitChanges.includes('within-blocks'),
  sameMeals: ({ habitChanges }: Judged) => habitChanges.includes('within-meals'),
} as const
type Judged = Pick<Comparison, 'sameTimesOfDay' | 'habitChanges'>
