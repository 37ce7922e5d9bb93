import { expect, it } from 'vitest'
import { meterPairsTold } from '../../../src-core/told/meters'
import { analysisOf } from '../../helpers/analysisFixture'
import { pairSentence } from '../../../src-core/wording/english/meters'

/** So many pairs of two meters, the second ten per cent above the first. */
const pairs = (n: number) =>
  meterPairsTold(
    analysisOf(
      Array.from({ length: n }, (_, i) => [
        { at: `2026-03-${String(i + 1).padStart(2, '0')} 07:00`, value: 100 + 4 * i, meter: 'one' },
        {
          at: `2026-03-${String(i + 1).padStart(2, '0')} 07:03`,
          value: Math.round(1.1 * (100 + 4 * i)),
          meter: 'two',
        },
      ]).flat(),
    ),
  )

it('below five pairs of two meters the pairs stand in the place of figures', () => {
  expect(pairs(4)[0].few).toBe(true)
  expect(pairs(5)[0].few).toBe(false)
})

it('the line of two meters is told where the first shows 100 and 200, from twenty pairs on', () => {
  expect(pairs(19)[0].byLine).toEqual([])
  const [at100, at200] = pairs(25)[0].byLine
  expect([at100.firstMgDl, at200.firstMgDl]).toEqual([100, 200])
  expect(at100.secondMgDl).toBeCloseTo(110, 0)
  expect(at200.secondMgDl).toBeCloseTo(220, 0)
})

it('names the meters, the pairs and the line in one sentence each', () => {
  const { readings } = analysisOf([{ at: '2026-03-02 07:00', value: 120 }])
  expect(pairSentence(pairs(25)[0], ['meter A', 'meter B'], readings, 'mg/dL')).toMatch(
    /^Meter A read 10 % lower than meter B on average \(25 pairs; could be .*\)\. Line through these pairs: where meter A shows 100, meter B shows about 110; where it shows 200, about 220 \(slope 1\.10,/,
  )
})
