import { describe, expect, it } from 'vitest'
import { textWidth } from '../../../src-core/charts/textWidth'
import { FONTS } from './embeddedFont'

const PRINTABLE = Array.from({ length: 0x7e - 0x20 + 1 }, (_, i) => String.fromCharCode(0x20 + i))

/** Advance width of a character in the embedded font, thousandths of the type size. */
function advance(character: string, bold: boolean): number {
  const font = bold ? FONTS.semibold : FONTS.regular
  return (font.glyphForCodePoint(character.codePointAt(0) ?? 0).advanceWidth * 1000) / font.unitsPerEm
}

describe('the width of letters', () => {
  it.each([
    { weight: 'regular', bold: false },
    { weight: 'semibold', bold: true },
  ])('is that of the embedded font from space to tilde, $weight', ({ bold }) => {
    const wrong = PRINTABLE.filter((c) => Math.abs(textWidth(c, 1000, bold) - advance(c, bold)) > 0.5)
    expect(wrong).toEqual([])
  })

  it('of further characters is that of the wider weight', () => {
    for (const character of ['–', '−', '·', '→']) {
      const widest = Math.max(advance(character, false), advance(character, true))
      expect(Math.abs(textWidth(character, 1000) - widest)).toBeLessThanOrEqual(0.5)
      expect(textWidth(character, 1000)).toBe(textWidth(character, 1000, true))
    }
  })

  it('is never underestimated for a character that it does not know', () => {
    for (const character of ['é', 'ß', 'µ', '±', '≥', '■']) {
      expect(textWidth(character, 1000, true)).toBeGreaterThanOrEqual(advance(character, true))
    }
  })

  it('grows with the size and adds up along the line', () => {
    expect(textWidth('48 · 3 Mar', 14)).toBeCloseTo(2 * textWidth('48 · 3 Mar', 7), 9)
    expect(textWidth('ab', 7)).toBeCloseTo(textWidth('a', 7) + textWidth('b', 7), 9)
    expect(textWidth('', 7)).toBe(0)
  })

  it('is at least that of the line as it is set, with kerning', () => {
    for (const text of ['48 · 3 Mar', 'LO · 28 September 2026 ?', '180 upper end of target', 'AV To Wa']) {
      for (const bold of [false, true]) {
        const font = bold ? FONTS.semibold : FONTS.regular
        const set = (font.layout(text).advanceWidth * 7) / font.unitsPerEm
        expect(textWidth(text, 7, bold)).toBeGreaterThanOrEqual(set - 0.05)
      }
    }
  })
})
