import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS, type Settings } from '../../../src-core/model/settings'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { assessTechnique } from '../../../src-core/technique/assessTechnique'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import type { ContradictedByRepeat } from '../../../src-core/technique/reasons/contradictedByRepeat'
import type { Technique } from '../../../src-core/technique/technique'
import { readingsOf, row } from '../analysis/readingsOf'

function assess(readings: Readings, settings: Partial<Settings> = {}): Technique {
  return assessTechnique(readings, chronologicalOrder(readings), { ...DEFAULT_SETTINGS, ...settings })
}

/** Usual readings around 140 on other days, so that the person's range is known. */
const USUAL = [110, 121, 130, 138, 142, 149, 158, 171, 185].map((value, i) =>
  row(`2026-02-0${i + 1} 07:00`, value),
)

describe('doubtful readings', () => {
  const readings = readingsOf([...USUAL, row('2026-03-07 20:28', 288), row('2026-03-07 20:30', 142)])
  const technique = assess(readings)

  it('are those of a set that the doubt and a contradiction speak against', () => {
    expect(technique.doubtful).toHaveLength(1)
    const [{ index, doubt, reasons }] = technique.doubtful
    expect(readings.mgDl[index]).toBe(288)
    expect(doubt).toBe(technique.doubt[index])
    expect(reasons.map(({ code }) => code)).toEqual(['contradicted-by-repeat', 'unlike-neighbours'])
    expect(reasons[0]).toMatchObject({
      code: 'contradicted-by-repeat',
      evidence: { other: index + 1, otherMgDl: 142, minutes: 2, differenceMgDl: 146, membersOfSet: 2 },
    })
    // 0.15 x sqrt(288^2 + 142^2) + 2 x 2.
    expect((reasons[0] as ContradictedByRepeat).evidence.allowedMgDl).toBeCloseTo(52.1657, 4)
  })

  it('are sought among all finger-sticks, in a set or not', () => {
    expect(technique.doubt).toHaveLength(readings.n)
    for (const doubt of technique.doubt) expect(doubt).toBeGreaterThanOrEqual(0)
    expect(technique.expectedLow[0]).toBeLessThan(technique.expectedHigh[0])
  })

  it('need the doubt that the settings ask for', () => {
    expect(assess(readings, { doubtThreshold: 1.01 }).doubtful).toEqual([])
  })

  it('are told by the doubt alone; a set that agrees gives them no reason', () => {
    const agreeing = readingsOf([...USUAL, row('2026-03-07 20:28', 148), row('2026-03-07 20:30', 142)])
    expect(assess(agreeing).doubtful).toEqual([])
    const always = assess(agreeing, { doubtThreshold: 0 }).doubtful
    expect(always.map(({ reasons }) => reasons)).toEqual(Array(agreeing.n).fill([]))
  })

  it('take a bar of their own for a low', () => {
    const lowFirst = readingsOf([
      ...USUAL,
      row('2026-03-07 20:28', 62),
      row('2026-03-07 20:30', 140),
      row('2026-03-07 20:32', 141),
    ])
    const values = (settings: Partial<Settings>) =>
      assess(lowFirst, settings).doubtful.map(({ index }) => lowFirst.mgDl[index])
    expect(values({ doubtThresholdLow: 1.01 })).not.toContain(62)
    expect(values({ doubtThresholdLow: 0.1 })).toContain(62)
  })

  it('hold no low that no repeat contradicts, whatever its doubt', () => {
    const never = (...tests: [string, number][]) => {
      const lows = readingsOf([...USUAL, ...tests.map(([time, value]) => row(`2026-03-07 ${time}`, value))])
      const { doubtful } = assess(lows, { doubtThreshold: 0, doubtThresholdLow: 0 })
      expect(doubtful.map(({ index }) => lows.mgDl[index]).filter((value) => value < 70)).toEqual([])
    }
    never(['20:28', 41])
    never(['20:15', 150], ['20:28', 41], ['20:45', 150])
    never(['20:28', 52], ['20:31', 58])
  })

  it.each([
    [55, 90, '20:38'],
    [48, 140, '20:36'],
    [62, 109, '20:31'],
  ])('leave a low of %d below its bar that is %d at %s after treatment at 20:28', (low, recheck, time) => {
    const treated = readingsOf([...USUAL, row('2026-03-07 20:28', low), row(`2026-03-07 ${time}`, recheck)])
    const { doubtful } = assess(treated)
    expect(doubtful.map(({ index }) => treated.mgDl[index])).not.toContain(low)
  })

  it('name the member of the set that contradicts them most', () => {
    const three = readingsOf([
      ...USUAL,
      row('2026-03-07 20:28', 288),
      row('2026-03-07 20:29', 160),
      row('2026-03-07 20:30', 142),
    ])
    const [{ reasons }] = assess(three).doubtful
    expect(reasons[0].evidence).toMatchObject({ otherMgDl: 142, membersOfSet: 3 })
  })

  it('are the same in the other unit', () => {
    const mmol = { unit: 'mmol/L' } as const
    const inMmol = readingsOf([
      ...USUAL.map((usual) => ({ ...usual, ...mmol, logged: usual.logged / 18.0156 })),
      row('2026-03-07 20:28', 288 / 18.0156, mmol),
      row('2026-03-07 20:30', 142 / 18.0156, mmol),
    ])
    const other = assess(inMmol)
    expect(other.doubtful.map(({ index }) => index)).toEqual(technique.doubtful.map(({ index }) => index))
    expect(other.doubtful[0].doubt).toBeCloseTo(technique.doubtful[0].doubt, 10)
  })
})

