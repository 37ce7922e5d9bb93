import type { MealMoment } from '../reference/mealMoment'
import type { Meal } from '../day/meals'
import type { LowsBeside } from './lowsBeside'
import type { Readings } from '../log/readings'
import { shareIntervalOf } from '../statistics/intervals'
import type { Interval } from '../statistics/wilson'
import { wilsonPercent } from '../statistics/wilson'

/** A count out of `n` with its 95 % interval in percent. */
export interface CountOf {
  readonly count: number
  readonly n: number
  readonly ci95Percent: Interval
}

/** With Wilson's interval, which takes what is counted as independent. */
export function countOf(count: number, n: number): CountOf {
  return { count, n, ci95Percent: wilsonPercent(count, n) ?? [0, 100] }
}

/** Of readings, with the interval by days; on too few days Wilson's of half as many. */
export function countByDays(
  readings: Readings,
  indexes: readonly number[],
  held: (index: number) => boolean,
): CountOf {
  const count = indexes.filter(held).length
  const n = indexes.length
  const few = () => wilsonPercent(count / 2, n / 2) ?? ([0, 100] as const)
  return { count, n, ci95Percent: shareIntervalOf(readings, indexes, held) ?? few() }
}

/** A stretch of whole hours, `toHour` up to 24, or a moment that the log's own tags tell. */
export type DayPart = { readonly fromHour: number; readonly toHour: number } | { readonly moment: MealMoment }

/** How much higher one meter read than another in pairs of tests, percent of the mean of the two. */
export interface PairedDifference {
  readonly pairs: number
  readonly differencePercent: number
  readonly ci95Percent: Interval
}

/** The same of all others: how often it comes anyway. */
interface BesideOthers {
  readonly others: CountOf
}

/** What stands out, with its evidence. mg/dL; percentages 0 to 100. The words are made in `wording`. */
export type Facts =
  /** Readings that a repeat contradicted as too high and that a low followed; others: any occasion of testing. */
  | { readonly code: 'lows-after-contradicted-highs'; readonly evidence: CountOf & BesideOthers }
  | {
      readonly code: 'lows-gather'
      readonly evidence: {
        /** Counted in occasions of testing: tests within an hour of one another are one. */
        readonly parts: readonly (DayPart & CountOf)[]
        readonly elsewhere: CountOf
        /** Whether these hours were tested on less than half of the days. */
        readonly seldomTested: boolean
      }
    }
  | {
      readonly code: 'lows-in-runs'
      /** Lows within 24 hours after another, and how many chance would give. */
      readonly evidence: CountOf & { readonly byChance: number }
    }
  /** Days with activity, or the day after one, that hold a low. */
  | { readonly code: 'lows-with-activity'; readonly evidence: CountOf & BesideOthers }
  /** Mornings above the limit after a night with a low. */
  | {
      readonly code: 'high-mornings-after-low-nights'
      readonly evidence: CountOf & BesideOthers & { readonly limitMgDl: number }
    }
  /** First tests one to four hours after a low that are above the target, and what is usual at these hours. */
  | { readonly code: 'highs-after-lows'; readonly evidence: CountOf & { readonly basePercent: number } }
  | {
      readonly code: 'highs-gather'
      /** Readings above the upper end of the target. */
      readonly evidence: {
        readonly parts: readonly (DayPart & CountOf)[]
        readonly elsewhere: CountOf
      } & LowsBeside
    }
  /** Mornings above the goal for fasting readings. */
  | {
      readonly code: 'fasting-above-goal'
      readonly evidence: CountOf & {
        readonly goalMgDl: number
        /** Nights with a low from 00:00 to before 06:00, and how many of them were followed by a morning above the goal. */
        readonly nightsWithLows: number
        readonly ofThemAboveGoal: number
      } & LowsBeside
    }
  | {
      readonly code: 'meal-rises-most'
      readonly evidence: {
        readonly meal: Meal
        readonly n: number
        readonly medianMgDl: number
        readonly ci95MgDl: Interval
        readonly others: { readonly n: number; readonly medianMgDl: number }
      }
    }
  | {
      readonly code: 'overnight-change'
      /** Of the median from bedtime to the morning after, and how many nights went that way. */
      readonly evidence: {
        readonly medianMgDl: number
        readonly ci95MgDl: Interval
        readonly nights: number
        readonly inDirection: number
      } & LowsBeside
    }
  | {
      readonly code: 'weekends-differ'
      /** Mean of each week's difference of the means of daily medians, weekend - weekdays. */
      readonly evidence: {
        readonly shiftMgDl: number
        readonly ci95MgDl: Interval
        readonly weeks: number
      }
    }
  | {
      readonly code: 'trend'
      readonly evidence: {
        readonly perWeekMgDl: number
        readonly ci95MgDl: Interval
        readonly weeks: number
        /** Where the line lies in the first week and the last, and the day number on which the first begins. */
        readonly fromMgDl: number
        readonly toMgDl: number
        readonly since: number
      } & LowsBeside
    }
  /** Readings above the target in the last third of a vial's days; others: from the same vials before. */
  | {
      readonly code: 'highs-at-end-of-vial'
      readonly evidence: CountOf & BesideOthers & { readonly vials: number } & LowsBeside
    }
  /** Tests that one of two meters gave, in some hours and in the others. */
  | {
      readonly code: 'meters-by-hour'
      readonly evidence: CountOf & {
        /** Its name on paper. */
        readonly meter: string
        readonly fromHour: number
        readonly toHour: number
        readonly elsewhere: CountOf
        /** By tests of both within ten minutes; absent where they are too few. */
        readonly paired?: PairedDifference
      }
    }
  | { readonly code: 'round-values'; readonly evidence: CountOf }

/**
 * What becomes of a finding where the doubtful readings that are no lows are left out. `changes`: it holds only in
 * part; `about-them`: it speaks of doubtful readings.
 */
export type WithoutDoubtful = 'stays' | 'changes' | 'disappears' | 'about-them'

export type Finding = Facts & {
  /** Adjusted for all that was looked at (Holm); null where nothing was tested. */
  readonly adjustedP: number | null
  readonly withoutDoubtful: WithoutDoubtful
}

/** Smaller differences of glucose are not worth a sentence, mg/dL (design choice: what a sound meter scatters by). */
export const WORTH_SAYING_MG_DL = 10
