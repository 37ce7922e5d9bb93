import { describe, expect, it } from 'vitest'
import { doubtsOf } from '../../../src-core/technique/doubtModel'
import type { Tests } from '../../../src-core/technique/modelFit'
import { randomSource } from '../../helpers/randomSource'

const HOURS_4 = 240
/** A reading that nobody repeated, more than twice the median. */
const FAR = 330

/** Scores of a law at `n` shares from end to end, in an order that tells nothing. */
function scores(n: number, quantile: (share: number) => number): readonly number[] {
  const inOrder = Array.from({ length: n }, (_, i) => quantile((i + 0.5) / n))
  const source = randomSource(4)
  for (let i = n - 1; i > 0; i--) {
    const j = source.nextBelow(i + 1)
    ;[inOrder[i], inOrder[j]] = [inOrder[j], inOrder[i]]
  }
  return inOrder
}

/** Of the cosine's law, which has no far values; as the next one scaled to 1 at the ninetieth percentile. */
const even = (share: number) => Math.asin(2 * share - 1) / Math.asin(0.8)
/** Student's t with 2 degrees of freedom, in closed form. */
const farOut = (share: number) => {
  const t = (p: number) => (2 * p - 1) / Math.sqrt(2 * p * (1 - p))
  return t(share) / t(0.9)
}

/** A log about 150 mg/dL, eight of ten readings within 25 % of it. */
function logOf(some: readonly number[], gap: (i: number) => number = () => HOURS_4): Tests {
  let now = 0
  const mgDl = Float64Array.from(some, (score) => Math.min(590, Math.max(71, 150 * Math.exp(0.25 * score))))
  return {
    minutes: Float64Array.from(some, (_, i) => (now += gap(i))),
    mgDl,
    low: new Uint8Array(mgDl.length),
  }
}

/** The same with these tests at its end, hours after the others. */
function withTests(log: Tests, ...added: readonly (readonly [mgDl: number, gap: number])[]): Tests {
  let now = log.minutes[log.minutes.length - 1]
  return {
    minutes: Float64Array.from([...log.minutes, ...added.map(([, gap]) => (now += gap))]),
    mgDl: Float64Array.from([...log.mgDl, ...added.map(([mgDl]) => mgDl)]),
    low: Uint8Array.from([...log.low, ...added.map(([mgDl]) => Number(mgDl < 70))]),
  }
}

const misfitOf = (tests: Tests) => doubtsOf(tests, 10).misfit
const FITS = { wide: false, quick: false }

describe('a log that the doubt model fits badly', () => {
  it('is told by values far from the middle, and by enough readings only', () => {
    expect(misfitOf(logOf(scores(300, even)))).toEqual(FITS)
    expect(misfitOf(logOf(scores(300, farOut)))).toEqual({ wide: true, quick: false })
    expect(misfitOf(logOf(scores(40, farOut)))).toEqual(FITS)
    expect(misfitOf(logOf([]))).toEqual(FITS)
  })

  it('is told by tests of the same hour that have nothing to do with each other', () => {
    const pairs = (i: number) => (i % 2 === 0 ? HOURS_4 : 40)
    const free = scores(200, even)
    expect(misfitOf(logOf(free, pairs))).toEqual({ wide: false, quick: true })
    const alike = free.map((score, i) => (i % 2 === 0 ? score : free[i - 1] + 0.1 * score))
    expect(misfitOf(logOf(alike, pairs))).toEqual(FITS)
    // After a low sugar is taken: that is no short memory.
    const after = logOf(free, pairs)
    const lows = { ...after, low: Uint8Array.from(free, (_, i) => Number(i % 2 === 0)) }
    expect(misfitOf(lows)).toEqual(FITS)
  })

  it('is not told by errors that were tested again and contradicted', () => {
    const log = scores(300, even)
    const gaps: number[] = []
    const some = log.flatMap((score, i) => {
      gaps.push(HOURS_4)
      if (i % 15 !== 0) return [score]
      gaps.push(3)
      return [score + Math.log(2) / 0.25, score]
    })
    expect(misfitOf(logOf(some, (i) => gaps[i]))).toEqual(FITS)
  })

  it('doubts less a far value that nobody repeated, and no less the one that a repeat contradicts', () => {
    const doubtsIn = (law: (share: number) => number, ...added: readonly (readonly [number, number])[]) =>
      [...doubtsOf(withTests(logOf(scores(300, law)), ...added), 10).doubt].slice(300)
    const [usual] = doubtsIn(even, [FAR, HOURS_4])
    const [wide] = doubtsIn(farOut, [FAR, HOURS_4])
    expect(usual).toBeGreaterThan(0.4)
    // Below the bar instead of above it.
    expect(wide).toBeLessThan(0.4)
    const [first, second] = doubtsIn(farOut, [FAR, HOURS_4], [150, 3])
    expect(first).toBeGreaterThan(0.9)
    expect(second).toBeLessThan(0.1)
  })

  it('leaves a low as far from doubtful as it was', () => {
    for (const law of [even, farOut]) {
      const tests = withTests(logOf(scores(300, law)), [52, HOURS_4])
      expect(doubtsOf(tests, 10).doubt[300]).toBeLessThan(0.05)
    }
  })
})
