import type { Settings } from '../../analysis/settings'
import type { DoubtReason } from '../technique'

export type ReasonCode = DoubtReason['code']
export type ReasonOf<Code extends ReasonCode> = Extract<DoubtReason, { readonly code: Code }>

/** What a reason may do to a reading. */
export interface ReasonRow<Reason extends DoubtReason> {
  /** Whether it flags by itself; else it explains, and flags through the doubt alone. */
  readonly standsAlone: boolean
  /** Whether a low may be flagged by it. A question of safety: see the rule on lows in DEVELOPERS.md. */
  readonly mayFlagLow: boolean | ((evidence: Reason['evidence']) => boolean)
  /** Of strips or meter: whether it holds for days on end or for the one test; null of anything else. */
  readonly ofEquipment: 'days-on-end' | 'one-test' | null
}

/** A row for every reason: the compiler refuses a reason without one. */
export type ReasonTable = { readonly [Code in ReasonCode]: ReasonRow<ReasonOf<Code>> }

/** In the order in which advice weighs them: note, equipment, tests nearby, the value itself. */
export const REASONS: ReasonTable = {
  'note-tells-of-technique': {
    standsAlone: false,
    // Sugar on the finger would hide a low, not make one.
    mayFlagLow: ({ direction }) => direction !== 'too-high',
    ofEquipment: null,
  },
  'looks-like-control-solution': {
    standsAlone: true,
    // An untagged control test hides no low.
    mayFlagLow: ({ tagged }) => tagged,
    ofEquipment: null,
  },
  'strip-out-of-date': { standsAlone: true, mayFlagLow: true, ofEquipment: 'days-on-end' },
  'failed-control': { standsAlone: true, mayFlagLow: true, ofEquipment: 'days-on-end' },
  'outside-working-temperature': { standsAlone: true, mayFlagLow: true, ofEquipment: 'one-test' },
  'contradicted-by-repeat': { standsAlone: false, mayFlagLow: true, ofEquipment: null },
  // No neighbour and no limit speaks against a low, whatever its doubt.
  'faster-than-glucose-changes': { standsAlone: false, mayFlagLow: false, ofEquipment: null },
  'unlike-neighbours': { standsAlone: false, mayFlagLow: false, ofEquipment: null },
  'looks-like-other-unit': { standsAlone: false, mayFlagLow: true, ofEquipment: null },
  'at-measuring-limit': { standsAlone: false, mayFlagLow: false, ofEquipment: null },
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
