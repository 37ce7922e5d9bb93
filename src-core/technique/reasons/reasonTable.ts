import type { Settings } from '../../model/settings'
import type { DoubtReason } from '../technique'

export type ReasonCode = DoubtReason['code']
export type ReasonOf<Code extends ReasonCode> = Extract<DoubtReason, { readonly code: Code }>

/** What a reason may do to a reading. */
export interface ReasonRow<Reason extends DoubtReason> {
  /** Whether it flags by itself; else it explains, and flags through the doubt alone. */
  readonly standsAlone: boolean
  /** Whether a low may be flagged by it. A question of safety: see the rule on lows in DEVELOPERS.md. */
  readonly mayFlagLow: boolean | ((evidence: Reason['evidence']) => boolean)
  /** Whether it speaks of strips or meter: one fault may then make many readings doubtful. */
  readonly ofEquipment: boolean
}

/** A row for every reason: the compiler refuses a reason without one. */
export type ReasonTable = { readonly [Code in ReasonCode]: ReasonRow<ReasonOf<Code>> }

/** In the order in which advice weighs them: note, equipment, tests nearby, the value itself. */
export const REASONS: ReasonTable = {
  'note-tells-of-technique': {
    standsAlone: false,
    // Sugar on the finger would hide a low, not make one.
    mayFlagLow: ({ direction }) => direction !== 'too-high',
    ofEquipment: false,
  },
  'looks-like-control-solution': {
    standsAlone: true,
    // An untagged control test hides no low.
    mayFlagLow: ({ tagged }) => tagged,
    ofEquipment: false,
  },
  'strip-out-of-date': { standsAlone: true, mayFlagLow: true, ofEquipment: true },
  'failed-control': { standsAlone: true, mayFlagLow: true, ofEquipment: true },
  'outside-working-temperature': { standsAlone: true, mayFlagLow: true, ofEquipment: true },
  'contradicted-by-repeat': { standsAlone: false, mayFlagLow: true, ofEquipment: false },
  // No neighbour and no limit speaks against a low, whatever its doubt.
  'faster-than-glucose-changes': { standsAlone: false, mayFlagLow: false, ofEquipment: false },
  'unlike-neighbours': { standsAlone: false, mayFlagLow: false, ofEquipment: false },
  'looks-like-other-unit': { standsAlone: false, mayFlagLow: true, ofEquipment: false },
  'at-measuring-limit': { standsAlone: false, mayFlagLow: false, ofEquipment: false },
}

export const REASON_CODES = Object.keys(REASONS) as readonly ReasonCode[]
export const STANDING_ALONE = REASON_CODES.filter((code) => REASONS[code].standsAlone)

/**
 * Whether these reasons, beside a doubt of 0 to 1 (NaN: not estimated), make a reading doubtful. A low needs the higher
 * doubt, and one reason that may flag a low.
 */
export function areEnough(
  reasons: readonly DoubtReason[],
  doubt: number,
  low: boolean,
  { doubtThreshold, doubtThresholdLow }: Pick<Settings, 'doubtThreshold' | 'doubtThresholdLow'>,
): boolean {
  if (!low) return doubt >= doubtThreshold || reasons.some(({ code }) => REASONS[code].standsAlone)
  const speaking = reasons.filter(mayFlagLow)
  return (
    speaking.some(({ code }) => REASONS[code].standsAlone) ||
    (doubt >= doubtThresholdLow && speaking.length > 0)
  )
}

function mayFlagLow(reason: DoubtReason): boolean {
  // The row is that of the reason's own code, so it knows this evidence.
  const row = REASONS[reason.code] as ReasonRow<DoubtReason>
  return typeof row.mayFlagLow === 'function' ? row.mayFlagLow(reason.evidence) : row.mayFlagLow
}
