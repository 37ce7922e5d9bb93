import { MODEL } from './doubtConstants'
import {
  ahead,
  back,
  type Drift,
  driftsOf,
  GRID,
  LOG_MG_DL,
  MG_DL,
  type PersonalRange,
  scaleTo,
  type Weights,
} from './glucoseGrid'
import {
  fitModel,
  type ModelMisfit,
  type PersonalModel,
  type PersonalRanges,
  personalRanges,
  type Tests,
} from './modelFit'
import { errorDensities, OTHER_DENSITY, stayingDensity } from './testErrors'

const K = GRID.nodes

/** What is known from elsewhere (notes, controls): factors on the odds of an upward and a downward error. */
export interface Evidence {
  readonly up: Float64Array
  readonly down: Float64Array
}

/** What the model says of each test. */
export interface Doubts {
  /** Probability that the reading is off by more than 30 %. */
  readonly doubt: Float64Array
  /** Where the true value lies with 95 % probability by all other tests, mg/dL. */
  readonly expectedLow: Float64Array
  readonly expectedHigh: Float64Array
  readonly misfit: ModelMisfit
  /** The probability by the usual laws, where the log fits them badly; null where it does not. */
  readonly usualDoubt: Float64Array | null
}

/**
 * The doubt of every test in the light of the whole log.
 *
 * The true value is a chain along the log: it moves within this person's range with a memory of about an hour.
 * A test shows it with a sound meter's noise or with a gross error, and an error that surprises is likelier to
 * be repeated. Forward and backward passes over a grid of true values, with and without sugar on the finger,
 * give each test's true value. Where the log fits the usual laws badly (`modelFit.ts`), those count that it bears out, and
 * nothing is doubted more for it. `ranges`: of the tests, where they are known.
 */
export function doubtsOf(
  tests: Tests,
  repeatWindowMinutes: number,
  evidence?: Evidence,
  ranges: PersonalRanges = personalRanges(tests.mgDl),
): Doubts {
  const n = tests.mgDl.length
  const inSet = (i: number) =>
    i > 0 && i < n && tests.minutes[i] - tests.minutes[i - 1] <= repeatWindowMinutes
  const { usual, fitted, misfit } = fitModel(tests, inSet, ranges)
  const doubts = doubtsBy(chainOf(tests, fitted, inSet, evidence), fitted, tests)
  if (!misfit.wide && !misfit.quick) return { ...doubts, misfit, usualDoubt: null }
  const usualDoubt = doubtsBy(chainOf(tests, usual, inSet, evidence), usual, tests).doubt
  const doubt = doubts.doubt.map((value, i) => Math.min(value, usualDoubt[i]))
  return { ...doubts, doubt, misfit, usualDoubt }
}

