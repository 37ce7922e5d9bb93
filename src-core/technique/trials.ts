import { FLAG, hasFlag, isLow, isMarker, type Readings } from '../log/readings'
import { Z95_ROUNDED } from '../reference/meter'
import { tQuantile, twoSidedNormalP, twoSidedP } from '../statistics/distributions'
import { holm } from '../statistics/holm'
import { secondsBetween } from './chronology'
import { readingsAgree } from './meterAgreement'
import type { FaultClassName } from './notes/classes'
import { readNote } from './notes/readNote'
import { repeatability } from './repeatability'
import type { RepeatSet, Trial, TrialStep } from './technique'

/** A trial lasts half an hour at most. */
const LONGEST_SECONDS = 30 * 60
/** Repeatability of a person whose own is not known, as a share. Design choice, as in the doubt model. */
const USUAL_CV = 0.05

/** A series of tests in which notes name a baseline and changed conditions; indexes in the logbook. */
export interface TrialSeries {
  /** Washed tests before the first changed condition. */
  readonly baseline: readonly number[]
  readonly steps: readonly SeriesStep[]
}

interface SeriesStep {
  readonly index: number
  readonly changed: boolean
  /** Under the same conditions as the baseline. */
  readonly washed: boolean
}

/** How a reading's note places it in a trial. */
type Part = 'baseline' | 'changed' | 'other' | null

/**
 * Trials in the order taken. A trial begins with a washed test that is no low and holds at least one changed condition
 * within half an hour; without the baseline first it is an ordinary repeat. `order` is `chronologicalOrder(readings)`.
 */
