import { LIMITS, type LimitPair } from '../reference/limits'
import type { GlucoseUnit } from '../units/glucose'
import type { MealGoal } from '../reference/mealGoals'
import type { TargetPreset } from '../reference/targetPreset'

/** What the figures depend on besides the logs. */
export interface Settings {
  /** Unit to print in. */
  readonly unit: GlucoseUnit
  readonly targetLow: LimitPair
  readonly targetHigh: LimitPair
  /** The group whose published target it is; null for the usual one and for one named by its ends. */
  readonly targetPreset: TargetPreset | null
  /** The person's own goal before meals; null where only published ones are known. */
  readonly ownGoal: MealGoal | null
  /** Longest gap between neighbouring members of a repeat set, minutes. */
  readonly repeatWindowMinutes: number
  /** A reading is doubtful from this doubt on, 0 to 1. */
  readonly doubtThreshold: number
  /** The same for a low. */
  readonly doubtThresholdLow: number
  /** Seed of everything drawn by chance; no figure is drawn today. */
  readonly seed: number
}

export const DEFAULT_SETTINGS: Settings = {
  unit: 'mg/dL',
  targetLow: LIMITS.low,
  targetHigh: LIMITS.high,
  targetPreset: null,
  ownGoal: null,
  repeatWindowMinutes: 10,
  doubtThreshold: 0.4,
  doubtThresholdLow: 0.9,
  seed: 1,
}
