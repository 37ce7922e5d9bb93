import { describe, expect, it } from 'vitest'
import { doubtsOf, type Doubts, type Evidence } from '../../../src-core/technique/doubtModel'

/** A test as value and minutes since the one before. */
type Test = readonly [mgDl: number, gapMinutes: number]

const HOURS_4 = 240

/** Forty days of a person whose readings lie around 140 mg/dL, so that the range is known. */
const USUAL: Test[] = Array.from({ length: 160 }, (_, i) => [
  Math.round(140 * Math.exp(0.3 * Math.sin(i * 2.4))),
  HOURS_4,
])

function run(tests: readonly Test[], evidence?: Evidence): Doubts {
  let now = 0
  return doubtsOf(
    {
      minutes: Float64Array.from(tests, ([, gap]) => (now += gap)),
      mgDl: Float64Array.from(tests, ([mgDl]) => mgDl),
      low: Uint8Array.from(tests, ([mgDl]) => Number(mgDl < 70)),
    },
    10,
    evidence,
  )
}

/** Doubts of tests in the middle of the usual person's log, hours from its other tests. */
function doubts(...tests: readonly Test[]): number[] {
  const [[firstMgDl], ...rest] = tests
  const log = [...USUAL.slice(0, 80), [firstMgDl, HOURS_4] as const, ...rest, ...USUAL.slice(80)]
  return [...run(log).doubt.slice(80, 80 + tests.length)]
}

// What must hold for any sound model of this kind; the numbers themselves are design choices.
describe('the doubt of repeat readings', () => {
  it('is small where all agree, and smaller than that of one alone', () => {
    for (const doubt of doubts([100, 0], [105, 3], [98, 2])) expect(doubt).toBeLessThan(0.05)
    for (const doubt of doubts([240, 0], [250, 2])) expect(doubt).toBeLessThan(0.15)
    const [first, second] = doubts([140, 0], [143, 3])
    const [other] = doubts([190, 0], [140, 3])
    expect(first).toBeLessThan(0.02)
    expect(second).toBeLessThan(0.02)
    expect(other).toBeGreaterThan(0.2)
  })

  it('falls on the first of two that contradict each other, not on the second', () => {
    const [first, second] = doubts([288, 0], [142, 2])
    expect(first).toBeGreaterThan(0.9)
    expect(second).toBeLessThan(0.1)
  })

  it('falls on the first that is too low as well', () => {
    const [first, second, third] = doubts([90, 0], [150, 3], [146, 2])
    expect(first).toBeGreaterThan(0.9)
    expect(second).toBeLessThan(0.1)
    expect(third).toBeLessThan(0.1)
  })

  it('falls on the odd one out among later tests', () => {
    const [first, second, third] = doubts([140, 0], [290, 2], [138, 2])
    expect(second).toBeGreaterThan(0.9)
    expect(first).toBeLessThan(0.1)
    expect(third).toBeLessThan(0.1)
  })

  it('stays on both where sugar may still be on the finger for the repeat', () => {
    const [first, second] = doubts([420, 0], [330, 2])
    const [alone] = doubts([330, 0])
    expect(second).toBeGreaterThan(alone)
    expect(first).toBeGreaterThan(second)
  })

  it('after a low falls on the recheck, which may carry sugar', () => {
    const [low, recheck] = doubts([58, 0], [150, 3])
    expect(recheck).toBeGreaterThan(low)
    expect(low).toBeLessThan(0.4)
  })

  it('spares a rise after a low that sugar taken explains', () => {
    for (const doubt of doubts([52, 0], [90, 10])) expect(doubt).toBeLessThan(0.4)
  })

  it('spares a low that a test before it contradicts', () => {
    const [before, low] = doubts([150, 0], [62, 3])
    expect(before).toBeGreaterThan(low)
    expect(low).toBeLessThan(0.5)
  })

  it('grows with every test that speaks against a reading', () => {
    const [once] = doubts([62, 0], [140, 2])
    const [twice] = doubts([62, 0], [140, 2], [138, 2])
    const [often] = doubts([62, 0], [140, 2], [138, 2], [141, 2])
    expect(twice).toBeGreaterThan(once)
    expect(often).toBeGreaterThan(twice)
  })

  it('shrinks with the time in which glucose may have changed', () => {
    const [soon] = doubts([190, 0], [140, 1])
    const [later] = doubts([190, 0], [140, 10])
    expect(soon).toBeGreaterThan(later)
  })
})

describe('the doubt of a reading that nobody repeated', () => {
  it('is small for one high value, as after a meal', () => {
    expect(doubts([260, 0])[0]).toBeLessThan(0.3)
  })

  it('grows where readings within the hour say otherwise', () => {
    const [, amid] = doubts([130, 0], [330, 25], [128, 25])
    const [, apart] = doubts([130, 0], [330, 240], [128, 240])
    expect(amid).toBeGreaterThan(apart)
    expect(amid).toBeGreaterThan(0.4)
  })

  it('depends on what is usual for the person', () => {
    const usuallyHigh = USUAL.map(([mgDl, gap]) => [mgDl * 2, gap] as const)
    const { doubt } = run([...usuallyHigh, [420, HOURS_4]])
    expect(doubt[doubt.length - 1]).toBeLessThan(doubts([420, 0])[0])
  })

  it('stays below the bar in nearly all of a quiet log', () => {
    expect([...run(USUAL).doubt].filter((doubt) => doubt >= 0.4)).toEqual([])
  })
})