function doubtsBy(
  chain: Chain,
  { range }: PersonalModel,
  tests: Tests,
): Pick<Doubts, 'doubt' | 'expectedLow' | 'expectedHigh'> {
  const n = tests.mgDl.length
  const doubts = {
    doubt: new Float64Array(n),
    expectedLow: new Float64Array(n),
    expectedHigh: new Float64Array(n),
  }
  if (n === 0) return doubts
  const before = forwardPass(chain, range)

  // How likely what follows is, given the true value now and whether sugar is on the finger now.
  const afterClean: Weights = new Float64Array(K).fill(1)
  const afterSugared: Weights = new Float64Array(K).fill(1)
  const into = new Float64Array(K)
  const washed = new Float64Array(K)
  const here = new Float64Array(K)
  const others = new Float64Array(K)
  for (let i = n - 1; i >= 0; i--) {
    const at = i * K
    const staying = chain.staying[i]
    const stayed = before.stayed[i]
    let most = 0
    for (let k = 0; k < K; k++) {
      into[k] = chain.clean[at + k] * afterClean[k] + chain.sugar[at + k] * afterSugared[k]
      here[k] = before.free[at + k] * into[k]
      others[k] = before.free[at + k] * afterClean[k]
      if (into[k] > most) most = into[k]
    }
    if (staying !== null && stayed !== null) {
      for (let k = 0; k < K; k++) {
        here[k] += stayed[k] * staying[k] * afterSugared[k]
        others[k] += stayed[k] * afterClean[k]
      }
    }
    scaleTo(here, 1)
    scaleTo(others, 1)
    doubts.doubt[i] = shareOff(here, tests.mgDl[i])
    doubts.expectedLow[i] = quantile(others, 0.025)
    doubts.expectedHigh[i] = quantile(others, 0.975)

    for (let k = 0; k < K; k++) into[k] /= most
    back(chain.drifts[i], into, range, washed)
    if (staying === null) {
      afterSugared.set(washed)
    } else {
      for (let k = 0; k < K; k++) into[k] = (staying[k] * afterSugared[k]) / most
      back(chain.drifts[i], into, range, afterSugared)
      for (let k = 0; k < K; k++) {
        afterSugared[k] = MODEL.sugarStays * afterSugared[k] + (1 - MODEL.sugarStays) * washed[k]
      }
    }
    afterClean.set(washed)
  }
  return doubts
}

/** Weights of the true value by the tests before each one, K for each test. */
interface Before {
  /** With a finger free of the sugar of the test before. */
  readonly free: Float64Array
  /** With that sugar; null where it had time to go. */
  readonly stayed: (Weights | null)[]
}

function forwardPass({ drifts, clean, sugar, staying }: Chain, range: PersonalRange): Before {
  const n = drifts.length
  const before: Before = { free: new Float64Array(n * K), stayed: new Array<null>(n).fill(null) }
  const onClean = new Float64Array(K)
  const onSugared = new Float64Array(K)
  const free = Float64Array.from(range.weights)
  for (let i = 0; i < n; i++) {
    const at = i * K
    const stays = staying[i]
    let stayed: Weights | null = null
    if (i > 0) {
      const share = stays === null ? 0 : MODEL.sugarStays
      for (let k = 0; k < K; k++) onClean[k] += (1 - share) * onSugared[k]
      ahead(drifts[i], onClean, range, free)
      if (stays !== null) {
        stayed = before.stayed[i] = new Float64Array(K)
        ahead(drifts[i], onSugared, range, stayed)
        for (let k = 0; k < K; k++) stayed[k] *= share
      }
    }
    before.free.set(free, at)
    let total = 0
    for (let k = 0; k < K; k++) {
      onClean[k] = free[k] * clean[at + k]
      onSugared[k] = free[k] * sugar[at + k]
      if (stays !== null && stayed !== null) onSugared[k] += stayed[k] * stays[k]
      total += onClean[k] + onSugared[k]
    }
    for (let k = 0; k < K; k++) {
      onClean[k] /= total
      onSugared[k] /= total
    }
  }
  return before
}

/** The tests as the passes need them, K densities for each test: of its value at each true value. */
interface Chain {
  /** From the test before each one. */
  readonly drifts: (Drift | null)[]
  /** Without sugar on the finger, and with it. */
  readonly clean: Float64Array
  readonly sugar: Float64Array
  /** With the sugar of the test before still there; null for a test that repeats none. */
  readonly staying: (Float64Array | null)[]
}

