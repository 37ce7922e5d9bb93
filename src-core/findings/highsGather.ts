import { MEAL_MOMENTS } from '../reference/mealMoment'
import { mealMoments } from '../log/mealWords'
import { hasClockTime, isAbove } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { type MeanDifference, meanDifference } from '../statistics/dailyDifferences'
import { tQuantile } from '../statistics/distributions'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { dayOf, secondOfDay } from '../units/wallClock'
import { countByDays, type DayPart } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'

/** Fewer highs make no pattern (design choice). */
const FEWEST_HIGHS = 5

/** What the printed counts have to show by themselves: so many times the share of highs at other times (design choice). */
const LEAST_RATIO = 1.5

/** Part of the chance of error that goes to log glucose; the rest to the share above target (design choice). */
const BY_LOG = 0.8

function higherP({ mean, p }: MeanDifference): number {
  return mean > 0 ? p / 2 : 1 - p / 2
}

/**
 * Whether glucose runs higher in some parts of the day than in the rest of the same days, so that readings above target
 * gather there: mean daily difference of log glucose, every day weighing the same; or the share above target does, where highs
 * come now and then. Parts: the log's own meal tags where it has them, else blocks of three hours.
 */
export function highsGather(look: Look): Question | null {
  const { readings, indexes, settings } = look
  const high = (index: number) => isAbove(readings, index, settings.targetHigh)
  const total = indexes.filter(high).length
  if (total < FEWEST_HIGHS) return null
  const parts = testedParts(look)
  return {
    // One side is asked for: where it is higher.
    ps: parts.map(({ difference, ofHigh }) =>
      Math.min(1, higherP(difference) / BY_LOG, ofHigh === null ? 1 : higherP(ofHigh) / (1 - BY_LOG)),
    ),
    answer(clear) {
      const chosen = parts.filter(({ inside }, i) => {
        const count = inside.filter(high).length
        // Readings that are in no part of the day stand among the rest.
        const elsewhere = (total - count) / (indexes.length - inside.length)
        return clear[i] && count >= FEWEST_HIGHS && count / inside.length >= LEAST_RATIO * elsewhere
      })
      if (chosen.length === 0) return null
      const told = chosen.map(({ part, inside }) => ({ ...part, ...countByDays(readings, inside, high) }))
      const within = new Set(chosen.flatMap(({ inside }) => inside))
      const elsewhere = countByDays(
        readings,
        indexes.filter((index) => !within.has(index)),
        high,
      )
      return {
        code: 'highs-gather',
        evidence: { parts: told, elsewhere, ...lowsBeside(readings, indexes) },
      }
    },
  }
}

/** A rise of one part of the day that would have been told. */
export interface VisibleRise {
  readonly part: DayPart
  /** Of 9 in 10 logs with as many tests that spread as these do. */
  readonly percent: number
}

/** Power of what is called visible, as a chance. */
const POWER = 0.9
/** So many expected are 5 or more in 94 of 100 (Poisson). */
const EXPECTED_HIGHS = 9
/** On fewer days their spread is not known well enough to say what would have shown (design choice). */
const FEWEST_DAYS_TO_SAY = 14
/** A larger rise is seen without a test. */
const MOST_PERCENT = 100
const STEP_PERCENT = 5

/**
 * The smallest rise, in steps of 5 %, that `highsGather` would have told in 9 of 10 such logs: of the part of the day with the
 * most readings, after a meal where the log tells any. `asked`: how many questions share the chance of error. Null where none up to 100 % would.
 */
export function smallestVisibleRise(look: Look, asked: number, error: number): VisibleRise | null {
  const parts = testedParts(look)
  const rises = parts.flatMap(({ part, inside, difference: { se, df, n } }) => {
    if (n < FEWEST_DAYS_TO_SAY) return []
    const limit = tQuantile(df, 1 - (BY_LOG * error) / (asked * parts.length))
    const byTest = Math.exp((limit + tQuantile(df, POWER)) * se)
    const percent =
      STEP_PERCENT * Math.ceil((100 * Math.max(byTest, ofHighs(look, inside)) - 100) / STEP_PERCENT)
    return percent > MOST_PERCENT ? [] : [{ part, percent, readings: inside.length }]
  })
  const isAfterMeal = ({ part }: VisibleRise) => 'moment' in part && part.moment.startsWith('after')
  const after = rises.filter(isAfterMeal)
  // The part that is known best: the smallest of all rises would flatter the log.
  const [told] = [...(after.length > 0 ? after : rises)].sort((a, b) => b.readings - a.readings)
  return told === undefined ? null : { part: told.part, percent: told.percent }
}

/** The factor that lifts enough readings above the target for a pattern of highs; Infinity where there are too few. */
function ofHighs({ readings, settings }: Look, inside: readonly number[]): number {
  const descending = Float64Array.from(inside, (index) => -readings.mgDl[index]).sort()
  return descending.length < EXPECTED_HIGHS
    ? Infinity
    : Math.max(1, (settings.targetHigh.mgDl + 1) / -descending[EXPECTED_HIGHS - 1])
}

interface PartReadings {
  readonly part: DayPart
  readonly inside: readonly number[]
}

/** Parts of the day with enough days that have tests within and without. */
function testedParts(look: Look) {
  return partsOf(look).flatMap((part) => {
    const { readings, settings } = look
    const inside = new Set(part.inside)
    const difference = dailyDifference(look, inside, (index) => Math.log(readings.mgDl[index]))
    if (difference === null) return []
    const isHigh = (index: number) => (isAbove(readings, index, settings.targetHigh) ? 1 : 0)
    return [{ ...part, difference, ofHigh: dailyDifference(look, inside, isHigh) }]
  })
}

function partsOf({ readings, indexes, tellsMeals }: Look): readonly PartReadings[] {
  const momentOf = mealMoments()
  const parts: readonly PartReadings[] = tellsMeals
    ? MEAL_MOMENTS.map((moment) => ({
        part: { moment },
        inside: indexes.filter((i) => momentOf(readings.meal(i)) === moment),
      }))
    : Array.from({ length: BLOCKS_PER_DAY }, (_, block) => ({
        part: { fromHour: block * BLOCK_HOURS, toHour: (block + 1) * BLOCK_HOURS },
        inside: indexes.filter(
          (i) =>
            hasClockTime(readings, i) &&
            Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600)) === block,
        ),
      }))
  return parts.filter(({ inside }) => inside.length >= FEWEST_HIGHS)
}

/** Mean of a figure of readings inside minus outside, over the days that have both; null on too few. */
function dailyDifference(
  { readings, indexes }: Look,
  inside: ReadonlySet<number>,
  figureOf: (index: number) => number,
): MeanDifference | null {
  const days = new Map<number, { in: number; out: number; inSum: number; outSum: number }>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    const so = days.get(day) ?? { in: 0, out: 0, inSum: 0, outSum: 0 }
    days.set(day, so)
    const figure = figureOf(index)
    if (inside.has(index)) {
      so.in++
      so.inSum += figure
    } else {
      so.out++
      so.outSum += figure
    }
  }
  const both = [...days].filter(([, so]) => so.in > 0 && so.out > 0)
  return meanDifference(
    both.map(([, so]) => so.inSum / so.in - so.outSum / so.out),
    both.map(([day]) => day),
    FEWEST_DAYS,
  )
}
