import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

// The colours of the window. Contrast is computed as WCAG 2.2 defines it ('relative luminance', 'contrast
// ratio'); texts need 4.5 to 1 (success criterion 1.4.3).

const CSS = readFileSync(join(import.meta.dirname, '../../src-renderer/styles.css'), 'utf8')

/** Custom properties of the first :root rule in a piece of the style sheet. */
function roles(css: string): Readonly<Record<string, string>> {
  const rule = /:root \{([^}]*)\}/.exec(css)?.[1] ?? ''
  return Object.fromEntries(
    [...rule.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, hex]) => [name, hex]),
  )
}

const LIGHT = roles(CSS)
const DARK = roles(CSS.slice(CSS.indexOf('@media (prefers-color-scheme: dark)')))

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = parseInt(hex.slice(at, at + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

function contrast(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].toSorted((a, b) => a - b)
  return (light + 0.05) / (dark + 0.05)
}

describe('the colours of the window', () => {
  it('are measured rightly: from 1 to 21 (WCAG 2.2), on white the grey #767676 is the lightest to pass (from memory)', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10)
    expect(contrast('#16202c', '#16202c')).toBe(1)
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5)
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5)
  })

  it('have the same roles in both themes', () => {
    expect(Object.keys(LIGHT)).toEqual(['ink', 'grey', 'rule', 'accent', 'on-accent', 'paper', 'tint'])
    expect(Object.keys(DARK)).toEqual(Object.keys(LIGHT))
  })

  it.each([
    ['light', LIGHT],
    ['dark', DARK],
  ])('keep every text readable: %s', (_theme, { ink, grey, accent, paper, tint, 'on-accent': onAccent }) => {
    for (const text of [ink, grey, accent]) {
      for (const ground of [paper, tint]) expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5)
    }
    expect(contrast(onAccent, accent)).toBeGreaterThanOrEqual(4.5)
  })

  it('stand as roles alone: no rule has a colour of its own', () => {
    const rules = CSS.replace(/:root \{[^}]*\}/g, '')
    expect(rules.match(/#[0-9a-f]{3,8}\b|rgb|hsl|oklch/gi)).toBeNull()
  })
})
