import { describe, expect, it } from 'vitest'
import { lowsView } from '../../../src-core/bridge/lowsView'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { sensorTold } from '../../../src-core/told/sensor'
import { ENGLISH } from '../../../src-core/wording/english'
import {
  sensorLowReadings,
  sensorLowsHeadline,
  shareText,
  timeText,
} from '../../../src-core/wording/english/sensor'
import { plainText } from '../../../src-core/wording/phrases'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

/** Fourteen days, a reading every five minutes at 110; the readings from each moment on have these values instead. */
function log(
  lows: Readonly<Record<string, readonly (number | 'LO')[]>>,
  parts: Partial<FixtureReading> = {},
) {
  const begin = Date.UTC(2026, 2, 2)
  const rows: FixtureReading[] = Array.from({ length: 14 * 288 }, (_, i) => ({
    at: new Date(begin + i * 300_000).toISOString().slice(0, 16).replace('T', ' '),
    value: 110,
    sensor: true,
  }))
  for (const [from, values] of Object.entries(lows)) {
    const first = rows.findIndex(({ at }) => at === from)
    values.forEach((value, i) => (rows[first + i] = { ...rows[first + i], value, ...parts }))
  }
  return analysisOf(rows)
}

const TWO = {
  '2026-03-04 02:00': [66, 53, 52, 50, 66],
  '2026-03-05 14:00': [69, 68, 67, 66],
  '2026-03-06 10:00': [65, 64],
} as const

describe('the lows of a sensor', () => {
  const analysis = log(TWO)
  const told = sensorTold(analysis, analysis.periods[0])

  it('are episodes of 15 minutes, and readings of none that count all the same', () => {
    expect(told?.lows).toMatchObject({ below70: 11, below54: 3, veryLow: 1, lowsInNone: 2, perWeek: 1 })
    expect(told?.lows.episodes?.map(({ minutes, veryLow }) => [minutes, veryLow])).toEqual([
      [25, true],
      [20, false],
    ])
    expect(told?.time).toEqual({ spacingMinutes: 5, even: true, coveredPercent: 100 })
  })

  it('leave the contract’s own episodes as they are: lows an hour apart at most', () => {
    expect(analysis.periods[0].lows.episodes).toHaveLength(3)
  })

  it('tell what a note says of help', () => {
    const noted = log(TWO, { note: 'found by wife' })
    expect(sensorTold(noted, noted.periods[0])?.lows.episodes?.map(({ helped }) => helped)).toEqual([
      true,
      true,
    ])
  })

  it('stand on the terminal and in the window, no reading by itself', () => {
    const terminal = terminalSummary(ENGLISH, analysis, []).join('\n')
    expect(terminal).toContain(
      'Lows: 2 episodes of 15 minutes or more below 70, 1 with as long below 54; 1.0 a week of the time covered.',
    )
    expect(terminal).toContain(
      'Below 54 under 1 % (3), Below 70 under 1 % (11), Time in range 70 to 180 100 % (4021)',
    )
    const view = lowsView(ENGLISH, analysis, analysis.periods[0])
    expect(view.lowest.map(({ values, after }) => `${values}, ${after}`)).toEqual([
      'lowest 50, 25 min',
      'lowest 66, 20 min',
    ])
    expect([view.others, view.unlisted]).toEqual([[], 0])
    expect(view.remarks[0]).toContain('Of the 11, 2 were not seen to last 15 minutes')
  })

  it('are none of a log of finger-sticks', () => {
    const sticks = analysisOf([{ at: '2026-03-02 08:00', value: 60 }])
    expect(sensorTold(sticks, sticks.periods[0])).toBeNull()
  })
})

describe('the words for the lows of a sensor', () => {
  const lows = {
    below70: 0,
    below54: 0,
    episodes: [],
    veryLow: 0,
    lowsInNone: 0,
    perWeek: 0,
    fewestMinutes: 15,
  }

  it('call no low no proof', () => {
    expect(plainText(sensorLowsHeadline(lows, 'mg/dL'))).toBe(
      'No low was recorded. That does not show that there were none.',
    )
    expect(sensorLowReadings(lows, 'mg/dL')).toBeNull()
  })

  it('tell lows of which none lasted', () => {
    const short = { ...lows, below70: 2, lowsInNone: 2 }
    expect(plainText(sensorLowsHeadline(short, 'mmol/L'))).toBe(
      '2 readings below 3.9, no episode of 15 minutes or more.',
    )
    expect(sensorLowReadings(short, 'mg/dL')).toBe(
      '2 readings lie below 70, none below 54. They were not seen to last 15 minutes, and count all the same.',
    )
  })

  it('say where readings come too seldom', () => {
    const seldom = { ...lows, below70: 3, lowsInNone: 3, episodes: null, perWeek: null }
    expect(sensorLowReadings(seldom, 'mg/dL')).toContain('too far apart to tell')
  })

  it('never print a share of lows as nothing', () => {
    expect([0, 0.2, 0.5, 3.6].map(shareText)).toEqual(['0', 'under 1', '1', '4'])
  })

  it('say whether shares are of readings or of time', () => {
    const time = { spacingMinutes: 5, even: true, coveredPercent: 97.4 }
    expect(timeText(time, 14)).toBe(
      'One reading every 5 min: the shares of readings are shares of the time covered. The readings cover 97 % of the 14 days.',
    )
    expect(timeText({ ...time, even: false }, 14)).toContain('shares of readings, not of time')
    expect(timeText(null, 14)).toContain('shares of readings')
  })
})
