import { FLAG, hasFlag, isLow, isMarker, type Readings } from '../log/readings'
import { Z95_ROUNDED } from '../reference/meter'
import { secondsBetween } from './chronology'
import { readingsAgree } from './meterAgreement'
import type { FaultClassName } from './notes/classes'
import { readNote } from './notes/readNote'
import type { Repeatability, Trial, TrialStep } from './technique'

/** A trial lasts half an hour at most. */
const LONGEST_SECONDS = 30 * 60
/** Repeatability of a person whose own is not known, as a share. Design choice, as in the doubt model. */
const USUAL_CV = 0.05

/** A series of tests in which notes name a baseline and changed conditions; indexes in the logbook. */
export interface TrialSeries {
  /** Washed tests before the first changed condition. */
  readonly baseline: readonly number[]
  readonly steps: readonly { readonly index: number; readonly changed: boolean }[]
}

/** How a reading's note places it in a trial. */
type Part = 'baseline' | 'changed' | 'other' | null

/**
 * Trials in the order taken. A trial begins with a washed test that is no low and holds at least one changed condition
 * within half an hour; without the baseline first it is an ordinary repeat. `order` is `chronologicalOrder(readings)`.
 */
export function findTrials(readings: Readings, order: Uint32Array): readonly TrialSeries[] {
  const trials: TrialSeries[] = []
  let open: { baseline: number[]; steps: { index: number; changed: boolean }[] } | null = null
  const close = () => {
    if (open?.steps.some(({ changed }) => changed)) trials.push(open)
    open = null
  }
  for (const index of order) {
    const part = partOf(readings, index)
    if (part === null) continue
    if (open && secondsBetween(readings, open.baseline[0], index) > LONGEST_SECONDS) close()
    if (open === null) {
      if (part === 'baseline' && !isLow(readings, index) && !isMarker(readings, index))
        open = { baseline: [index], steps: [] }
    } else if (part === 'baseline' && open.steps.length === 0) {
      open.baseline.push(index)
    } else {
      open.steps.push({ index, changed: part === 'changed' })
    }
  }
  close()
  return trials
}

function partOf(readings: Readings, index: number): Part {
  const note = readings.note(index)
  if (note === '' || hasFlag(readings, index, FLAG.dayOnly | FLAG.sensor)) return null
  const { faults, contexts, washed, baseline } = readNote(note, true)
  if (faults.length > 0) return 'changed'
  if (contexts.includes('second-meter') || contexts.includes('other-finger')) return 'other'
  return washed || baseline ? 'baseline' : null
}

/** The readings with the changed steps of the trials marked; the very same object where there are none. */
export function withChangedConditions(readings: Readings, trials: readonly TrialSeries[]): Readings {
  if (trials.length === 0) return readings
  const flags = Uint16Array.from({ length: readings.n }, (_, i) => readings.flags[i])
  for (const { steps } of trials) {
    for (const { index, changed } of steps) if (changed) flags[index] |= FLAG.changedConditions
  }
  return { ...readings, flags }
}

/** Each step's difference from the mean of the baseline. */
export function trialFigures(
  readings: Readings,
  trials: readonly TrialSeries[],
  { withinCvPercent }: Repeatability,
): readonly Trial[] {
  const cv = withinCvPercent === null ? USUAL_CV : withinCvPercent / 100
  return trials.map(({ baseline, steps }) => {
    const baselineMgDl = baseline.reduce((sum, index) => sum + readings.mgDl[index], 0) / baseline.length
    return {
      baseline,
      baselineMgDl,
      steps: steps.map(({ index, changed }) => ({
        index,
        label: labelOf(readings.note(index)),
        changed,
        faults: changed ? faultsOf(readings.note(index)) : [],
        differencePercent: (100 * (readings.mgDl[index] - baselineMgDl)) / baselineMgDl,
        // Glucose is steady in a trial, so that no minutes of honest change are allowed for.
        withinTolerance: readingsAgree(readings.mgDl[index], baselineMgDl, 0),
        smallestVisiblePercent: smallestVisiblePercent(cv, 1),
      })),
    }
  })
}

function faultsOf(note: string): readonly FaultClassName[] {
  return readNote(note, true).faults.map((fault) => fault.class)
}

/** One condition over all rounds in which it was tried. */
export interface PooledCondition {
  readonly faults: readonly FaultClassName[]
  readonly rounds: number
  readonly meanDifferencePercent: number
  readonly smallestVisiblePercent: number
}

/** The conditions that were tried in two rounds or more, in the order in which they were first tried. */
export function pooledConditions(
  trials: readonly Trial[],
  { withinCvPercent }: Repeatability,
): readonly PooledCondition[] {
  const rounds = new Map<string, TrialStep[]>()
  for (const step of trials.flatMap(({ steps }) => steps)) {
    if (!step.changed) continue
    const key = [...step.faults].sort().join(' ')
    rounds.set(key, [...(rounds.get(key) ?? []), step])
  }
  const cv = withinCvPercent === null ? USUAL_CV : withinCvPercent / 100
  return [...rounds.values()]
    .filter((steps) => steps.length > 1)
    .map((steps) => ({
      faults: steps[0].faults,
      rounds: steps.length,
      meanDifferencePercent:
        steps.reduce((sum, { differencePercent }) => sum + differencePercent, 0) / steps.length,
      smallestVisiblePercent: smallestVisiblePercent(cv, steps.length),
    }))
}

/** Smallest difference of two tests, percent, that is told from chance at a CV (a share) over so many rounds. */
export function smallestVisiblePercent(cv: number, rounds: number): number {
  return (100 * Z95_ROUNDED * Math.SQRT2 * cv) / Math.sqrt(rounds)
}

const LONGEST_LABEL = 80

/** 'finger left wet' of 'trial: finger left wet'. */
function labelOf(note: string): string {
  const label = note
    .trim()
    .replace(/^(trial|test|versuch|essai|prueba|teste|prova|proef)\s{0,3}:\s{0,3}/i, '')
  return label.length > LONGEST_LABEL ? `${label.slice(0, LONGEST_LABEL - 1)}…` : label
}