describe('the doubt', () => {
  const repeat = [row('2026-03-07 20:28', 288), row('2026-03-07 20:30', 142)]

  it('is none for a sensor, a day without a time and changed conditions, which are no witnesses either', () => {
    const without = assess(readingsOf([...USUAL, row('2026-03-07 20:28', 288)]))
    for (const flags of [FLAG.sensor, FLAG.dayOnly, FLAG.changedConditions]) {
      const moment = flags === FLAG.dayOnly ? '2026-03-07 00:00' : '2026-03-07 20:30'
      const readings = readingsOf([...USUAL, row('2026-03-07 20:28', 288), row(moment, 142, { flags })])
      const index = Array.from(readings.mgDl).lastIndexOf(142)
      const { doubt, expectedLow, expectedHigh } = assess(readings)
      expect([doubt[index], expectedLow[index], expectedHigh[index]]).toEqual([NaN, NaN, NaN])
      expect(doubt.filter((_, i) => i !== index)).toEqual(without.doubt)
    }
  })

  it('is the same in whatever order the rows stand, also of one moment', () => {
    const oneMoment = [
      row('2026-03-08 09:00', 250),
      row('2026-03-08 09:00', 120),
      row('2026-03-08 09:00', 125),
    ]
    const rows = [...USUAL, ...repeat, ...oneMoment]
    const byValue = (readings: Readings) => {
      const { doubt } = assess(readings)
      return Object.fromEntries(
        [...doubt].map((value, i) => [`${readings.at[i]} ${readings.mgDl[i]}`, value]),
      )
    }
    expect(byValue(readingsOf([...rows].reverse()))).toEqual(byValue(readingsOf(rows)))
  })

  it('takes the note of the reading it belongs to', () => {
    const withNote = (note: string) =>
      assess(readingsOf([...repeat, row('2026-03-09 07:00', 140), { ...row('2026-03-10 07:00', 230), note }]))
        .doubt
    const plain = withNote('')
    const told = withNote('juice on my finger')
    expect(told[3]).toBeGreaterThan(2 * plain[3])
    expect(Math.abs(told[0] - plain[0])).toBeLessThan(0.01)
  })
})

describe('repeat sets', () => {
  it('have mean, spread and the mean of the members that are not doubtful', () => {
    const readings = readingsOf([
      ...USUAL,
      row('2026-03-07 20:28', 288),
      row('2026-03-07 20:30', 142),
      row('2026-03-07 20:33', 152),
    ])
    const [set] = assess(readings).repeatSets
    expect(set.members.map((index) => readings.mgDl[index])).toEqual([288, 142, 152])
    expect(set).toMatchObject({ agree: false, holdsLow: false, consensusMgDl: 147 })
    expect(set.meanMgDl).toBeCloseTo(194, 10)
    expect(set.spreadPercent).toBeCloseTo((100 * 146) / 194, 10)
  })

  it('that agree have the mean of all as consensus', () => {
    const [set] = assess(readingsOf([row('2026-03-07 20:28', 148), row('2026-03-07 20:30', 142)])).repeatSets
    expect(set).toMatchObject({ agree: true, meanMgDl: 145, consensusMgDl: 145 })
  })

  it('that disagree without a doubtful member have the median of all', () => {
    const readings = readingsOf([
      row('2026-03-07 20:28', 288),
      row('2026-03-07 20:30', 142),
      row('2026-03-07 20:33', 152),
    ])
    const [set] = assess(readings, { doubtThreshold: 1.01 }).repeatSets
    expect(set).toMatchObject({ agree: false, consensusMgDl: 152 })
  })

  it('whose members are all doubtful have the median of all', () => {
    const readings = readingsOf([row('2026-03-07 20:28', 288), row('2026-03-07 20:30', 142)])
    const technique = assess(readings, { doubtThreshold: 0 })
    expect(technique.doubtful).toHaveLength(2)
    expect(technique.repeatSets[0].consensusMgDl).toBe(215)
  })

  it('tell whether they hold a low', () => {
    const [set] = assess(readingsOf([row('2026-03-07 20:28', 52), row('2026-03-07 20:37', 90)])).repeatSets
    expect(set).toMatchObject({ agree: true, holdsLow: true })
  })

  it('agree only if every pair in them does', () => {
    // 100 and 118, 118 and 136 agree, 100 and 136 do not: 0.15 x sqrt(100^2 + 136^2) = 25.3.
    const moment = '2026-03-07 20:28'
    const [set] = assess(readingsOf([row(moment, 100), row(moment, 118), row(moment, 136)])).repeatSets
    expect(set.agree).toBe(false)
  })
})

describe('meters', () => {
  it('are counted in the order in which they appear', () => {
    const readings = readingsOf([
      row('2026-03-07 07:00', 100, { meter: 'B' }),
      row('2026-03-07 12:00', 100),
      row('2026-03-08 07:00', 100, { meter: 'B', flags: FLAG.dayOnly }),
    ])
    expect(assess(readings).meters).toEqual([
      { meter: 'B', n: 2 },
      { meter: 'A', n: 1 },
    ])
  })
})
