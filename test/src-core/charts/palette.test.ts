import { describe, expect, it } from 'vitest'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'

/** Relative luminance of a colour '#rrggbb' (WCAG 2.1, definition of relative luminance). */
function luminance(color: string): number {
  if (!/^#[0-9a-f]{6}$/i.test(color)) throw new Error(`no hexadecimal colour: ${color}`)
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = parseInt(color.slice(at, at + 2), 16) / 255
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

/** Contrast ratio of two colours (WCAG 2.1, definition of contrast ratio). */
function contrast(one: string, other: string): number {
  const [darker, lighter] = [luminance(one), luminance(other)].sort((a, b) => a - b)
  return (lighter + 0.05) / (darker + 0.05)
}

// On a screen the colours are those of the window, which styles.test.ts measures in both themes.
const PALETTES = [{ name: 'on paper', palette: PRINT_PALETTE, ground: '#ffffff' }] as const

describe('the measure of contrast', () => {
  it('gives the values that WCAG 2.1 names', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9)
    // The grey that just passes 4.5 to 1 on white (common practice).
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5)
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5)
  })
})

describe.each(PALETTES)('colours $name', ({ palette, ground }) => {
  it('of letters have a contrast of 4.5 to 1 or more (WCAG 2.1, 1.4.3)', () => {
    for (const color of [palette.ink, palette.grey, palette.accent]) {
      expect(contrast(color, ground)).toBeGreaterThanOrEqual(4.5)
    }
  })

  it('of marks have a contrast of 3 to 1 or more (WCAG 2.1, 1.4.11)', () => {
    expect(contrast(palette.ink, ground)).toBeGreaterThanOrEqual(3)
    expect(contrast(palette.accent, ground)).toBeGreaterThanOrEqual(3)
  })

  it('stand on the ground that the picture is drawn on', () => {
    expect(palette.paper).toBe(ground)
  })

  it('order themselves by weight without hue: ink before grey before rules', () => {
    const strengths = [palette.ink, palette.grey, palette.rule].map((color) => contrast(color, ground))
    expect(strengths[0]).toBeGreaterThan(strengths[1])
    expect(strengths[1]).toBeGreaterThan(strengths[2])
  })
})
