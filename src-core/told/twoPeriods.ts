import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { type PeriodsInOrder, periodsInOrder } from '../analysis/inOrderOfTime'
import {
  type BlockChange,
  type Change,
  type Interval,
  type MeasureName,
  type RowsTogether,
  type NoSameMeals,
  type Standing,
  standingOf,
  type Verdict,
} from '../compare/comparison'
import { type LowsChange, lowsChange, type ShareSaid } from '../compare/lowsOfTwo'
import type { HabitChange, TestingHabit } from '../compare/testingHabit'
import { metersOnPaper } from '../kit/metersOnPaper'
import type { DaySpan } from '../log/readings'
import { BLOCK_HOURS } from '../reference/dayParts'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import { type Held, type Measure, measureOf, type Quantity } from './measures'
import { type NewMeterTold, newMetersTold } from './besideNumbers'

/** A change from the earlier period to the later, whichever was named first. */
export interface LaterChange {
  readonly earlier: number | null
  readonly later: number | null
  /** Later - earlier. */
  readonly ci95: Interval | null
  /** Of the later period; what is withheld is not called higher or lower. */
  readonly said: Verdict | Exclude<Standing, 'judged'>
  /** Decimals beyond the usual: a clear change must not be printed with a limit of 0. */
  readonly moreDecimals: number
}

/** The mean at one mix of the hours, or of the meals too, in both periods. */
export type Standardised = 'sameTimes' | 'sameMeals'

/** One figure of two periods. */
export interface ChangeTold extends LaterChange {
  readonly of: MeasureName | Standardised
  readonly quantity: Quantity
  readonly heldBack: Held | null
}

/** One block of hours in both. */
export interface BlockTold extends Pick<BlockChange, 'fromHour' | 'toHour'> {
  readonly earlier: Measure
  readonly later: Measure
  readonly earlierN: number
  readonly laterN: number
  /** Of the later period, or why nothing is. */
  readonly said: Verdict | NonNullable<BlockChange['verdictReason']>
  readonly heldBack: Held | null
}

/** A meter and how much of each period's readings it gave, percent; by its name on paper. */
export interface MeterMix {
  readonly meter: string
  readonly earlierPercent: number
  readonly laterPercent: number
}

/** What must be known before any verdict. */
export type Caution =
  | { readonly code: 'new-meter'; readonly found: NewMeterTold }
  | {
      readonly code: 'habit'
      readonly changes: readonly HabitChange[]
      /** Of the readings with a meal those after it, percent, earlier and later. */
      readonly afterMealPercent: readonly [number, number]
    }
  | { readonly code: 'meter-mix'; readonly moved: readonly MeterMix[] }
  | { readonly code: 'shared-days'; readonly shared: DaySpan }
  | { readonly code: 'few-days'; readonly fewest: number }

/** A row of the table, or SD and CV as one. */
export type ClearRow = ChangeTold['of'] | 'spread'

/** A row that is clear, and the means at one mix that say the same as the mean. */
export interface ClearChange {
  readonly row: ChangeTold
  readonly alike: readonly Standardised[]
}

/** What of the table is clear, in a sentence: what its rows say and no more. */
export interface ClearTold {
  /** Called higher or lower in the table; a smaller share of lows is not told: lows are, by their count and the nights. */
  readonly clear: readonly ClearChange[]
  readonly notClear: readonly ClearRow[]
  /** Whether a row would be clear by itself and is not among all. */
  readonly rowsStandOut: boolean
  /** Why the other rows have no verdict; null where all that are told have one. */
  readonly noVerdict: 'habit' | 'few-days' | 'held-back' | null
}

/** Two periods as they are told: lows, cautions, then figures. */
export interface TwoPeriodsTold {
  readonly earlier: PeriodFigures
  readonly later: PeriodFigures
  readonly lows: LowsChange
  readonly cautions: readonly Caution[]
  /** The mean and the means at the same times and meals, then the others. */
  readonly rows: readonly ChangeTold[]
  /** The means in short; of one held back that alone, null for one at the same times that there is not. */
  readonly means: readonly (ChangeTold | null)[]
  /** Hours at which the blocks used for the same times begin; null where there are too few. */
  readonly sameTimesFrom: readonly number[] | null
  /** Why there are no means at the same meals; 'no-tags' where no reading tells its meal. */
  readonly noSameMeals: NoSameMeals | 'no-tags' | null
  readonly together: RowsTogether | null
  readonly clear: ClearTold
  readonly blocks: readonly BlockTold[]
}