describe('evidence from elsewhere', () => {
  const log: Test[] = [...USUAL, [230, HOURS_4]]
  const last = log.length - 1
  const last230 = (up: number, down: number) => {
    const evidence = { up: new Float64Array(log.length).fill(1), down: new Float64Array(log.length).fill(1) }
    evidence.up[last] = up
    evidence.down[last] = down
    return run(log, evidence).doubt
  }

  it('raises the doubt of its reading through the odds of an error', () => {
    const [none] = last230(1, 1).subarray(last)
    const [juice] = last230(30, 1).subarray(last)
    expect(none).toBe(run(log).doubt[last])
    expect(juice).toBeGreaterThan(3 * none)
    expect(last230(0, 0)[last]).toBeLessThan(none)
  })

  it('tells of its own direction', () => {
    expect(last230(30, 1)[last]).toBeGreaterThan(last230(1, 30)[last])
  })
})

describe('what the other readings make of a value', () => {
  it('is a narrow range between close neighbours, and a wide one far from all', () => {
    const log: Test[] = [...USUAL, [140, HOURS_4], [330, 5], [138, 5]]
    const { expectedLow, expectedHigh } = run(log)
    const odd = log.length - 2
    expect(expectedLow[odd]).toBeGreaterThan(100)
    expect(expectedLow[odd]).toBeLessThan(140)
    expect(expectedHigh[odd]).toBeGreaterThan(140)
    expect(expectedHigh[odd]).toBeLessThan(200)
    expect(expectedHigh[80] / expectedLow[80]).toBeGreaterThan(2)
  })

  it('does not hang on the reading itself', () => {
    const around = (mgDl: number) => {
      const found = run([...USUAL.slice(0, 80), [mgDl, HOURS_4], [140, 60], ...USUAL.slice(80)])
      return [found.expectedLow[80], found.expectedHigh[80]]
    }
    const [low, high] = around(150)
    const [lowToo, highToo] = around(170)
    expect(Math.abs(low / lowToo - 1)).toBeLessThan(0.05)
    expect(Math.abs(high / highToo - 1)).toBeLessThan(0.05)
  })
})

describe('the model', () => {
  const absurd: [string, Test[]][] = [
    ['nothing', []],
    ['one reading', [[140, 0]]],
    ['two readings', [[140, 0], [600, 3]]], // prettier-ignore
    ['one moment', [[20, 0], [600, 0], [140, 0]]], // prettier-ignore
    ['impossible jumps', [[1000, 0], [1, 0], [1000, 1], [1, 1]]], // prettier-ignore
    ['a set of 20', Array.from({ length: 20 }, (_, i) => [i % 2 === 0 ? 20 : 600, 1])],
    ['every minute of a day', Array.from({ length: 1440 }, (_, i) => [100 + (i % 7) * 60, 1])],
    ['one value', Array.from({ length: 500 }, () => [20, 300])],
    ['limits', Array.from({ length: 500 }, (_, i) => [i % 2 === 0 ? 20 : 600, 7])],
    ['years apart', [[140, 0], [150, 5_000_000], [160, 5_000_000]]], // prettier-ignore
  ]
  it.each(absurd)('gives finite doubts and ranges for %s', (_, tests) => {
    const { doubt, expectedLow, expectedHigh } = run(tests)
    expect(doubt).toHaveLength(tests.length)
    for (let i = 0; i < doubt.length; i++) {
      expect(doubt[i]).toBeGreaterThanOrEqual(0)
      expect(doubt[i]).toBeLessThanOrEqual(1)
      expect(expectedLow[i]).toBeGreaterThan(0)
      expect(expectedHigh[i]).toBeGreaterThan(expectedLow[i])
      expect(expectedHigh[i]).toBeLessThan(2000)
    }
  })

  it('spares a steady rise that is seen every minute', () => {
    const rise: Test[] = Array.from({ length: 60 }, (_, i) => [
      Math.round(100 + 2 * i),
      i === 0 ? HOURS_4 : 1,
    ])
    const { doubt } = run([...USUAL, ...rise])
    expect(Math.max(...doubt.subarray(USUAL.length))).toBeLessThan(0.4)
  })

  it('sees parts of a log that lie far apart as it sees each alone', () => {
    const part: Test[] = [...USUAL.slice(0, 80), [288, HOURS_4], [142, 2], [95, 40], ...USUAL.slice(80)]
    const alone = run(part).doubt
    const both = run([...part, [part[0][0], 1_000_000], ...part.slice(1)]).doubt
    for (let i = 0; i < part.length; i++) {
      expect(Math.abs(both[i] - alone[i])).toBeLessThan(0.03)
      expect(Math.abs(both[part.length + i] - alone[i])).toBeLessThan(0.03)
    }
  })
})
