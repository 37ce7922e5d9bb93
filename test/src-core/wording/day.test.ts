import { describe, expect, it } from 'vitest'
import {
  contextPictureDescription,
  dayPictureDescription,
  hoursText,
} from '../../../src-core/wording/english/day'
import { dayTold } from '../../../src-core/told/day'
import { yearsOf } from '../../../src-core/told/years'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

/** Twelve mornings that read 100 to 111, and whatever is given besides. */
function mornings(others: readonly FixtureReading[], unit: 'mg/dL' | 'mmol/L' = 'mg/dL') {
  const rows = Array.from({ length: 12 }, (_, i) => ({
    at: `2026-03-${String(2 + i).padStart(2, '0')} 07:00`,
    value: unit === 'mg/dL' ? 100 + i : 5 + i / 10,
  }))
  return analysisOf([...rows, ...others], { unit })
}

function described(others: readonly FixtureReading[], unit: 'mg/dL' | 'mmol/L' = 'mg/dL'): string {
  const analysis = mornings(others, unit)
  return describedDay(analysis)
}

function describedDay({ readings, periods: [period], settings }: ReturnType<typeof analysisOf>): string {
  return dayPictureDescription(dayTold(readings, period), period, readings, settings.unit, yearsOf(readings))
}

describe('the picture of the day in words', () => {
  it('gives the medians of tested blocks, names the others and says that there was no low', () => {
    // The median of 100 to 111 is 105.5: halves away from zero.
    expect(described([])).toBe(
      'Readings by time of day, 2 to 13 March 2026, in mg/dL. Medians: 06–09 106 (12 readings). ' +
        'Hardly tested: 00–03, 03–06, 09–12, 12–15, 15–18, 18–21, 21–24. No lows.',
    )
  })

  it('gives every low with its value and moment, lowest first', () => {
    const text = described([
      { at: '2026-03-04 15:10', value: 66 },
      { at: '2026-03-05 16:20', value: 'LO' },
      { at: '2026-03-06 17:30', value: 48 },
    ])
    expect(text).toContain(
      '3 lows, lowest first: LO on 5 March, 16:20; 48 on 6 March, 17:30; 66 on 4 March, 15:10.',
    )
  })

  it('is in the printed unit', () => {
    // The median of 5.0 to 6.1 is 5.55.
    const text = described([{ at: '2026-03-04 15:10', value: 3.1 }], 'mmol/L')
    expect(text).toContain('in mmol/L. Medians: 06–09 5.6 (12 readings).')
    expect(text).toContain('1 low, lowest first: 3.1 on 4 March, 15:10.')
  })

  it('counts all lows where only the lowest are read out', () => {
    const lows = Array.from({ length: 30 }, (_, i) => ({
      at: `2026-03-${String(2 + (i % 12)).padStart(2, '0')} ${12 + Math.floor(i / 12)}:00`,
      value: 69 - i,
    }))
    const text = described(lows)
    expect(text).toContain('30 lows, lowest first: 40 on')
    // The numbers from 40 to 59 are the twenty lowest.
    expect(text).toContain('59 on')
    expect(text).not.toContain('60 on')
  })

  it('says so where no block has enough readings', () => {
    const analysis = analysisOf([{ at: '2026-03-02 07:00', value: 104 }])
    expect(describedDay(analysis)).toContain('No block of three hours has enough readings for a median.')
  })
})

describe('the picture around one reading in words', () => {
  it('gives the reading and its neighbours with their moments', () => {
    const { readings } = analysisOf([
      { at: '2026-03-02 07:00', value: 104 },
      { at: '2026-03-02 12:00', value: 255 },
      { at: '2026-03-02 12:03', value: 'HI' },
    ])
    expect(contextPictureDescription(readings, 1, [0, 2], 'mg/dL', 'without-year')).toBe(
      'The hours around 255 on 2 March, 12:00, in mg/dL. ' +
        'Other readings: 104 on 2 March, 07:00; HI on 2 March, 12:03.',
    )
    expect(contextPictureDescription(readings, 1, [], 'mg/dL', 'without-year')).toContain('No other reading.')
  })
})

describe('the hours of a block', () => {
  it('have two digits', () => {
    expect([hoursText(0, 3), hoursText(6, 9), hoursText(21, 24)]).toEqual(['00–03', '06–09', '21–24'])
  })
})
