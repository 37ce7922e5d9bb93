import { FALSE_DISCOVERY_RATE, FEWEST_BLOCKS, FEWEST_TAGGED_PERCENT } from '../compare/comparison'
import { MOVED_MINUTES, MOVED_POINTS } from '../compare/testingHabit'
import { WEEK_LEAST_DAYS } from '../day/week'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { A1C_DAYS, FEWEST_A1C_DAYS } from '../statistics/latestA1c'
import { LOPSIDED_PERCENT } from './measures'

/** Limits of the rules that definitions and notes tell, each from where it stands with its source. */
export const TOLD_LIMITS = {
  a1cDays: A1C_DAYS,
  falseDiscoveryPercent: 100 * FALSE_DISCOVERY_RATE,
  fewestA1cDays: FEWEST_A1C_DAYS,
  fewestBlocks: FEWEST_BLOCKS,
  fewestDays: FEWEST_DAYS,
  fewestTaggedPercent: FEWEST_TAGGED_PERCENT,
  lopsidedPercent: LOPSIDED_PERCENT,
  movedMinutes: MOVED_MINUTES,
  movedPoints: MOVED_POINTS,
  weekLeastDays: WEEK_LEAST_DAYS,
} as const

export type ToldLimits = Readonly<Record<keyof typeof TOLD_LIMITS, number>>
