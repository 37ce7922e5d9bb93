import type { MealMoment } from '../reference/mealMoment'
import { medianOf } from '../day/week'
import { mealMoments } from '../log/mealWords'
import { FLAG, type Readings } from '../log/readings'
import { BALANCED_MIN_READINGS, BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { newcombeInterval } from '../statistics/newcombe'
import { wilsonInterval } from '../statistics/wilson'
import { secondOfDay } from '../units/wallClock'

/** When a period's readings were taken: by the clock, and before or after meals. */
export interface TestingHabit extends MealShare {
  readonly n: number
  /** With a time of day. */
  readonly timed: number
  readonly blocks: readonly BlockHabit[]
}

/** Readings after a meal, of those whose tag tells the moment. */
interface MealShare {
  readonly tagged: number
  readonly afterMeal: number
}

export interface BlockHabit extends MealShare, CellHabit {
  /** Readings in each hour of the block. */
  readonly hours: readonly number[]
  /** In the order of `MOMENTS`. */
  readonly moments: readonly CellHabit[]
}

interface CellHabit {
  readonly n: number
  /** Minute of the day; null without readings. */
  readonly medianMinute: number | null
}

/** Why two periods may differ by when was tested alone. */
export type HabitChange =
  /** More, or fewer, of the tests that tell it were made after meals. */
  | 'meals'
  /** The tests stand at other hours of the clock. */
  | 'hours'
  /** The same inside the blocks of three hours that means at the same times of day rest on. */
  | 'within-blocks'
  /** Tests before, or after, meals stand at other minutes. */
  | 'within-meals'
  /** The logs do not tell the time of many readings. */
  | 'times-unknown'

/** A block's part of tests after meals that moved further than this moved; percentage points, a design choice. */
export const MOVED_POINTS = 15
/** The same of the median minute of its tests. */
export const MOVED_MINUTES = 30
/** Where blocks that moved weigh so much, means at the same times of day have no verdict. */
const MOVED_WEIGHT = 0.5

// What is printed is held to more. Design choices, tried on invented people whose glucose never changed its law and whose
// habit of testing did (`test/bench/falseVerdicts.bench.ts`): false verdicts stay near the 5 in 100 of an unchanged habit.
/** Where blocks that clearly moved weigh so much, no verdict is printed. */
const MOVED_WEIGHT_PRINTED = 0.25
/** Points by which tests after meals may move in all. */
const MEALS_POINTS = 10
/** Points of tests that may move to another hour, beyond those that chance would move. */
const HOURS_POINTS = 7
/** Below this share of readings with a time the hours of testing are unknown. */
const FEWEST_TIMED = 0.6

/** Meal moments as far as they are kept apart for standardising. */
export const MOMENTS = ['before-meal', 'after-meal', 'other'] as const
export type MomentKind = (typeof MOMENTS)[number]

export function momentKind(moment: MealMoment | null): MomentKind {
  if (moment === null) return 'other'
  if (moment.startsWith('before-')) return 'before-meal'
  return moment.startsWith('after-') ? 'after-meal' : 'other'
}

/** The habit of the readings `[start, end)` without those with a bit of `leaveOut`. */
export function testingHabit(
  readings: Readings,
  { start, end }: { readonly start: number; readonly end: number },
  leaveOut: number,
): TestingHabit {
  const momentOf = mealMoments()
  const blocks = Array.from({ length: BLOCKS_PER_DAY }, () => ({
    minutes: MOMENTS.map((): number[] => []),
    hours: new Array<number>(BLOCK_HOURS).fill(0),
    tagged: 0,
    afterMeal: 0,
  }))
  const habit = { n: 0, timed: 0, tagged: 0, afterMeal: 0 }
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    const moment = momentOf(readings.meal(i))
    const kind = momentKind(moment)
    const tagged = moment === null ? 0 : 1
    const afterMeal = kind === 'after-meal' ? 1 : 0
    habit.n++
    habit.tagged += tagged
    habit.afterMeal += afterMeal
    if (readings.flags[i] & FLAG.dayOnly) continue
    habit.timed++
    const minute = secondOfDay(readings.at[i]) / 60
    const hour = Math.floor(minute / 60)
    const block = blocks[Math.floor(hour / BLOCK_HOURS)]
    block.minutes[MOMENTS.indexOf(kind)].push(minute)
    block.hours[hour % BLOCK_HOURS]++
    block.tagged += tagged
    block.afterMeal += afterMeal
  }
  const cell = (minutes: readonly number[]) => ({ n: minutes.length, medianMinute: medianOf(minutes) })
  return {
    ...habit,
    blocks: blocks.map(({ minutes, ...block }) => ({
      ...block,
      ...cell(minutes.flat()),
      moments: minutes.map(cell),
    })),
  }
}

