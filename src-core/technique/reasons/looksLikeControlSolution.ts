import { loggedUnit, type Readings } from '../../log/readings'
import { toMgDl } from '../../units/glucose'
import { dayOf } from '../../units/wallClock'
import type { EquipmentTold } from './evidence'
import { dayOfText } from './stripsInUse'
import type { ReasonDefinition } from './definition'

/** A test of control solution among the readings. */
export interface LooksLikeControlSolution {
  readonly code: 'looks-like-control-solution'
  readonly evidence: {
    /** Whether the reading's own tag says so; else it is the control result of that day by its value. */
    readonly tagged: boolean
    /** The range that it lies in, mg/dL; absent where only the tag tells. */
    readonly rangeLowMgDl?: number
    readonly rangeHighMgDl?: number
  }
}

export const LOOKS_LIKE_CONTROL_SOLUTION: ReasonDefinition<LooksLikeControlSolution> = {
  code: 'looks-like-control-solution',
  standsAlone: true,
  // An untagged control test hides no low.
  mayFlagLow: ({ tagged }) => tagged,
  adviceOf: () => ({ fits: { code: 'control-solution' }, next: 'tag-control' }),
  finder: ({ readings, equipment }) => controlSolutionTests(readings, equipment),
}

/** A level of control solution: 'control L1', 'ctrl', 'QC'. 'Control' alone may be any check, 'Kontrolle' a repeat. */
const TAG =
  /(?:^|[^\p{L}\p{N}])(?:ctrl|qc|(?:controls?|kontroll?e?|contr[oô]le|controle|controllo) ?(?:l|level|stufe|niveau|nivel|livello)[ -]?[123])(?![\p{L}\p{N}])/iu

/** Whether a note says outright that the drop was control solution; rows tagged plainly were set aside before. */
export function taggedAsControl(note: string): boolean {
  return TAG.test(note)
}

/**
 * Readings that are tests of control solution by their tag, or by the kit: the only reading of that meter and day with
 * the very value of a control result of that day, without meal and note.
 */
function controlSolutionTests(
  readings: Readings,
  { controls, isOfMeter }: EquipmentTold,
): (index: number) => LooksLikeControlSolution | null {
  const byValue = new Map<number, LooksLikeControlSolution>()
  for (const control of controls) {
    const day = dayOfText(control.date)
    const same: number[] = []
    for (let i = 0; i < readings.n; i++) {
      if (dayOf(readings.at[i]) !== day || !isOfMeter(control.meter, readings.meter[i])) continue
      if (readings.logged[i] === control.result && loggedUnit(readings, i) === control.unit) same.push(i)
    }
    const [only] = same
    if (same.length !== 1 || readings.meal(only) !== '' || readings.note(only) !== '') continue
    const [low, high] = control.range
    byValue.set(only, {
      code: 'looks-like-control-solution',
      evidence: {
        tagged: false,
        rangeLowMgDl: toMgDl(low, control.unit),
        rangeHighMgDl: toMgDl(high, control.unit),
      },
    })
  }
  return (index) =>
    taggedAsControl(readings.note(index))
      ? { code: 'looks-like-control-solution', evidence: { tagged: true } }
      : (byValue.get(index) ?? null)
}
