import { MEAL_MOMENTS, type MealMoment } from '../reference/mealMoment'
import type { Counted } from '../model/counted'
import { mealMoments } from '../log/mealWords'
import { hasClockTime, isAbove, isBelow, isLow, isMarker, countMarkers, type Readings } from '../log/readings'
import { type GoalsFor, type MealGoal, mealGoal } from '../reference/mealGoals'
import { medianInterval, medianIntervalOf } from '../statistics/intervals'
import { quantileR7 } from '../statistics/quantile'
import type { Interval } from '../statistics/wilson'
import { dayOf } from '../units/wallClock'

/** Readings that one row of the table by meal holds. mg/dL. */
export interface RowFigures extends Counted {
  /** Days with a reading: ten tests of one morning are one. */
  readonly days: number
  readonly medianMgDl: number
  readonly q1MgDl: number
  readonly q3MgDl: number
  /** 95 % interval of the median by days; null on too few days. */
  readonly medianCi95MgDl: Interval | null
  /** Indexes of the lowest and the highest reading. */
  readonly lowest: number
  readonly highest: number
  readonly readingsBelow70: number
}

/** Readings of one moment of the day. */
export interface MealFigures extends RowFigures {
  readonly moment: MealMoment
  readonly goal: MealGoal | null
  /** How many meet the goal; null without one. */
  readonly withinGoal: number | null
}

export type MealKind = 'before' | 'after' | 'bedtime' | 'night'

/** Readings before all meals, after all meals, at bedtime or at night. */
export interface KindFigures extends Omit<MealFigures, 'moment'> {
  readonly kind: MealKind
}

/** A reading before a meal and one after it. */
export interface MealPair {
  readonly meal: Meal
  /** Indexes of both. */
  readonly before: number
  readonly after: number
  /** After minus before, mg/dL. */
  readonly riseMgDl: number
}

export const MEALS = ['breakfast', 'lunch', 'dinner', 'meal'] as const
/** `meal` where the log does not name it. */
export type Meal = (typeof MEALS)[number]

export interface MealRises {
  readonly meal: Meal
  readonly n: number
  readonly medianMgDl: number
  readonly q1MgDl: number
  readonly q3MgDl: number
  /** 95 % interval of the median by days; null on too few days. */
  readonly medianCi95MgDl: Interval | null
}

export interface ByMeal {
  /** Readings whose tag tells the moment, of all readings. */
  readonly tagged: number
  readonly n: number
  /** Moments with readings, in the order of the day. */
  readonly moments: readonly MealFigures[]
  /** The same with all meals as one, for a short table; a goal only where all of them have the same. */
  readonly kinds: readonly KindFigures[]
  /** The others: without a tag, or with one that names no moment. Null where there are none. */
  readonly untagged: RowFigures | null
  readonly pairs: readonly MealPair[]
  /** Meals with pairs. */
  readonly rises: readonly MealRises[]
}

/** Whether the log tells the meal of at least half of the readings. */
export function tellsMeals({ tagged, n }: Pick<ByMeal, 'tagged' | 'n'>): boolean {
  return tagged > 0 && 2 * tagged >= n
}

/** Minutes from the test before a meal to the one after it (design choice around the published 1 to 2 hours). */
export const PAIR_MINUTES = { least: 60, most: 150 } as const

/**
 * Readings `[start, end)` by the meal that the log tells, without those with a bit of `leaveOut`. Goals:
 * `mealGoal`; quantiles: type 7. Pairs need a time of day and no HI or LO; each reading is in one pair at most.
 */
export function byMeal(
  readings: Readings,
  start: number,
  end: number,
  goals: GoalsFor,
  leaveOut = 0,
): ByMeal {
  const momentOf = mealMoments()
  const at = new Map<MealMoment, number[]>()
  const untagged: number[] = []
  let n = 0
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    n++
    const moment = momentOf(readings.meal(i))
    if (moment === null) {
      untagged.push(i)
      continue
    }
    const indexes = at.get(moment)
    if (indexes) indexes.push(i)
    else at.set(moment, [i])
  }
  const moments = MEAL_MOMENTS.flatMap((moment) => {
    const indexes = at.get(moment)
    return indexes === undefined ? [] : [figuresOf(readings, moment, indexes, goals)]
  })
  const pairs = MEALS.flatMap((meal) =>
    pairsOf(readings, meal, at.get(`before-${meal}`) ?? [], at.get(`after-${meal}`) ?? []),
  )
  return {
    tagged: moments.reduce((sum, figures) => sum + figures.n, 0),
    n,
    moments,
    kinds: kindsOf(readings, at, moments),
    untagged: untagged.length === 0 ? null : rowOf(readings, untagged),
    pairs,
    rises: MEALS.flatMap((meal) => risesOf(readings, meal, pairs)),
  }
}

