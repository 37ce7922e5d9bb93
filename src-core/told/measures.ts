import type { PeriodFigures } from '../analysis/analysis'
import type { Counted } from '../model/counted'
import { type Hours, onlyHours } from './coverage'
import type { Settings } from '../model/settings'
import {
  FEWEST_BLOCK_DAYS,
  FEWEST_BLOCK_READINGS,
  FEWEST_READINGS,
  hasManyMarkers,
  isHardlyTested,
  standsAt,
} from '../statistics/heldBack'
import { printedSdInterval } from '../statistics/printedSd'
import type { Summary } from '../statistics/summary'
import type { Interval } from '../statistics/wilson'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'

// Every figure that is shown anywhere: page, window, terminal. One entry each, asked for by its key; its words are in the
// catalogue of sentences (`measureLabel`, `valueText`, `knownToText` in figures.ts).

/** What a figure is of: glucose in mg/dL, percent of something else, the share of readings in percent, a count. */
export type Quantity = 'glucose' | 'percent' | 'share' | 'count'

type Field =
  | 'readingsBelow70'
  | 'meanMgDl'
  | 'balancedMeanMgDl'
  | 'sdMgDl'
  | 'cvPercent'
  | 'medianMgDl'
  | 'q1MgDl'
  | 'q3MgDl'
  | `percent${'Below54' | 'Below70' | 'InTarget' | 'Above180' | 'Above250'}`

/** By the names of the fields of a summary and of the JSON; the middle half has two. */
export type MeasureKey = Exclude<Field, 'q1MgDl' | 'q3MgDl'> | 'middleHalfMgDl'

interface Entry {
  readonly quantity: Quantity
  /** Quantiles: a marker may stand there. */
  readonly quantiles?: readonly number[]
  /** Whether it takes the limits of HI and LO for values; `spread` also asks for enough readings. */
  readonly rests?: 'on-values' | 'on-spread'
}

const ENTRIES: Readonly<Record<MeasureKey, Entry>> = {
  readingsBelow70: { quantity: 'count' },
  meanMgDl: { quantity: 'glucose', rests: 'on-values' },
  balancedMeanMgDl: { quantity: 'glucose', rests: 'on-values' },
  sdMgDl: { quantity: 'glucose', rests: 'on-spread' },
  cvPercent: { quantity: 'percent', rests: 'on-spread' },
  medianMgDl: { quantity: 'glucose', quantiles: [0.5] },
  middleHalfMgDl: { quantity: 'glucose', quantiles: [0.25, 0.75] },
  percentBelow54: { quantity: 'share' },
  percentBelow70: { quantity: 'share' },
  percentInTarget: { quantity: 'share' },
  percentAbove180: { quantity: 'share' },
  percentAbove250: { quantity: 'share' },
}

function fieldsOf(key: MeasureKey): readonly Field[] {
  return key === 'middleHalfMgDl' ? ['q1MgDl', 'q3MgDl'] : [key]
}

/** Why a figure is not shown, with what is said of it. */
export type Held =
  | { readonly why: 'markers'; readonly of: Counted }
  | { readonly why: 'few-readings'; readonly fewest: number }
  /** A block of hours was tested on hardly any day. */
  | { readonly why: 'few-block-days'; readonly fewest: number }
  | { readonly why: 'few-days'; readonly fewest: number; readonly within: number }
  | { readonly why: 'pregnancy' }
  /** All tests were made within a few hours of the day. */
  | { readonly why: 'few-hours'; readonly hours: Hours }

/** A number, or the marker that stands in its place; null where there is neither. */
export type Point = number | 'LO' | 'HI' | null

export interface Measure {
  readonly key: MeasureKey
  readonly quantity: Quantity
  /** mg/dL, percent or a count: one value, or the two ends of a range. */
  readonly points: readonly Point[]
  /** 95 %, of a single value. */
  readonly interval: Interval | null
  readonly heldBack: Held | null
  /** A share of so few readings, or of no numbers, is told as a count: in percent it would look like more than it is. */
  readonly counted: Count | null
}

export interface Count {
  readonly count: number
  readonly n: number
}

/** Readings summed up, or what of it is at hand. */
export type SummedUp = Counted & Readonly<Partial<Record<Field, number | null>>>

/** Where readings were left out, `base` are all of them: what is held back of all is held back of the rest. */
export function measureOf(
  key: MeasureKey,
  of: SummedUp,
  { base = of, interval = null }: { readonly base?: Counted; readonly interval?: Interval | null } = {},
): Measure {
  const { quantity, quantiles, rests } = ENTRIES[key]
  const points = fieldsOf(key).map((field, i) => pointAt(of[field] ?? null, quantiles?.[i], of))
  const [percent] = points
  const few = base.n < FEWEST_READINGS || hasManyMarkers(base)
  return {
    key,
    quantity,
    points,
    interval: points.every((point) => typeof point === 'number') ? interval : null,
    heldBack: heldBack(rests, of, base),
    counted: quantity === 'share' && few && typeof percent === 'number' ? countOf(percent, of) : null,
  }
}

/** How many readings a share is of. */
export function shareCount(
  key: `percent${'InTarget' | 'Below70' | 'Above180' | 'Above250'}`,
  of: SummedUp,
): Count {
  return countOf(of[key] ?? 0, of)
}