/** Null where one period was asked for. */
export function twoPeriodsTold(analysis: Analysis): TwoPeriodsTold | null {
  const inOrder = periodsInOrder(analysis)
  if (inOrder === null) return null
  const { comparison, earlier, later, firstIsLater } = inOrder
  const { sameTimesOfDay, sameMeals, habits, together } = comparison
  const { unit } = analysis.settings
  const [mean, ...others] = comparison.measures.map((change) => {
    const [a, b] = [earlier, later].map(({ asLogged }) => measureOf(change.measure, asLogged))
    return {
      of: change.measure,
      quantity: a.quantity,
      heldBack: heldInEither(inOrder, a, b),
      ...laterChange(change, firstIsLater, standingOf(comparison, 'measures'), a.quantity, unit),
    }
  })
  const standardised = (of: Standardised, change: Change): ChangeTold => ({
    of,
    quantity: 'glucose',
    heldBack: mean.heldBack,
    ...laterChange(change, firstIsLater, standingOf(comparison, of), 'glucose', unit),
  })
  const sameTimes = sameTimesOfDay === null ? null : standardised('sameTimes', sameTimesOfDay)
  const atSameMeals = typeof sameMeals === 'string' ? [] : [standardised('sameMeals', sameMeals)]
  const noTags = habits.every(({ tagged }) => tagged === 0)
  const rows = [mean, ...(sameTimes === null ? [] : [sameTimes]), ...atSameMeals, ...others]
  const [lowsBefore, lowsAfter] = firstIsLater ? [...comparison.lows].reverse() : comparison.lows
  const lows = lowsChange(lowsBefore, lowsAfter, {
    below70: shareSaid(others, 'percentBelow70'),
    below54: shareSaid(others, 'percentBelow54'),
  })
  return {
    ...{ earlier, later, lows, together },
    cautions: cautionsOf(analysis, inOrder),
    rows,
    clear: clearTold(rows),
    means: mean.heldBack === null ? [mean, sameTimes, ...atSameMeals] : [mean],
    sameTimesFrom: sameTimesOfDay?.fromHours ?? null,
    noSameMeals:
      typeof sameMeals !== 'string' ? null : sameMeals === 'few-tags' && noTags ? 'no-tags' : sameMeals,
    blocks: comparison.blocks.map((block) => blockTold(block, inOrder)),
  }
}

function shareSaid(rows: readonly ChangeTold[], of: MeasureName): ShareSaid {
  const row = rows.find((each) => each.of === of)
  return row === undefined || row.heldBack !== null ? null : row.said
}

const LOW_SHARES: readonly ChangeTold['of'][] = ['percentBelow54', 'percentBelow70']

/** The rows by what the table says of each. */
export function clearTold(rows: readonly ChangeTold[]): ClearTold {
  const told = rows.filter(({ of, said }) => !LOW_SHARES.includes(of) || said === 'higher')
  const judged = told.filter(
    ({ heldBack, ci95, said }) => heldBack === null && ci95 !== null && said !== 'withheld',
  )
  const mean = judged.find(({ of }) => of === 'meanMgDl')
  // A mean at one mix that says what the mean says is told with it.
  const alike = judged.filter((row) => isStandardised(row.of) && mean !== undefined && isSame(row, mean))
  const own = judged.filter((row) => !alike.includes(row))
  const notClear = own.filter((row) => !isClear(row)).map(({ of }) => of)
  const spread = notClear.includes('sdMgDl') && notClear.includes('cvPercent')
  return {
    clear: own.filter(isClear).map((row) => ({
      row,
      alike: row === mean ? alike.map(({ of }) => of).filter(isStandardised) : [],
    })),
    notClear: notClear.flatMap((of): readonly ClearRow[] =>
      !spread ? [of] : of === 'sdMgDl' ? ['spread'] : of === 'cvPercent' ? [] : [of],
    ),
    rowsStandOut: judged.some(({ said }) => said === 'not-with-all-rows'),
    noVerdict: whyNoVerdict(told.find((row) => !judged.includes(row))),
  }
}

const isClear = ({ said }: ChangeTold) => said === 'higher' || said === 'lower'
const isSame = (a: ChangeTold, b: ChangeTold) => (isClear(a) ? a.said === b.said : !isClear(b))

function isStandardised(of: ChangeTold['of']): of is Standardised {
  return of === 'sameTimes' || of === 'sameMeals'
}

function whyNoVerdict(row: ChangeTold | undefined): ClearTold['noVerdict'] {
  if (row === undefined) return null
  if (row.heldBack !== null) return 'held-back'
  return row.ci95 === null ? 'few-days' : 'habit'
}

