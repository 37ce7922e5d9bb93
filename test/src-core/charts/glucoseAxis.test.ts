import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { limitLines } from '../../../src-core/charts/glucoseAxis'
import { LIMITS } from '../../../src-core/reference/limits'
import { ENGLISH } from '../../../src-core/wording/english'

describe('the lines of limits', () => {
  it('are the ends of the target and the two limits of lows, each with its number and its words', () => {
    expect(limitLines(ENGLISH, DEFAULT_SETTINGS, 'full').map(({ label }) => label)).toEqual([
      '180 upper end of target',
      '70 low',
      '54 very low',
    ])
    expect(
      limitLines(ENGLISH, { ...DEFAULT_SETTINGS, unit: 'mmol/L' }, 'full').map(({ label }) => label),
    ).toEqual(['10.0 upper end of target', '3.9 low', '3.0 very low'])
  })

  it('keep the line of the low where the target begins elsewhere', () => {
    const pregnancy = {
      ...DEFAULT_SETTINGS,
      targetLow: LIMITS.pregnancyLow,
      targetHigh: LIMITS.pregnancyHigh,
    }
    expect(
      limitLines(ENGLISH, pregnancy, 'full')
        .map(({ label }) => label)
        .sort(),
    ).toEqual(['140 upper end of target', '54 very low', '63 lower end of target', '70 low'].sort())
  })

  it('stand where the printed number stands on the scale', () => {
    // 3.9 mmol/L are 70.26 mg/dL, 10.0 are 180.156.
    const heights = limitLines(ENGLISH, { ...DEFAULT_SETTINGS, unit: 'mmol/L' }, 'full').map(
      ({ mgDl }) => mgDl,
    )
    expect(heights[0]).toBeCloseTo(180.156, 6)
    expect(heights[1]).toBeCloseTo(70.26084, 6)
    expect(limitLines(ENGLISH, DEFAULT_SETTINGS, 'full').map(({ mgDl }) => mgDl)).toEqual([180, 70, 54])
  })

  it('differ in their dashes, so that grey print tells them apart', () => {
    const [, low, veryLow] = limitLines(ENGLISH, DEFAULT_SETTINGS, 'full')
    expect(low.dash).not.toEqual(veryLow.dash)
  })
})
