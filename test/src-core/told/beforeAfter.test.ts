import { describe, expect, it } from 'vitest'
import type { Kit } from '../../../src-core/kit/kit'
import { beforeAfterTold } from '../../../src-core/told/beforeAfter'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'

const date = (i: number) => new Date(Date.UTC(2026, 3, 1 + i)).toISOString().slice(0, 10)

/** A day's two tests three minutes apart, of one meter or of two. */
function pairOn(
  i: number,
  disagree: boolean,
  meters: readonly [string, string] = ['kitchen meter', 'kitchen meter'],
) {
  return [
    { at: `${date(i)} 08:00`, value: 140, meter: meters[0] },
    { at: `${date(i)} 08:03`, value: disagree ? 260 : 142, meter: meters[1] },
  ]
}
/** Ten days of which the first five hold three sets that disagree, the others one. */
const ROWS: readonly FixtureReading[] = Array.from({ length: 10 }, (_, i) =>
  pairOn(i, i < 3 || i === 7),
).flat()
const toldOf = (kit: Kit, rows = ROWS) => beforeAfterTold(analysisOf(rows, { kit }))
const SETS = { before: { count: 3, n: 5 }, since: { count: 1, n: 5 } }

describe('sets that disagree before and since something was new', () => {
  it('are counted for a dated teaching, from its own day on', () => {
    expect(toldOf({ teachings: [{ date: date(5), about: 'washing' }] })).toEqual([
      { since: parseIsoDay(date(5)), news: [{ code: 'taught', about: 'washing' }], sets: SETS, pairs: null },
    ])
  })

  it('are counted for a vial that was opened, together with what else was new that day', () => {
    const kit: Kit = {
      teachings: [{ date: date(5) }],
      strips: [{ vial: 'second', lot: 'L2', opened: date(5) }, { vial: 'first' }],
    }
    expect(toldOf(kit).map(({ news, sets }) => ({ news, sets }))).toEqual([
      {
        news: [
          { code: 'taught', about: null },
          { code: 'strips', vial: 'second', lot: 'L2' },
        ],
        sets: SETS,
      },
    ])
  })

  it('are those of the vial’s meter alone where the kit names it', () => {
    const other = Array.from({ length: 10 }, (_, i) =>
      pairOn(i, true, ['bag meter', 'bag meter']).map((reading) => ({
        ...reading,
        at: reading.at.replace(' 08', ' 18'),
      })),
    ).flat()
    const both = [...ROWS, ...other].sort((a, b) => (a.at < b.at ? -1 : 1))
    const [told] = toldOf({ strips: [{ opened: date(5), meter: 'kitchen meter' }] }, both)
    expect(told.sets).toEqual(SETS)
  })

  it('are counted for a meter that came later, with the pairs where both sides have some', () => {
    const rows = Array.from({ length: 20 }, (_, i) =>
      pairOn(i, i % 4 === 0, i < 10 ? ['kitchen meter', 'old meter'] : ['kitchen meter', 'new meter']),
    ).flat()
    const { readings } = analysisOf(rows)
    expect(toldOf({}, rows)).toEqual([
      {
        since: parseIsoDay(date(10)),
        news: [{ code: 'meter', meter: readings.meters.indexOf('new meter') }],
        sets: { before: { count: 3, n: 10 }, since: { count: 2, n: 10 } },
        pairs: { before: { count: 3, n: 10 }, since: { count: 2, n: 10 } },
      },
    ])
  })

  it('are told only where both sides have some, and some disagree', () => {
    for (const day of [date(0), date(10), date(-30)])
      expect(toldOf({ teachings: [{ date: day }] })).toEqual([])
    const calm = Array.from({ length: 10 }, (_, i) => pairOn(i, false)).flat()
    expect(toldOf({ teachings: [{ date: date(5) }] }, calm)).toEqual([])
  })

  it('stand on paper as counts and no more', () => {
    const kit: Kit = { teachings: [{ date: date(5), about: 'washing' }] }
    const text = JSON.stringify(documentOf(analysisOf(ROWS, { kit })))
    expect(text).toContain(
      'Before 6 April 3 of 5 repeat sets disagree, since then 1 of 5. That day technique was taught (washing).',
    )
    expect(text).toContain('Counts show no cause')
  })
})
