import { describe, expect, it } from 'vitest'
import { doubtClusters } from '../../../src-core/technique/doubtClusters'
import { NO_EQUIPMENT } from '../../../src-core/technique/reasons/evidence'
import { clusterSentence } from '../../../src-core/wording/english/doubt'
import { readingsOf, row } from '../analysis/readingsOf'

const HOURS = ['07:00', '12:30', '18:30', '22:00']
/** Thirty days with four tests each; the dinner ones are of the second meter. */
const readings = readingsOf(
  Array.from({ length: 120 }, (_, i) => {
    const day = String(1 + Math.floor(i / 4)).padStart(2, '0')
    return row(`2026-03-${day} ${HOURS[i % 4]}`, 120 + (i % 9), { meter: i % 4 === 2 ? 'two' : 'one' })
  }),
)
const names = ['meter A', 'meter B']
const at = (hour: number, days: readonly number[]) => new Set(days.map((day) => 4 * day + hour))

describe('clusters of doubtful readings', () => {
  it('are found where chance does not put so many: of 30 in 120 all of six', () => {
    const clusters = doubtClusters(readings, at(2, [1, 4, 9, 12, 20, 25]), NO_EQUIPMENT)
    expect(clusters).toHaveLength(2)
    expect(clusters.map(({ by }) => by).sort()).toEqual(['hours', 'meter'])
    // Of 120 readings 30 were taken then: C(30,6) / C(120,6) = 593775 / 3652745460.
    for (const { doubtful, ofDoubtful, readings: inside, ofReadings } of clusters) {
      expect([doubtful, ofDoubtful, inside, ofReadings]).toEqual([6, 6, 30, 120])
    }
    const told = clusters.map((cluster) => clusterSentence(cluster, names)).join(' ')
    expect(told).toContain(
      '6 of the 6 doubtful readings fall in the hours 18–21, when 30 of 120 readings were taken',
    )
    expect(told).toContain('6 of the 6 doubtful readings come from meter B')
  })

  it('are none where the doubtful ones lie about', () => {
    const spread = new Set([0, 5, 10, 15, 40, 45, 50, 55])
    expect(doubtClusters(readings, spread, NO_EQUIPMENT)).toEqual([])
  })

  it('are none of three, however close', () => {
    expect(doubtClusters(readings, at(2, [1, 2, 3]), NO_EQUIPMENT)).toEqual([])
  })

  it('name the vial of the kit, of the days on which it alone may have been in use', () => {
    const equipment = {
      ...NO_EQUIPMENT,
      strips: [
        { vial: 'first', opened: '2026-02-20' },
        { vial: 'second', opened: '2026-03-24' },
      ],
    }
    const late = new Set([97, 99, 102, 107, 112, 117])
    const clusters = doubtClusters(readings, late, equipment)
    expect(clusters.map((cluster) => clusterSentence(cluster, names))).toEqual([
      '6 of the 6 doubtful readings come from the vial ‘second’, which gave 24 of 120 readings: look at the strips first.',
    ])
  })
})
