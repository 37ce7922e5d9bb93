import { LIMITS, limitIn, type LimitPair } from '../reference/limits'
import { GOAL_ENDS, type MealGoal } from '../reference/mealGoals'
import { isTargetPreset, type TargetPreset } from '../reference/targetPreset'
import { MEASURING_RANGE_MG_DL } from '../reference/meter'
import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'

/** What is asked for: a preset, or two ends in the printed unit. */
export type TargetRequest = TargetPreset | RangeRequest

/** Two ends in the printed unit. */
export interface RangeRequest {
  readonly low: number
  readonly high: number
}

export interface Targets {
  readonly targetLow: LimitPair
  readonly targetHigh: LimitPair
  /** Null where the target is the usual one or was named by its ends. */
  readonly targetPreset: TargetPreset | null
}

/**
 * Target ranges of the presets (Battelino et al., Diabetes Care 2019;42:1593-1603). For older adults and people
 * at high risk the range is the usual one; the consensus asks for less time in it and for fewer lows.
 */
const PRESETS: Readonly<Record<TargetPreset, Targets>> = {
  pregnancy: {
    targetLow: LIMITS.pregnancyLow,
    targetHigh: LIMITS.pregnancyHigh,
    targetPreset: 'pregnancy',
  },
  'older-adult': { targetLow: LIMITS.low, targetHigh: LIMITS.high, targetPreset: 'older-adult' },
  frail: { targetLow: LIMITS.low, targetHigh: LIMITS.high, targetPreset: 'frail' },
}

/** Ends that cannot be of the unit that is printed. */
export interface WrongRange {
  readonly of: 'targets' | 'goal'
  readonly request: RangeRequest
}

/** Why a text names no range: it has another form, its first number is not the smaller, no meter shows its numbers. */
export type RangeFault = 'form' | 'order' | 'size'

/** Reads 'LOW..HIGH' or a group's name; what is wrong where it is none of these. */
export function parseTargets(text: string): TargetRequest | { readonly fault: RangeFault } {
  const word = text.trim().toLowerCase()
  return isTargetPreset(word) ? word : parseRange(text)
}

/** Reads 'LOW..HIGH', the person's own goal before meals; what is wrong where it is none. */
export function parseGoal(text: string): RangeRequest | { readonly fault: RangeFault } {
  return parseRange(text)
}

function parseRange(text: string): RangeRequest | { readonly fault: RangeFault } {
  const ends = /^(\d+(?:[.,]\d+)?)\s*\.\.\s*(\d+(?:[.,]\d+)?)$/.exec(text.trim())
  if (ends === null) return { fault: 'form' }
  const [low, high] = [ends[1], ends[2]].map((end) => Number(end.replace(',', '.')))
  if (low >= high) return { fault: 'order' }
  if (!(['mg/dL', 'mmol/L'] as const).some((unit) => isMeasurable(low, high, unit))) {
    return { fault: 'size' }
  }
  return { low, high }
}

/**
 * The targets in both units. An end that is one of the consensus limits is its partner in the other unit, any
 * other is converted unrounded.
 */
export function resolveTargets(
  request: TargetRequest,
  unit: GlucoseUnit,
): Targets | { readonly wrong: WrongRange } {
  if (typeof request === 'string') return PRESETS[request]
  const { low, high } = request
  if (!isMeasurable(low, high, unit)) return { wrong: { of: 'targets', request } }
  const pairs = Object.values(LIMITS)
  return {
    targetLow: inBothUnits(low, unit, pairs),
    targetHigh: inBothUnits(high, unit, pairs),
    targetPreset: null,
  }
}

/** The same of the person's own goal before meals; an end of a published goal is its partner in the other unit too. */
export function resolveGoal(
  request: RangeRequest,
  unit: GlucoseUnit,
): MealGoal | { readonly wrong: WrongRange } {
  const { low, high } = request
  if (!isMeasurable(low, high, unit)) return { wrong: { of: 'goal', request } }
  return { low: inBothUnits(low, unit, GOAL_ENDS), high: inBothUnits(high, unit, GOAL_ENDS) }
}

/** The two ends that a target has in a unit; null stands for the usual one. */
export function targetEnds(request: TargetRequest | null, unit: GlucoseUnit): RangeRequest {
  const targets = request && resolveTargets(request, unit)
  if (targets === null || 'wrong' in targets) {
    return { low: limitIn(LIMITS.low, unit), high: limitIn(LIMITS.high, unit) }
  }
  return { low: limitIn(targets.targetLow, unit), high: limitIn(targets.targetHigh, unit) }
}

/** What of a visit names ends in the printed unit. */
export interface NamedRanges {
  readonly targets: TargetRequest | null
  readonly goal: RangeRequest | null
}

/** The ranges that a person named in one unit, in another as people write it: whole mg/dL, tenths of mmol/L. */
export function rangesIn({ targets, goal }: NamedRanges, from: GlucoseUnit, to: GlucoseUnit): NamedRanges {
  if (from === to) return { targets, goal }
  const written = (pair: LimitPair) =>
    to === 'mg/dL' ? Math.round(pair.mgDl) : Math.round(pair.mmol * 10) / 10
  const named = targets !== null && typeof targets === 'object' ? resolveTargets(targets, from) : null
  const own = goal && resolveGoal(goal, from)
  return {
    targets:
      named === null || 'wrong' in named
        ? targets
        : { low: written(named.targetLow), high: written(named.targetHigh) },
    goal:
      own === null || 'wrong' in own || own.low === null
        ? goal
        : { low: written(own.low), high: written(own.high) },
  }
}

function inBothUnits(value: number, unit: GlucoseUnit, pairs: readonly LimitPair[]): LimitPair {
  const pair = pairs.find((limit) => limitIn(limit, unit) === value)
  if (pair !== undefined) return pair
  const mgDl = toMgDl(value, unit)
  return { mgDl, mmol: unit === 'mmol/L' ? value : fromMgDl(mgDl, 'mmol/L') }
}

/** Whether meters show both ends in that unit. */
function isMeasurable(low: number, high: number, unit: GlucoseUnit): boolean {
  return toMgDl(low, unit) >= lowest(unit) && toMgDl(high, unit) <= highest(unit)
}

// A meter in mmol/L shows 1.1 to 33.3, a little less and more than 20 and 600 mg/dL.
function lowest(unit: GlucoseUnit): number {
  return unit === 'mg/dL' ? MEASURING_RANGE_MG_DL.lowest : toMgDl(1.1, unit)
}

function highest(unit: GlucoseUnit): number {
  return unit === 'mg/dL' ? MEASURING_RANGE_MG_DL.highest : toMgDl(33.3, unit)
}