/** The change as it stands on paper: from the earlier period to the later. */
export function laterChange(
  { first, second, ci95, verdict }: Change,
  firstIsLater: boolean,
  standing: Standing,
  quantity: Quantity,
  unit: GlucoseUnit,
): LaterChange {
  const interval: Interval | null = firstIsLater || ci95 === null ? ci95 : [-ci95[1], -ci95[0]]
  const isJudged = standing === 'judged' || (standing === 'not-with-all-rows' && verdict === 'unclear')
  const said = isJudged ? (firstIsLater ? verdict : turned(verdict)) : standing
  return {
    ...(firstIsLater ? { earlier: second, later: first } : { earlier: first, later: second }),
    ci95: interval,
    said,
    moreDecimals:
      interval !== null && (said === 'higher' || said === 'lower')
        ? moreDecimals(interval, quantity, unit)
        : 0,
  }
}

const MOST_DECIMALS = 3

function moreDecimals(ci95: Interval, quantity: Quantity, unit: GlucoseUnit): number {
  const smallest = Math.min(...ci95.map(Math.abs))
  const [printed, decimals] =
    quantity === 'glucose' ? [fromMgDl(smallest, unit), glucoseDecimals(unit)] : [smallest, 0]
  let needed = decimals
  while (needed < MOST_DECIMALS && roundHalfAway(printed, needed) === 0) needed++
  return needed - decimals
}

function turned(verdict: Verdict): Verdict {
  return verdict === 'unclear' ? verdict : verdict === 'higher' ? 'lower' : 'higher'
}

/** One of two periods alone is reason enough; a marker in the place of a median is no number to compare. */
function heldInEither(
  { earlier, later }: PeriodsInOrder,
  ...measures: readonly [Measure, Measure]
): Held | null {
  const periods = [earlier, later]
  for (const [i, { heldBack, points, key }] of measures.entries()) {
    if (heldBack !== null) return heldBack
    const { asLogged } = periods[i]
    if (key === 'medianMgDl' && asLogged.medianMgDl !== null && typeof points[0] !== 'number') {
      return { why: 'markers', of: asLogged }
    }
  }
  return null
}

function blockTold(block: BlockChange, { earlier, later, firstIsLater }: PeriodsInOrder): BlockTold {
  const { fromHour, toHour, verdictReason } = block
  const [a, b] = [earlier, later].map(({ timeOfDay }) => timeOfDay.blocks[fromHour / BLOCK_HOURS])
  const [before, after] = [measureOf('meanMgDl', a), measureOf('meanMgDl', b)]
  return {
    ...{ fromHour, toHour },
    earlier: before,
    later: after,
    earlierN: a.n,
    laterN: b.n,
    said: verdictReason ?? (firstIsLater ? block.verdict : turned(block.verdict)),
    heldBack: before.heldBack ?? after.heldBack,
  }
}

/** A meter's part that moved by more than this many points may be what changed; a design choice. */
export const METER_MIX_POINTS = 20

function cautionsOf(analysis: Analysis, inOrder: PeriodsInOrder): readonly Caution[] {
  const { comparison, earlier, later, firstIsLater } = inOrder
  const { habitChanges, habits, sharedDays } = comparison
  const span = { from: Math.min(earlier.from, later.from), to: Math.max(earlier.to, later.to) }
  const [before, after] = firstIsLater ? [habits[1], habits[0]] : habits
  const onPaper = metersOnPaper(analysis.readings.meters)
  const moved = comparison.meters
    .map(({ meter, firstPercent, secondPercent }) => ({
      meter: onPaper[meter],
      earlierPercent: firstIsLater ? secondPercent : firstPercent,
      laterPercent: firstIsLater ? firstPercent : secondPercent,
    }))
    .filter(({ earlierPercent, laterPercent }) => Math.abs(laterPercent - earlierPercent) > METER_MIX_POINTS)
  return [
    ...newMetersTold(analysis, span).map((found) => ({ code: 'new-meter', found }) as const),
    ...(habitChanges.length === 0
      ? []
      : [
          {
            code: 'habit',
            changes: habitChanges,
            afterMealPercent: [afterMealPercent(before), afterMealPercent(after)],
          } as const,
        ]),
    ...(moved.length === 0 ? [] : [{ code: 'meter-mix', moved } as const]),
    ...(sharedDays === null ? [] : [{ code: 'shared-days', shared: sharedDays } as const]),
    ...([earlier, later].every(({ daysWithReadings }) => daysWithReadings >= FEWEST_DAYS)
      ? []
      : [{ code: 'few-days', fewest: FEWEST_DAYS } as const]),
  ]
}

function afterMealPercent({ afterMeal, tagged }: TestingHabit): number {
  return tagged === 0 ? 0 : (100 * afterMeal) / tagged
}
