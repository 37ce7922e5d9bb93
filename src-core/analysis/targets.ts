import { LIMITS, limitIn, type LimitPair } from '../reference/limits'
import type { TargetPreset } from '../reference/targetPreset'
import { MEASURING_RANGE_MG_DL } from '../reference/meter'
import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import { wrongTargetsMessage, wrongTargetsUnitMessage } from '../wording/targets'

/** What is asked for: a preset, or two ends in the printed unit. */
export type TargetRequest = TargetPreset | { readonly low: number; readonly high: number }

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
}

/** Reads 'LOW..HIGH', 'pregnancy' or 'older-adult'; what is wrong, in words, where it is none of these. */
export function parseTargets(text: string): TargetRequest | { readonly wrong: string } {
  const word = text.trim().toLowerCase()
  if (word === 'pregnancy' || word === 'older-adult') return word
  const ends = /^(\d+(?:[.,]\d+)?)\s*\.\.\s*(\d+(?:[.,]\d+)?)$/.exec(word)
  if (ends === null) return { wrong: wrongTargetsMessage(text, 'form') }
  const [low, high] = [ends[1], ends[2]].map((end) => Number(end.replace(',', '.')))
  if (low >= high) return { wrong: wrongTargetsMessage(text, 'order') }
  if (!(['mg/dL', 'mmol/L'] as const).some((unit) => isMeasurable(low, high, unit))) {
    return { wrong: wrongTargetsMessage(text, 'size') }
  }
  return { low, high }
}

/**
 * The targets in both units. An end that is one of the consensus limits is its partner in the other unit, any
 * other is converted unrounded. Where the ends cannot be of the printed unit, that in words.
 */
export function resolveTargets(
  request: TargetRequest,
  unit: GlucoseUnit,
): Targets | { readonly wrong: string } {
  if (typeof request === 'string') return PRESETS[request]
  const { low, high } = request
  if (!isMeasurable(low, high, unit)) return { wrong: wrongTargetsUnitMessage(low, high, unit) }
  return { targetLow: inBothUnits(low, unit), targetHigh: inBothUnits(high, unit), targetPreset: null }
}

function inBothUnits(value: number, unit: GlucoseUnit): LimitPair {
  const pair = Object.values(LIMITS).find((limit) => limitIn(limit, unit) === value)
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
