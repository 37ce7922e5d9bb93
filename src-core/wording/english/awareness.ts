import { LIMITS } from '../../reference/limits'
import type { GlucoseUnit } from '../../units/glucose'
import { type Noted, notedText } from './noted'
import { limitText } from './numbers'

// What was felt beside what was measured, as the notes of the log have it.

export const TITLE = 'What was felt, by the notes'

/** 'Low, nothing felt (2): 3 April, 07:10: 52 ‘no symptoms’; ...' */
export const nothingFeltText = (n: number, listed: readonly Noted[]) =>
  `Low, nothing felt (${n}): ${notedText(listed, n)}.`

/** 'Felt low at 70 or more (3): ...' */
export const feltLowText = (n: number, listed: readonly Noted[], unit: GlucoseUnit) =>
  `Felt low at ${limitText(LIMITS.low, unit)} or more (${n}): ${notedText(listed, n)}.`