function countOf(percent: number, { n }: Counted): Count {
  return { count: Math.round((percent * n) / 100), n }
}

/** A period's figure with its interval; a low counts in both, whatever is left out. */
export function periodMeasure(
  key: MeasureKey,
  period: PeriodFigures,
  which: 'asLogged' | 'checked' = 'asLogged',
): Measure {
  const { asLogged, daysWithReadings, intervals, lows } = period
  const { ci95, balancedMeanCi95MgDl: balancedMean } = intervals[which]
  const of = period[which]
  const [field] = fieldsOf(key)
  const ofField = ci95 !== null && field in ci95 ? ci95[field as keyof typeof ci95] : null
  const hours = onlyHours(period)
  const measure = measureOf(
    key,
    { ...of, readingsBelow70: lows.readingsBelow70 },
    {
      base: asLogged,
      interval:
        key === 'balancedMeanMgDl'
          ? balancedMean
          : key === 'sdMgDl' && ofField !== null && of.sdMgDl !== null
            ? printedSdInterval(of.sdMgDl, ofField, daysWithReadings)
            : ofField,
    },
  )
  const speaksOfDay = measure.quantity === 'share' || key === 'cvPercent'
  return hours === null || !speaksOfDay || measure.heldBack !== null
    ? measure
    : { ...measure, heldBack: { why: 'few-hours', hours } }
}

/** A figure of a block of hours: of a block hardly tested nothing but lows is shown, and shares in percent elsewhere. */
export function blockMeasure(key: MeasureKey, block: SummedUp & { readonly days: number }): Measure {
  const measure = measureOf(key, block)
  if (measure.quantity === 'count') return measure
  const heldBack: Held | null =
    block.n < FEWEST_BLOCK_READINGS
      ? { why: 'few-readings', fewest: FEWEST_BLOCK_READINGS }
      : isHardlyTested(block)
        ? { why: 'few-block-days', fewest: FEWEST_BLOCK_DAYS }
        : measure.heldBack
  return { ...measure, heldBack, counted: null }
}

function pointAt(value: number | null, quantile: number | undefined, of: Counted): Point {
  if (value === null || quantile === undefined) return value
  const at = standsAt(quantile, of)
  return at === 'number' ? value : at === 'between' ? null : at
}

function heldBack(rests: Entry['rests'], of: Counted, base: Counted): Held | null {
  if (rests === undefined) return null
  // HI that were left out as doubtful are no reason to show a mean of the rest that all of them would not give.
  const many = [base, of].find(hasManyMarkers)
  if (many !== undefined) return { why: 'markers', of: many }
  if (rests === 'on-spread' && of.n < FEWEST_READINGS) return { why: 'few-readings', fewest: FEWEST_READINGS }
  return null
}

/** How well a figure is known: both limits of a share in percent, else so much to both sides, as it is printed. */
export type KnownTo =
  { readonly limits: Interval } | { readonly plusMinus: number; readonly decimals: number }

/**
 * Null without an interval. Of a share both limits, for near 0 and 100 it is not known equally well to both sides; else the
 * farther limit, one printed step at least.
 */
export function knownTo({ quantity, points: [value], interval }: Measure, unit: GlucoseUnit): KnownTo | null {
  if (interval === null || typeof value !== 'number') return null
  if (quantity === 'share') return { limits: interval }
  const printed = (of: number) => (quantity === 'glucose' ? fromMgDl(of, unit) : of)
  const [low, middle, high] = [interval[0], value, interval[1]].map(printed)
  const decimals = quantity === 'glucose' ? glucoseDecimals(unit) : 0
  const farther = roundHalfAway(Math.max(middle - low, high - middle), decimals)
  return { plusMinus: Math.max(farther, 10 ** -decimals), decimals }
}

/** What names of measures hold: limits in the printed unit, and what the readings are of. */
export interface Naming extends Pick<Settings, 'unit' | 'targetLow' | 'targetHigh'> {
  readonly kind: PeriodFigures['kind']
  /** How many blocks of hours the balanced mean rests on. */
  readonly balancedBlocks: number
}

export function namingOf(settings: Settings, { kind, asLogged }: PeriodFigures): Naming {
  const { unit, targetLow, targetHigh } = settings
  return { unit, targetLow, targetHigh, kind, balancedBlocks: asLogged.balancedBlocks }
}

/** From this many three-hour blocks on the balanced mean stands for the day: half of it (design choice). */
const FEWEST_BALANCED_BLOCKS = 4
/** Farther from the mean than this share of it, the balanced mean is shown beside it (design choice). */
export const LOPSIDED_PERCENT = 5

/** The mean balanced over the day, mg/dL, where the hours of testing moved the mean; else null. */
export function balancedBeside({
  meanMgDl,
  balancedMeanMgDl,
  balancedBlocks,
}: Pick<Summary, 'meanMgDl' | 'balancedMeanMgDl' | 'balancedBlocks'>): number | null {
  if (meanMgDl === null || balancedMeanMgDl === null || balancedBlocks < FEWEST_BALANCED_BLOCKS) return null
  return 100 * Math.abs(balancedMeanMgDl - meanMgDl) <= LOPSIDED_PERCENT * meanMgDl ? null : balancedMeanMgDl
}
