import { describe, expect, it } from 'vitest'
import { FLAG } from '../../../src-core/log/readings'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { assessTechnique } from '../../../src-core/technique/assessTechnique'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { pooledWithinSd, sdIntervalFactors } from '../../../src-core/technique/repeatability'
import { readingsOf, row } from '../analysis/readingsOf'

/** Eight duplicate pairs, mg/dL; figures worked out with numpy 2.4 and scipy 1.17. */
const SET_B = [
  [102, 98],
  [145, 151],
  [88, 90],
  [210, 198],
  [67, 70],
  [176, 180],
  [250, 238],
  [121, 119],
]

describe('pooled within-set standard deviation', () => {
  it('of pairs is the square root of the sum of squared differences over 2n (Dahlberg 1940)', () => {
    // Sum of squared differences 373.
    const within = pooledWithinSd(SET_B)
    expect(within?.sd).toBeCloseTo(Math.sqrt(373 / 16), 12)
    expect(within?.sd).toBeCloseTo(4.828302, 6)
    expect(within?.degreesOfFreedom).toBe(8)
  })

  it('takes unequal numbers of repeats', () => {
    // Sum of squares 71.25 with 6 degrees of freedom.
    const within = pooledWithinSd([
      [100, 104, 99],
      [180, 171, 176, 178],
      [65, 70],
    ])
    expect(within?.sd).toBeCloseTo(3.446012, 6)
    expect(within?.degreesOfFreedom).toBe(6)
  })

  it('reproduces the published analysis of children’s peak flow', () => {
    // Bland and Altman, Measurement error, BMJ 1996;313:744: within-subject SD 21.5 l/min with 60 degrees of freedom.
    const within = pooledWithinSd([
      [190, 220, 200, 200],
      [220, 200, 240, 230],
      [260, 260, 240, 280],
      [210, 300, 280, 265],
      [270, 265, 280, 270],
      [280, 280, 270, 275],
      [260, 280, 280, 300],
      [275, 275, 275, 305],
      [280, 290, 300, 290],
      [320, 290, 300, 290],
      [300, 300, 310, 300],
      [270, 250, 330, 370],
      [320, 330, 330, 330],
      [335, 320, 335, 375],
      [350, 320, 340, 365],
      [360, 320, 350, 345],
      [330, 340, 380, 390],
      [335, 385, 360, 370],
      [400, 420, 425, 420],
      [430, 460, 480, 470],
    ])
    expect(within?.degreesOfFreedom).toBe(60)
    expect(within?.sd).toBeCloseTo(21.46, 2)
  })

  it('reproduces the published repeatability of two peak flow meters', () => {
    // Bland and Altman, Lancet 1986;i:307-310: root mean square difference of repeats 21.6 and 28.2 l/min, that is
    // the within-subject SD times the root of 2.
    const large1 = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427]
    const large2 = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421]
    const mini1 = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451]
    const mini2 = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443]
    const differs = (first: number[], second: number[]) =>
      ((pooledWithinSd(first.map((value, i) => [value, second[i]]))?.sd ?? NaN) * Math.SQRT2).toFixed(1)
    expect([differs(large1, large2), differs(mini1, mini2)]).toEqual(['21.6', '28.2'])
  })

  it('does not exist without two values in a set', () => {
    expect(pooledWithinSd([])).toBeNull()
    expect(pooledWithinSd([[100]])).toBeNull()
  })
})

describe('chi-square factors of a standard deviation', () => {
  // Published tables of 95 % confidence factors for n = 2, 3, 5, 10, 100 (n - 1 degrees of freedom).
  it.each([
    [1, 0.4461, 31.9102],
    [2, 0.5207, 6.2847],
    [4, 0.5991, 2.8736],
    [9, 0.6878, 1.8256],
    [14, 0.7321, 1.5771],
    [29, 0.7964, 1.3443],
    [99, 0.878, 1.1617],
  ])('with %d degrees of freedom are %d and %d', (degreesOfFreedom, low, high) => {
    const factors = sdIntervalFactors(degreesOfFreedom)
    expect(factors[0]).toBeCloseTo(low, 4)
    expect(factors[1]).toBeCloseTo(high, 4)
  })

  it('give the NIST handbook’s interval of the gear data', () => {
    // NIST/SEMATECH e-Handbook, section 1.3.5.8: n = 100, s = 0.0062789, interval 0.00551 to 0.00729.
    const [low, high] = sdIntervalFactors(99)
    expect(0.0062789 * low).toBeCloseTo(0.00551, 5)
    expect(0.0062789 * high).toBeCloseTo(0.00729, 5)
  })
})

describe('repeatability of a logbook', () => {
  const pairs = SET_B.flatMap(([first, second], day) => [
    row(`2026-03-0${day + 1} 07:00`, first),
    row(`2026-03-0${day + 1} 07:02`, second),
  ])
  const assess = (rows: Parameters<typeof readingsOf>[0]) => {
    const readings = readingsOf(rows)
    return assessTechnique(readings, chronologicalOrder(readings), DEFAULT_SETTINGS).repeatability
  }

  it('pools the sets of one meter that agree, on the logarithmic scale for the CV', () => {
    const repeatability = assess(pairs)
    expect(repeatability).toMatchObject({ sets: 8, readings: 16 })
    expect(repeatability.withinSdMgDl).toBeCloseTo(4.828302, 6)
    expect(repeatability.withinCvPercent).toBeCloseTo(2.77633, 5)
    expect(repeatability.withinCvCi95?.[0]).toBeCloseTo(1.875292, 5)
    expect(repeatability.withinCvCi95?.[1]).toBeCloseTo(5.318813, 5)
  })

  it('leaves out sets that disagree, cross meters or hold a marker', () => {
    const repeatability = assess([
      ...pairs,
      row('2026-04-01 07:00', 288),
      row('2026-04-01 07:02', 142),
      row('2026-04-02 07:00', 140),
      row('2026-04-02 07:02', 160, { meter: 'B' }),
      row('2026-04-03 07:00', 600, { flags: FLAG.aboveRange }),
      row('2026-04-03 07:02', 590),
    ])
    expect(repeatability.sets).toBe(8)
    expect(repeatability.withinSdMgDl).toBeCloseTo(4.828302, 6)
  })

  it('is unknown without repeats', () => {
    expect(assess([row('2026-03-01 07:00', 100)])).toEqual({
      sets: 0,
      readings: 0,
      withinSdMgDl: null,
      withinCvPercent: null,
      withinCvCi95: null,
      unsurprising: null,
    })
  })

  it('tells apart the sets whose first reading was no surprise', () => {
    const others = Array.from({ length: 40 }, (_, i) =>
      row(`2026-03-${String(1 + (i % 20)).padStart(2, '0')} ${i < 20 ? '12' : '18'}:00`, 110 + i),
    )
    const found = assess([
      ...others,
      row('2026-03-02 07:00', 120),
      row('2026-03-02 07:03', 126),
      row('2026-03-05 07:00', 300),
      row('2026-03-05 07:03', 270),
      row('2026-03-08 07:00', 66),
      row('2026-03-08 07:03', 72),
    ])
    expect(found.sets).toBe(3)
    // Of one pair: 100 ln(126 / 120) / sqrt(2) = 3.4500.
    expect(found.unsurprising).toMatchObject({ sets: 1, degreesOfFreedom: 1 })
    expect(found.unsurprising?.withinCvPercent).toBeCloseTo(3.45, 3)
  })
})
