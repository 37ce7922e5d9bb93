import { describe, expect, it } from 'vitest'
import { dayPicture } from '../../../src-core/charts/dayPicture'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'
import { groupNamed } from '../../helpers/scenes'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

function curveOf(rows: readonly FixtureReading[]) {
  const analysis = analysisOf(rows)
  const scene = dayPicture(ENGLISH, analysis, analysis.periods[0], {
    width: 521,
    height: 250,
    palette: PRINT_PALETTE,
  })
  return groupNamed(scene, 'curve')
}

/** A test every quarter of an hour from 06:00 on for so many hours, on so many days, rising by 1 a quarter. */
function denseDays(days: number, hours: number): readonly FixtureReading[] {
  const quarters = 4 * hours
  return Array.from({ length: days * quarters }, (_, i) => {
    const quarter = i % quarters
    const time = `${String(6 + Math.floor(quarter / 4)).padStart(2, '0')}:${String(15 * (quarter % 4)).padStart(2, '0')}`
    return {
      at: `2026-03-${String(2 + Math.floor(i / quarters)).padStart(2, '0')} ${time}`,
      value: 120 + quarter,
    }
  })
}

describe('the thin line of the day', () => {
  it('is drawn and named where hours on end are densely tested, and climbs with the readings', () => {
    const nodes = curveOf(denseDays(20, 12))
    const lines = nodes.filter((node) => node.kind === 'polyline')
    expect(lines).toHaveLength(1)
    const [{ points }] = lines
    expect(points[points.length - 1].y).toBeLessThan(points[0].y)
    expect(nodes.filter((node) => node.kind === 'text')).toHaveLength(1)
  })

  it('stays away where it would be an arc over a block or two', () => {
    expect(curveOf(denseDays(20, 5))).toEqual([])
  })

  it('stays away where tests are few', () => {
    expect(curveOf(inventedLog({ days: 14 }))).toEqual([])
    expect(curveOf([{ at: '2026-03-02 07:10', value: 104 }])).toEqual([])
  })
})