function figuresOf(
  readings: Readings,
  moment: MealMoment,
  indexes: readonly number[],
  goals: GoalsFor,
): MealFigures {
  const goal = mealGoal(moment, goals)
  return {
    moment,
    ...rowOf(readings, indexes),
    goal,
    withinGoal: goal === null ? null : indexes.filter((i) => meets(readings, i, goal)).length,
  }
}

const KINDS: readonly MealKind[] = ['before', 'after', 'bedtime', 'night']

function kindsOf(
  readings: Readings,
  at: ReadonlyMap<MealMoment, readonly number[]>,
  moments: readonly MealFigures[],
): readonly KindFigures[] {
  return KINDS.flatMap((kind) => {
    const own = moments.filter(({ moment }) => moment.split('-')[0] === kind)
    if (own.length === 0) return []
    const goals = own.map(({ goal }) => goal)
    const same = goals.every((goal) => JSON.stringify(goal) === JSON.stringify(goals[0]))
    const met = own.map(({ withinGoal }) => withinGoal)
    return [
      {
        kind,
        ...rowOf(
          readings,
          own.flatMap(({ moment }) => at.get(moment) ?? []).sort((a, b) => a - b),
        ),
        goal: same ? goals[0] : null,
        withinGoal: met.includes(null) ? null : met.reduce<number>((sum, n) => sum + (n ?? 0), 0),
      },
    ]
  })
}

/** Of at least one reading. */
function rowOf(readings: Readings, indexes: readonly number[]): RowFigures {
  const sorted = Float64Array.from(indexes, (i) => readings.mgDl[i]).sort()
  const [first] = indexes
  return {
    ...countMarkers(readings, indexes),
    days: new Set(indexes.map((i) => dayOf(readings.at[i]))).size,
    ...middleOf(sorted),
    medianCi95MgDl: medianIntervalOf(readings, indexes),
    lowest: indexes.reduce((low, i) => (readings.mgDl[i] < readings.mgDl[low] ? i : low), first),
    highest: indexes.reduce((high, i) => (readings.mgDl[i] > readings.mgDl[high] ? i : high), first),
    readingsBelow70: indexes.filter((i) => isLow(readings, i)).length,
  }
}

/** Whether a reading meets a goal, held against it in the unit it was logged in. A low never does. */
function meets(readings: Readings, index: number, goal: MealGoal): boolean {
  if (isLow(readings, index) || (goal.low !== null && isBelow(readings, index, goal.low))) return false
  return goal.below ? isBelow(readings, index, goal.high) : !isAbove(readings, index, goal.high)
}

function middleOf(sorted: Float64Array) {
  return {
    medianMgDl: quantileR7(sorted, 0.5) ?? NaN,
    q1MgDl: quantileR7(sorted, 0.25) ?? NaN,
    q3MgDl: quantileR7(sorted, 0.75) ?? NaN,
  }
}

/** Each test after a meal with the latest unused test before it; earlier tests of the same moment are used up with it. */
function pairsOf(
  readings: Readings,
  meal: Meal,
  befores: readonly number[],
  afters: readonly number[],
): MealPair[] {
  const usable = (i: number) => hasClockTime(readings, i) && !isMarker(readings, i)
  const pairs: MealPair[] = []
  let from = 0
  for (const after of afters.filter(usable)) {
    const minutesTo = (before: number) => (readings.at[after] - readings.at[before]) / 60
    while (from < befores.length && minutesTo(befores[from]) > PAIR_MINUTES.most) from++
    let end = from
    while (end < befores.length && minutesTo(befores[end]) >= PAIR_MINUTES.least) end++
    const before = befores.slice(from, end).filter(usable).at(-1)
    from = end
    if (before === undefined) continue
    pairs.push({ meal, before, after, riseMgDl: readings.mgDl[after] - readings.mgDl[before] })
  }
  return pairs
}

function risesOf(readings: Readings, meal: Meal, pairs: readonly MealPair[]): MealRises[] {
  const own = pairs.filter((pair) => pair.meal === meal)
  if (own.length === 0) return []
  const middle = middleOf(Float64Array.from(own, ({ riseMgDl }) => riseMgDl).sort())
  return [{ meal, n: own.length, ...middle, medianCi95MgDl: riseInterval(readings, own) }]
}

/** 95 % interval of the median rise by the days of the meals, mg/dL; null on too few days. */
export function riseInterval(readings: Readings, pairs: readonly MealPair[]): Interval | null {
  return medianInterval(
    pairs.map(({ riseMgDl }) => riseMgDl),
    pairs.map(({ after }) => dayOf(readings.at[after])),
  )
}