function chainOf(
  tests: Tests,
  { range, memoryFactor }: PersonalModel,
  inSet: (i: number) => boolean,
  evidence?: Evidence,
): Chain {
  const { minutes, mgDl, low } = tests
  const n = mgDl.length
  const chain: Chain = {
    drifts: [],
    clean: new Float64Array(n * K),
    sugar: new Float64Array(n * K),
    staying: [],
  }
  const driftOf = driftsOf(range, memoryFactor)
  const anyway = chanceOfRepeatAnyway(tests, inSet)
  let lastLow = -Infinity
  for (let i = 0; i < n; i++) {
    const afterLow = minutes[i] - lastLow <= MODEL.afterLowMinutes
    if (low[i] === 1) lastLow = minutes[i]
    const usualUp = afterLow ? MODEL.upAfterLow : MODEL.up
    const sound = 1 - usualUp - MODEL.down - MODEL.other
    const up = usualUp * (evidence?.up[i] ?? 1)
    const down = MODEL.down * (evidence?.down[i] ?? 1)
    const all = sound + up + down + MODEL.other
    const densities = errorDensities(mgDl[i])
    const isRepeat = inSet(i)
    const isRepeated = inSet(i + 1)
    const forItself = 1 - (1 - anyway) * (1 - chanceOfRepeatFor(mgDl[i], low[i] === 1, range))
    const log = Math.log(mgDl[i])
    for (let k = 0; k < K; k++) {
      let factor = 1 / all
      if (!isRepeat) {
        const { chance, from, to } = MODEL.repeatSurprise
        const notRepeated = (1 - forItself) * (1 - chance * ramp(Math.abs(log - LOG_MG_DL[k]), from, to))
        factor *= isRepeated ? 1 - notRepeated : notRepeated
      }
      const other = MODEL.other * OTHER_DENSITY
      chain.clean[i * K + k] = factor * (sound * densities.sound[k] + down * densities.down[k] + other)
      chain.sugar[i * K + k] = factor * up * densities.up[k]
    }
    chain.drifts.push(i === 0 ? null : driftOf(minutes[i] - minutes[i - 1], afterLow))
    chain.staying.push(isRepeat ? stayingDensity(mgDl[i], mgDl[i - 1]) : null)
  }
  return chain
}

/** Chance that this person repeats a reading for no reason that the model knows. */
function chanceOfRepeatAnyway({ mgDl, low }: Tests, inSet: (i: number) => boolean): number {
  let { readings, repeats }: { readings: number; repeats: number } = MODEL.repeatAnyway
  for (let i = 0; i < mgDl.length; i++) {
    if (inSet(i) || low[i] === 1) continue
    if (!inSet(i + 1)) readings++
    else if (Math.abs(Math.log(mgDl[i] / mgDl[i + 1])) < 0.15) {
      readings++
      repeats++
    }
  }
  return repeats / readings
}

/** Chance that a value is repeated for itself. */
function chanceOfRepeatFor(mgDl: number, low: boolean, { centre, spreadAbove }: PersonalRange): number {
  if (low) return MODEL.repeatLow
  const { chance, fromZ, toZ } = MODEL.repeatHigh
  return chance * ramp((Math.log(mgDl) - centre) / spreadAbove, fromZ, toZ)
}

/** 0 up to `from`, 1 above `to`, straight between. */
function ramp(value: number, from: number, to: number): number {
  return Math.max(0, Math.min(1, (value - from) / (to - from)))
}

/** Share of the weight on true values from which `mgDl` is off; a node stands for the step around it. */
function shareOff(weights: Weights, mgDl: number): number {
  const limit = Math.log(MODEL.offFactor)
  const log = Math.log(mgDl)
  const half = GRID.step / 2
  let off = 0
  for (let k = 0; k < K; k++) {
    off += weights[k] * ramp(Math.abs(log - LOG_MG_DL[k]), limit - half, limit + half)
  }
  return Math.max(0, Math.min(1, off))
}

/** Value in mg/dL below which this share of the weight lies. */
function quantile(weights: Weights, share: number): number {
  let below = 0
  for (let k = 0; k < K; k++) {
    if (below + weights[k] >= share) {
      const part = weights[k] === 0 ? 0.5 : (share - below) / weights[k]
      return Math.exp(LOG_MG_DL[k] + (part - 0.5) * GRID.step)
    }
    below += weights[k]
  }
  return MG_DL[K - 1]
}