/** Whether blocks that moved carry half of the weight of means at the same times of day, or more. */
export function mixMoved(
  first: TestingHabit,
  second: TestingHabit,
  weights: readonly { readonly block: number; readonly weight: number }[],
): boolean {
  const moved = weights.filter(({ block }) => {
    const [a, b] = [first.blocks[block], second.blocks[block]]
    return Math.abs(mealPoints(a, b) ?? 0) > MOVED_POINTS || minutesMoved(a, b)
  })
  // Weights are shares of counts: their sum may miss a half by rounding.
  return moved.reduce((sum, { weight }) => sum + weight, 0) >= MOVED_WEIGHT - 1e-12
}

/** Whether a block was clearly tested at other meals, hours or minutes. */
export function blockMoved(first: BlockHabit, second: BlockHabit): boolean {
  return (
    mealsMoved(first, second, MOVED_POINTS) ||
    minutesMoved(first, second) ||
    pointsMoved(first.hours, second.hours) > MOVED_POINTS
  )
}

/** Whether enough readings have a time of day to tell when was tested. */
export function areTimesKnown({ n, timed }: Pick<TestingHabit, 'n' | 'timed'>): boolean {
  return timed >= FEWEST_TIMED * n
}

/** How the habit of testing changed between two periods as far as it could change their figures; none where it did not. */
export function habitChanges(first: TestingHabit, second: TestingHabit): readonly HabitChange[] {
  const changes: HabitChange[] = []
  if (mealsMoved(first, second, MEALS_POINTS)) changes.push('meals')
  if (!areTimesKnown(first) || !areTimesKnown(second)) changes.push('times-unknown')
  else if (pointsMoved(hoursOf(first), hoursOf(second)) > HOURS_POINTS) changes.push('hours')
  const blocks = first.blocks.map((block, i) => [block, second.blocks[i]] as const)
  const within = weighted(blocks, ([a, b]) => (blockMoved(a, b) ? 1 : 0))
  const hours = weighted(blocks, ([a, b]) => pointsMoved(a.hours, b.hours))
  if (within >= MOVED_WEIGHT_PRINTED || hours > HOURS_POINTS) changes.push('within-blocks')
  const cells = blocks.flatMap(([a, b]) => a.moments.map((cell, i) => [cell, b.moments[i]] as const))
  if (weighted(cells, ([a, b]) => (minutesMoved(a, b) ? 1 : 0)) >= MOVED_WEIGHT_PRINTED) {
    changes.push('within-meals')
  }
  return changes
}

function hoursOf({ blocks }: TestingHabit): readonly number[] {
  return blocks.flatMap(({ hours }) => hours)
}

/** The mean of what is told of pairs that both periods tested, by the readings of both together; 0 without such. */
function weighted<C extends { readonly n: number }>(
  pairs: readonly (readonly [C, C])[],
  told: (pair: readonly [C, C]) => number,
): number {
  const tested = pairs.filter(([a, b]) => Math.min(a.n, b.n) >= BALANCED_MIN_READINGS)
  const all = tested.reduce((sum, [a, b]) => sum + a.n + b.n, 0)
  return tested.reduce((sum, pair) => sum + ((pair[0].n + pair[1].n) / all) * told(pair), 0)
}

/** Percentage points by which tests after meals are more in the first; null, unknown, where either has no tag. */
function mealPoints(first: MealShare, second: MealShare): number | null {
  if (first.tagged === 0 || second.tagged === 0) return null
  // From whole numbers, so that exactly 15 points are 15.
  return (
    (100 * (first.afterMeal * second.tagged - second.afterMeal * first.tagged)) /
    (first.tagged * second.tagged)
  )
}

/** By more than so many points, and more than chance would. */
function mealsMoved(first: MealShare, second: MealShare, points: number): boolean {
  const moved = mealPoints(first, second)
  if (moved === null || Math.abs(moved) <= points) return false
  const [a, b] = [first, second].map(({ afterMeal, tagged }) => ({
    share: afterMeal / tagged,
    limits: wilsonInterval(afterMeal, tagged) ?? [0, 1],
  }))
  const [low, high] = newcombeInterval(a, b)
  return low > 0 || high < 0
}

function minutesMoved(first: CellHabit, second: CellHabit): boolean {
  if (first.medianMinute === null || second.medianMinute === null) return false
  return Math.abs(first.medianMinute - second.medianMinute) > MOVED_MINUTES
}

/**
 * How many in 100 of the tests would have to move to another place to make both mixes alike, less what chance would
 * make of it where the mixes are alike: of each place the mean of |N(0, s)|, s sqrt(2 / pi).
 */
function pointsMoved(first: readonly number[], second: readonly number[]): number {
  const n = first.reduce((sum, count) => sum + count, 0)
  const m = second.reduce((sum, count) => sum + count, 0)
  if (n === 0 || m === 0) return 0
  return first.reduce((sum, count, i) => {
    const both = (count + second[i]) / (n + m)
    const byChance = Math.sqrt((2 / Math.PI) * both * (1 - both) * (1 / n + 1 / m))
    return sum + 50 * (Math.abs(count / n - second[i] / m) - byChance)
  }, 0)
}
