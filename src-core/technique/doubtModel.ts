import { MODEL } from './doubtConstants'
import {
  ahead,
  back,
  createDrifts,
  type Drift,
  GRID,
  LOG_MG_DL,
  MG_DL,
  personalRange,
  type PersonalRange,
  scaleTo,
  type Weights,
} from './glucoseGrid'
import { createErrorDensities, OTHER_DENSITY, stayingDensity } from './testErrors'

/** Finger-sticks in the order in which they were taken. */
export interface Tests {
  /** Minutes since any moment, never falling. */
  readonly minutes: Float64Array
  readonly mgDl: Float64Array
  /** 1 where the reading is a low. */
  readonly low: Uint8Array
}

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
}

/**
 * The doubt of every test in the light of the whole log.
 *
 * The true value is a chain along the log: it moves within this person's range with a memory of about an hour.
 * A test shows it with a sound meter's noise or with a gross error, and an error that surprises is likelier to
 * be repeated. Forward and backward passes over a grid of true values, with and without sugar on the finger,
 * give each test's true value.
 */
export function doubtsOf(tests: Tests, repeatWindowMinutes: number, evidence?: Evidence): Doubts {
  const n = tests.mgDl.length
  const doubts = {
    doubt: new Float64Array(n),
    expectedLow: new Float64Array(n),
    expectedHigh: new Float64Array(n),
  }
  if (n === 0) return doubts
  const range = personalRange(tests.mgDl)
  const links = linksOf(tests, range, repeatWindowMinutes, evidence)

  // Weights of the true value by the tests before each one: with a clean finger, and with sugar that stays.
  const cleanBefore: Weights[] = []
  const stayingBefore: (Weights | null)[] = []
  let clean: Weights = range.weights
  let sugared: Weights = new Float64Array(GRID.nodes)
  links.forEach(({ drift, clean: onClean, sugar, staying }, i) => {
    if (i > 0) {
      const q = staying === null ? 0 : MODEL.sugarStays
      const free = clean.map((weight, k) => weight + (1 - q) * sugared[k])
      clean = ahead(drift, free, range)
      sugared = staying === null ? sugared : ahead(drift, sugared, range)
      if (staying !== null) for (let k = 0; k < GRID.nodes; k++) sugared[k] *= q
    }
    cleanBefore.push(clean)
    stayingBefore.push(staying === null ? null : sugared)
    const next = new Float64Array(GRID.nodes)
    const nextSugared = new Float64Array(GRID.nodes)
    let total = 0
    for (let k = 0; k < GRID.nodes; k++) {
      next[k] = clean[k] * onClean[k]
      nextSugared[k] = clean[k] * sugar[k] + (staying === null ? 0 : sugared[k] * staying[k])
      total += next[k] + nextSugared[k]
    }
    for (let k = 0; k < GRID.nodes; k++) {
      next[k] /= total
      nextSugared[k] /= total
    }
    clean = next
    sugared = nextSugared
  })

  // How likely what follows is, given the true value now and whether sugar is on the finger now.
  let afterClean: Weights = new Float64Array(GRID.nodes).fill(1)
  let afterSugared: Weights = afterClean
  for (let i = n - 1; i >= 0; i--) {
    const { clean: onClean, sugar, staying, drift } = links[i]
    const before = cleanBefore[i]
    const stayed = stayingBefore[i]
    const here = new Float64Array(GRID.nodes)
    const others = new Float64Array(GRID.nodes)
    const intoClean = new Float64Array(GRID.nodes)
    for (let k = 0; k < GRID.nodes; k++) {
      intoClean[k] = onClean[k] * afterClean[k] + sugar[k] * afterSugared[k]
      here[k] = before[k] * intoClean[k]
      others[k] = before[k] * afterClean[k]
      if (stayed !== null && staying !== null) {
        here[k] += stayed[k] * staying[k] * afterSugared[k]
        others[k] += stayed[k] * afterClean[k]
      }
    }
    scaleTo(here, 1)
    scaleTo(others, 1)
    doubts.doubt[i] = shareOff(here, tests.mgDl[i])
    doubts.expectedLow[i] = quantile(others, 0.025)
    doubts.expectedHigh[i] = quantile(others, 0.975)
    const scale = 1 / largest(intoClean)
    const free = back(
      drift,
      intoClean.map((v) => v * scale),
      range,
    )
    if (staying === null) {
      afterClean = afterSugared = free
    } else {
      const intoStaying = staying.map((density, k) => density * afterSugared[k] * scale)
      const kept = back(drift, intoStaying, range)
      const q = MODEL.sugarStays
      afterSugared = kept.map((weight, k) => q * weight + (1 - q) * free[k])
      afterClean = free
    }
  }
  return doubts
}

