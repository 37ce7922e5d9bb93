import { describe, expect, it } from 'vitest'
import type { GapsTold } from '../../../src-core/told/gaps'
import { dayNumber } from '../../../src-core/units/wallClock'
import {
  extentLine,
  gapsSentence,
  NAME_LINE,
  pageNumberText,
  purposeLine,
  SAFETY_LINE,
} from '../../../src-core/wording/english/head'

const day = (month: number, dayOfMonth: number) => dayNumber(2026, month, dayOfMonth) ?? NaN

const EXTENT = {
  from: day(3, 2),
  to: day(5, 30),
  n: 440,
  days: 90,
  daysWithReadings: 88,
  readingsPerDay: 440 / 90,
  kind: 'finger-stick',
  meters: 1,
  unit: 'mg/dL',
} as const

describe('the line that says what the readings are', () => {
  it('names days, readings, meters and unit', () => {
    expect(extentLine(EXTENT)).toBe(
      '2 March to 30 May 2026 · 440 finger-sticks on 88 of 90 days, 4.9 a day · one meter · mg/dL',
    )
  })

  it('agrees with a single reading on a single day', () => {
    const single = { ...EXTENT, to: EXTENT.from, n: 1, days: 1, daysWithReadings: 1, readingsPerDay: 1 }
    expect(extentLine(single)).toBe(
      '2 March 2026 · 1 finger-stick on 1 of 1 day, 1.0 a day · one meter · mg/dL',
    )
  })

  it('says sensor of a sensor, and counts without separators', () => {
    const sensor = { ...EXTENT, n: 25920, readingsPerDay: 288, kind: 'sensor', meters: 2 } as const
    expect(extentLine(sensor)).toContain(
      '· 25920 sensor readings on 88 of 90 days, 288.0 a day · two meters ·',
    )
  })
})

it('the sentence on gaps tells how old the log is and which days hold no reading', () => {
  const told = (gaps: Partial<GapsTold>) =>
    gapsSentence(
      { ended: null, longest: [{ from: day(5, 3), to: day(5, 12) }], further: 0, ...gaps },
      'without-year',
    )
  expect(told({ ended: { days: 14 } })).toBe('Ends 14 days before printing; no readings 3–12 May.')
  expect(told({ ended: { days: 1 }, longest: [] })).toBe('Ends 1 day before printing.')
  expect(told({ ended: { moreThanYears: 3 }, longest: [] })).toBe('Ends more than 3 years before printing.')
  expect(told({ further: 2 })).toBe('No readings 3–12 May and 2 further stretches.')
  expect(told({ further: 1 })).toContain('and 1 further stretch.')
})

describe('what every page says', () => {
  it('leaves doses alone and puts treating before testing', () => {
    expect(SAFETY_LINE).toBe(
      'Do not change doses from these pages. Feeling or reading low: treat first, test afterwards.',
    )
  })

  it('leaves a blank for the name, its number, and its purpose', () => {
    expect(NAME_LINE).toBe('Name / date of birth')
    expect(pageNumberText(1, 5)).toBe('page 1 of 5')
    expect(purposeLine('finger-stick')).toBe('Home finger-stick readings, for discussion with the care team.')
    expect(purposeLine('sensor')).toContain('sensor readings')
  })
})