export function findTrials(readings: Readings, order: Uint32Array): readonly TrialSeries[] {
  const trials: TrialSeries[] = []
  let open: { baseline: number[]; steps: SeriesStep[] } | null = null
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
      open.steps.push({ index, changed: part === 'changed', washed: part === 'baseline' })
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

/** How far tests under one condition scatter, as a share, with the degrees of freedom it is known to. */
interface Scatter {
  readonly cv: number
  readonly df: number
}

/** Fewer degrees of freedom tell nothing: the usual CV is taken as known (the contract's choice). */
const FEWEST_DF = 4
/** Chance allowed for calling an effect what is none. */
const LEVEL = 0.05

/** This person's own scatter, from the sets outside trials; null where they are too few. */
export function ownScatter(
  readings: Readings,
  repeatSets: readonly RepeatSet[],
  trials: readonly TrialSeries[],
): Scatter | null {
  const inTrials = new Set(
    trials.flatMap(({ baseline, steps }) => [...baseline, ...steps.map(({ index }) => index)]),
  )
  const outside = repeatSets.filter(({ members }) => !members.some((index) => inTrials.has(index)))
  const { sets, readings: n, withinCvPercent } = repeatability(readings, outside)
  if (withinCvPercent === null || n - sets < FEWEST_DF) return null
  return { cv: withinCvPercent / 100, df: n - sets }
}

/**
 * Each condition's difference from the washed tests around it, in the order first tried; the baseline moves in a straight
 * line in time from those before the first change to those after the last. Judged by Student's t with the scatter of this
 * person's repeats.
 */
export function trialFigures(
  readings: Readings,
  trials: readonly TrialSeries[],
  scatter: Scatter | null,
): readonly Trial[] {
  return trials.map(({ baseline, steps }) => {
    const baselineMgDl = meanOf(readings, baseline)
    const closing = closingTests(steps)
    const closingMgDl = closing.length === 0 ? null : meanOf(readings, closing)
    const baselineAt = movedBaseline(readings, baseline, closing)
    const found = conditionsOf(readings, steps).map(({ indexes, changed, faults }) => {
      const at = indexes.map(baselineAt)
      const mgDl = meanOf(readings, indexes)
      const ownBaseline = at.reduce((sum, value) => sum + value, 0) / at.length
      return {
        indexes,
        mgDl,
        baselineMgDl: ownBaseline,
        label: labelOf(readings.note(indexes[0])),
        changed,
        faults,
        differencePercent: (100 * (mgDl - ownBaseline)) / ownBaseline,
        // Glucose is steady in a trial, so that no minutes of honest change are allowed for.
        withinTolerance: readingsAgree(mgDl, ownBaseline, 0),
        smallestVisiblePercent: smallestVisiblePercent(scatter, errorFactor(indexes.length, baseline.length)),
      }
    })
    const isEffect = effectsAmong(
      found.map(({ changed, differencePercent, indexes }) =>
        changed ? pOf(differencePercent, scatter, errorFactor(indexes.length, baseline.length)) : null,
      ),
    )
    return {
      baseline,
      baselineMgDl,
      closingMgDl,
      steps: found.map((step, i) => ({ ...step, effect: isEffect[i] })),
    }
  })
}

/** Washed tests after the last changed one. */
function closingTests(steps: readonly SeriesStep[]): readonly number[] {
  const last = steps.findLastIndex(({ changed }) => changed)
  return steps.filter(({ washed }, i) => washed && i > last).map(({ index }) => index)
}

/** What a washed test would have shown at the time of another one. */
function movedBaseline(
  readings: Readings,
  baseline: readonly number[],
  closing: readonly number[],
): (index: number) => number {
  const from = meanOf(readings, baseline)
  if (closing.length === 0) return () => from
  const to = meanOf(readings, closing)
  const since = (index: number) => secondsBetween(readings, baseline[0], index)
  const middle = (indexes: readonly number[]) =>
    indexes.reduce((sum, index) => sum + since(index), 0) / indexes.length
  const [start, end] = [middle(baseline), middle(closing)]
  return (index) => (end === start ? from : from + ((to - from) * (since(index) - start)) / (end - start))
}

/** The tests under one condition together; what was not changed on purpose stands alone. */
function conditionsOf(readings: Readings, steps: readonly SeriesStep[]) {
  const conditions: {
    readonly indexes: number[]
    readonly changed: boolean
    readonly faults: readonly FaultClassName[]
  }[] = []
  const changedOf = new Map<string, (typeof conditions)[number]>()
  for (const { index, changed } of steps) {
    const faults = changed ? faultsOf(readings.note(index)) : []
    const key = faultKey(faults)
    const known = changed ? changedOf.get(key) : undefined
    if (known !== undefined) {
      known.indexes.push(index)
      continue
    }
    const condition = { indexes: [index], changed, faults }
    if (changed) changedOf.set(key, condition)
    conditions.push(condition)
  }
  return conditions
}

function faultKey(faults: readonly FaultClassName[]): string {
  return [...faults].sort().join(' ')
}

function meanOf(readings: Readings, indexes: readonly number[]): number {
  return indexes.reduce((sum, index) => sum + readings.mgDl[index], 0) / indexes.length
}

/** By how much the error of a mean of rounds beside a baseline of tests exceeds that of one test. */
function errorFactor(rounds: number, baselineTests: number): number {
  return Math.sqrt(1 / rounds + 1 / baselineTests)
}

/** Two-sided p of a difference in percent; of the normal law where the person's own scatter is not known. */
function pOf(differencePercent: number, scatter: Scatter | null, factor: number): number {
  const t = differencePercent / (100 * (scatter?.cv ?? USUAL_CV) * factor)
  return scatter === null ? twoSidedNormalP(t) : twoSidedP(t, scatter.df)
}

/** Which of the p, Holm-corrected over those there are, are an effect. */
function effectsAmong(ps: readonly (number | null)[]): readonly boolean[] {
  const tested = ps.flatMap((p, i) => (p === null ? [] : [{ p, i }]))
  const adjusted = holm(tested.map(({ p }) => p))
  const clear = new Set(tested.filter((_, k) => adjusted[k] < LEVEL).map(({ i }) => i))
  return ps.map((_, i) => clear.has(i))
}

function faultsOf(note: string): readonly FaultClassName[] {
  return readNote(note, true).faults.map((fault) => fault.class)
}

/** One condition over all trials in which it was tried. */
export interface PooledCondition {
  readonly faults: readonly FaultClassName[]
  readonly rounds: number
  readonly trials: number
  readonly meanDifferencePercent: number
  readonly smallestVisiblePercent: number
  /** As of a step, Holm-corrected over all conditions that are pooled. */
  readonly effect: boolean
}

/** The conditions that were tried in two trials or more, in the order in which they were first tried. */
export function pooledConditions(
  trials: readonly Trial[],
  scatter: Scatter | null,
): readonly PooledCondition[] {
  const byFaults = new Map<string, { readonly step: TrialStep; readonly baselineTests: number }[]>()
  for (const { steps, baseline } of trials) {
    for (const step of steps) {
      if (!step.changed) continue
      const key = faultKey(step.faults)
      byFaults.set(key, [...(byFaults.get(key) ?? []), { step, baselineTests: baseline.length }])
    }
  }
  const pooled = [...byFaults.values()]
    .filter((of) => of.length > 1)
    .map((of) => {
      const rounds = of.reduce((sum, { step }) => sum + step.indexes.length, 0)
      const weighted = (value: (one: (typeof of)[number]) => number) =>
        of.reduce((sum, one) => sum + (one.step.indexes.length / rounds) * value(one), 0)
      // The variance of a mean of independent trials, each with its own baseline.
      const variance = weighted(
        ({ step, baselineTests }) =>
          (step.indexes.length / rounds) * errorFactor(step.indexes.length, baselineTests) ** 2,
      )
      return {
        faults: of[0].step.faults,
        rounds,
        trials: of.length,
        meanDifferencePercent: weighted(({ step }) => step.differencePercent),
        factor: Math.sqrt(variance),
      }
    })
  const isEffect = effectsAmong(
    pooled.map(({ meanDifferencePercent, factor }) => pOf(meanDifferencePercent, scatter, factor)),
  )
  return pooled.map(({ factor, ...condition }, i) => ({
    ...condition,
    smallestVisiblePercent: smallestVisiblePercent(scatter, factor),
    effect: isEffect[i],
  }))
}

/** Smallest difference, percent, that one test alone tells from chance. */
/** Whether a step differs from the baseline by more than repeats do. */
export function isVisible({ differencePercent, smallestVisiblePercent }: TrialStep): boolean {
  return Math.abs(differencePercent) >= smallestVisiblePercent
}

function smallestVisiblePercent(scatter: Scatter | null, factor: number): number {
  const quantile = scatter === null ? Z95_ROUNDED : tQuantile(scatter.df)
  return 100 * quantile * (scatter?.cv ?? USUAL_CV) * factor
}

const LONGEST_LABEL = 80

/** 'finger left wet' of 'trial: finger left wet'. */
function labelOf(note: string): string {
  const label = note
    .trim()
    .replace(/^(trial|test|versuch|essai|prueba|teste|prova|proef)\s{0,3}:\s{0,3}/i, '')
  return label.length > LONGEST_LABEL ? `${label.slice(0, LONGEST_LABEL - 1)}…` : label
}