/** One test's place in the chain. */
interface Link {
  /** From the test before it. */
  readonly drift: Drift | null
  /** Densities of the value at each true value: without sugar on the finger, with it, with it still there. */
  readonly clean: Float64Array
  readonly sugar: Float64Array
  readonly staying: Float64Array | null
}

function linksOf(tests: Tests, range: PersonalRange, windowMinutes: number, evidence?: Evidence): Link[] {
  const { minutes, mgDl, low } = tests
  const n = mgDl.length
  const densitiesOf = createErrorDensities()
  const driftOf = createDrifts(range)
  const inSet = (i: number) => i > 0 && i < n && minutes[i] - minutes[i - 1] <= windowMinutes
  const anyway = chanceOfRepeatAnyway(tests, inSet)
  const links: Link[] = []
  let lastLow = -Infinity
  for (let i = 0; i < n; i++) {
    const afterLow = minutes[i] - lastLow <= MODEL.afterLowMinutes
    if (low[i] === 1) lastLow = minutes[i]
    let up: number = afterLow ? MODEL.upAfterLow : MODEL.up
    let down: number = MODEL.down
    const sound = 1 - up - down - MODEL.other
    up *= evidence?.up[i] ?? 1
    down *= evidence?.down[i] ?? 1
    const all = sound + up + down + MODEL.other
    const densities = densitiesOf(mgDl[i])
    const clean = new Float64Array(GRID.nodes)
    const sugar = new Float64Array(GRID.nodes)
    const repeated = inSet(i + 1)
    const isFirst = !inSet(i)
    const forItself = 1 - (1 - anyway) * (1 - chanceOfRepeatFor(mgDl[i], low[i] === 1, range))
    const log = Math.log(mgDl[i])
    for (let k = 0; k < GRID.nodes; k++) {
      let factor = 1
      if (isFirst) {
        const surprise =
          MODEL.repeatSurprise.chance * ramp(Math.abs(log - LOG_MG_DL[k]), MODEL.repeatSurprise)
        const chance = 1 - (1 - forItself) * (1 - surprise)
        factor = repeated ? chance : 1 - chance
      }
      clean[k] =
        (factor * (sound * densities.sound[k] + down * densities.down[k] + MODEL.other * OTHER_DENSITY)) / all
      sugar[k] = (factor * up * densities.up[k]) / all
    }
    links.push({
      drift: i === 0 ? null : driftOf(minutes[i] - minutes[i - 1], afterLow),
      clean,
      sugar,
      staying: isFirst ? null : stayingDensity(mgDl[i], mgDl[i - 1]),
    })
  }
  return links
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
function chanceOfRepeatFor(mgDl: number, low: boolean, { centre, spread }: PersonalRange): number {
  if (low) return MODEL.repeatLow
  const { chance, fromZ, toZ } = MODEL.repeatHigh
  return chance * ramp((Math.log(mgDl) - centre) / spread, { from: fromZ, to: toZ })
}

function ramp(value: number, { from, to }: { from: number; to: number }): number {
  return Math.max(0, Math.min(1, (value - from) / (to - from)))
}

function largest(values: Float64Array): number {
  let most = 0
  for (const value of values) most = Math.max(most, value)
  return most
}

/** Share of the weight on true values from which `mgDl` is off; a node stands for the step around it. */
function shareOff(weights: Weights, mgDl: number): number {
  const limit = Math.log(MODEL.offFactor)
  const log = Math.log(mgDl)
  let off = 0
  for (let k = 0; k < GRID.nodes; k++) {
    const distance = Math.abs(log - LOG_MG_DL[k])
    off += weights[k] * Math.max(0, Math.min(1, (distance - limit) / GRID.step + 0.5))
  }
  return Math.max(0, Math.min(1, off))
}

/** Value in mg/dL below which this share of the weight lies. */
function quantile(weights: Weights, share: number): number {
  let below = 0
  for (let k = 0; k < GRID.nodes; k++) {
    if (below + weights[k] >= share) {
      const part = weights[k] === 0 ? 0.5 : (share - below) / weights[k]
      return Math.exp(LOG_MG_DL[k] + (part - 0.5) * GRID.step)
    }
    below += weights[k]
  }
  return MG_DL[GRID.nodes - 1]
}
