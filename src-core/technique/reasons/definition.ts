import type { FaultDirection } from '../notes/classes'
import type { Evidence } from './evidence'

/** A reason for doubt and all that follows from it but its words; each has a file of its own in this folder. */
export interface ReasonDefinition<Reason extends { readonly code: string; readonly evidence: object }> {
  readonly code: Reason['code']
  /** Whether it flags by itself; else it explains, and flags through the doubt alone. */
  readonly standsAlone: boolean
  /** Whether a low may be flagged by it. A question of safety: see the rule on lows in DEVELOPERS.md. */
  readonly mayFlagLow: boolean | ((evidence: Reason['evidence']) => boolean)
  /** Of a reason that speaks of strips or meter: the fault, which may make many readings doubtful. */
  readonly faultOf?: (evidence: Reason['evidence']) => EquipmentFault
  /** What explains the reading, where the reason tells that by itself. */
  readonly adviceOf?: (evidence: Reason['evidence']) => ReasonAdvice
  /** Looks at all that is known, then for what speaks against one reading after the other. */
  readonly finder: (known: Evidence) => (index: number) => Reason | null
}

/** A fault of strips or meter. */
export interface EquipmentFault {
  /** Readings with the same name share the fault; of several reasons with the same name of what is told one is told. */
  readonly fault: string
  readonly told: string
  /** Which way it makes readings err; null where that cannot be foretold. */
  readonly direction: FaultDirection | null
}

/** What explains a reading by a reason alone, and what to do the next time. */
export type ReasonAdvice =
  | { readonly fits: { readonly code: 'cold-meter' | 'hot-meter' }; readonly next: 'room-temperature' }
  | { readonly fits: { readonly code: 'control-solution' }; readonly next: 'tag-control' }
  | { readonly fits: { readonly code: 'old-strip' }; readonly next: 'new-vial' }
  | {
      readonly fits: { readonly code: 'failed-control'; readonly side: FaultDirection }
      readonly next: 'test-control'
    }
