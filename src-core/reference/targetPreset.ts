/**
 * A group of people for whom targets or goals of their own are published: pregnancy; older adults with several illnesses
 * or mild to moderate impairment; older adults in very poor health.
 */
export const TARGET_PRESETS = ['pregnancy', 'older-adult', 'frail'] as const
export type TargetPreset = (typeof TARGET_PRESETS)[number]

export function isTargetPreset(word: string | undefined): word is TargetPreset {
  return TARGET_PRESETS.some((preset) => preset === word)
}
