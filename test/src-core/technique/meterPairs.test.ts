import { describe, expect, it } from 'vitest'
import { FLAG } from '../../../src-core/log/readings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { meterPairs } from '../../../src-core/technique/meterPairs'
import { readingsOf, row } from '../analysis/readingsOf'

type Test = readonly [time: string, value: number, meter: string, flags?: number]

function pairsOf(tests: readonly Test[]) {
  const readings = readingsOf(
    tests.map(([time, value, meter, flags = 0]) => row(`2026-03-08 ${time}`, value, { meter, flags })),
  )
  return meterPairs(readings, chronologicalOrder(readings)).map((pair) => ({
    ...pair,
    names: [readings.meters[pair.first], readings.meters[pair.second]],
    values: pair.pairs.map((members) => members.map((index) => readings.mgDl[index])),
  }))
}

describe('pairs of two meters', () => {
  it('are at most ten minutes apart, the ten included', () => {
    const tests = (time: string): Test[] => [
      ['07:00', 100, 'A'],
      [time, 110, 'B'],
    ]
    expect(pairsOf(tests('07:10'))).toHaveLength(1)
    expect(pairsOf(tests('07:11'))).toEqual([])
  })

  it('are the nearest, each reading once for each two meters', () => {
    const [pair] = pairsOf([
      ['07:00', 100, 'A'],
      ['07:05', 110, 'B'],
      ['07:07', 120, 'A'],
      ['07:12', 130, 'B'],
    ])
    // 110 and 120 lie two minutes apart; 100 and 130 are then too far apart.
    expect(pair.values).toEqual([[120, 110]])
  })

  it('of the same gap are told by the earlier reading, then its line', () => {
    const [pair] = pairsOf([
      ['07:00', 100, 'A'],
      ['07:03', 110, 'B'],
      ['07:06', 120, 'A'],
    ])
    expect(pair.values).toEqual([[100, 110]])
    const [sameMinute] = pairsOf([
      ['07:00', 100, 'A'],
      ['07:00', 105, 'A'],
      ['07:00', 110, 'B'],
    ])
    expect(sameMinute.values).toEqual([[100, 110]])
  })

  it('name the meter first that appears first, whichever was used first in a pair', () => {
    const [pair] = pairsOf([
      ['06:00', 90, 'A'],
      ['07:00', 100, 'B'],
      ['07:03', 110, 'A'],
    ])
    expect(pair.names).toEqual(['A', 'B'])
    expect(pair.values).toEqual([[110, 100]])
  })

  it('hold no marker, no reading without a time and none of a sensor', () => {
    for (const flag of [FLAG.aboveRange, FLAG.belowRange, FLAG.dayOnly, FLAG.sensor]) {
      expect(
        pairsOf([
          ['07:00', 100, 'A'],
          ['07:03', 110, 'B', flag],
        ]),
      ).toEqual([])
    }
  })

  it('serve each two of three meters', () => {
    const names = pairsOf([
      ['07:00', 100, 'A'],
      ['07:03', 110, 'B'],
      ['07:06', 120, 'C'],
    ]).map((pair) => pair.names.join(''))
    expect(names).toEqual(['AB', 'AC', 'BC'])
  })
})

describe('figures of the pairs', () => {
  it('are mean and limits of the differences in percent of the pair’s mean', () => {
    // By hand: 200 (100 - 110) / 210 = -9.5238, 200 (200 - 190) / 390 = 5.1282; mean -2.1978, SD 10.3606.
    const [pair] = pairsOf([
      ['07:00', 100, 'A'],
      ['07:03', 110, 'B'],
      ['12:00', 200, 'A'],
      ['12:03', 190, 'B'],
    ])
    expect(pair.meanDifferencePercent).toBeCloseTo(-2.1978, 4)
    expect(pair.limits95Percent?.[0]).toBeCloseTo(-2.1978 - 1.96 * 10.3606, 3)
    expect(pair.limits95Percent?.[1]).toBeCloseTo(-2.1978 + 1.96 * 10.3606, 3)
  })

  it('tell by Student’s t where the next pair lies and how well the mean is known, from five pairs on', () => {
    const dayOf = (seconds: readonly number[]) =>
      pairsOf(
        seconds.flatMap((value, i): Test[] => [
          [`${String(7 + i).padStart(2, '0')}:00`, 100, 'A'],
          [`${String(7 + i).padStart(2, '0')}:02`, value, 'B'],
        ]),
      )[0]
    const five = dayOf([100, 104, 96, 110, 92])
    // R 4.2.2: d <- 200 * (100 - b) / (100 + b); t.test(d)$conf.int; mean(d) +- qt(0.975, 4) * sd(d) * sqrt(1 + 1/5).
    expect(five.meanCi95Percent?.[0]).toBeCloseTo(-8.807988558, 5)
    expect(five.meanCi95Percent?.[1]).toBeCloseTo(8.395823692, 5)
    expect(five.nextPairPercent?.[0]).toBeCloseTo(-21.276363255, 5)
    expect(five.nextPairPercent?.[1]).toBeCloseTo(20.864198389, 5)
    expect(dayOf([100, 104, 96, 110])).toMatchObject({ meanCi95Percent: null, nextPairPercent: null })
  })

  it('have no limits below two pairs and no line below twenty', () => {
    const [pair] = pairsOf([
      ['07:00', 100, 'A'],
      ['07:03', 110, 'B'],
    ])
    expect(pair).toMatchObject({ limits95Percent: null, line: null })
    const tests = (n: number) =>
      Array.from({ length: n }, (_, i): Test[] => [
        [`${String(i).padStart(2, '0')}:00`, 90 + 7 * i, 'A'],
        [`${String(i).padStart(2, '0')}:02`, 2 * (90 + 7 * i), 'B'],
      ]).flat()
    expect(pairsOf(tests(19))[0].line).toBeNull()
    expect(pairsOf(tests(20))[0].line?.slope).toBeCloseTo(2, 10)
  })

  it.each([
    // Mean 99.5: 15 mg/dL. Mean 100 and more: 15 % of it. ISO 15197:2013's limits, both ends included.
    { first: 92, second: 107, within: 1 },
    { first: 91, second: 107, within: 0 },
    { first: 92.5, second: 107.5, within: 1 },
    { first: 185, second: 215, within: 1 },
    { first: 184, second: 215, within: 0 },
  ])('tell whether $first and $second lie within 15', ({ first, second, within }) => {
    const [pair] = pairsOf([
      ['07:00', first, 'A'],
      ['07:03', second, 'B'],
    ])
    expect(pair.within15).toEqual({ count: within, n: 1 })
  })
})
