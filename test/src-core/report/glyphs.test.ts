import { describe, expect, it } from 'vitest'
import { hasGlyph } from '../../../src-core/report/glyphs'
import { FONTS } from '../charts/embeddedFont'

const LAST_CODE_POINT = 0x10ffff

describe('the list of glyphs', () => {
  it('holds exactly the characters for which both embedded weights have a glyph to be seen', () => {
    const { regular, semibold } = FONTS
    const wrong: string[] = []
    for (let code = 0x20; code <= LAST_CODE_POINT; code++) {
      const held = regular.hasGlyphForCodePoint(code) && semibold.hasGlyphForCodePoint(code)
      if (held !== hasGlyph(code)) wrong.push(code.toString(16))
    }
    // The fonts name the byte-order mark, but nobody would see it.
    expect(wrong).toEqual(['feff'])
    expect(hasGlyph(0xfeff)).toBe(false)
  })

  it('holds no control character, although fonts may name some', () => {
    for (let code = 0; code < 0x20; code++) expect(hasGlyph(code)).toBe(false)
    for (let code = 0x7f; code < 0xa0; code++) expect(hasGlyph(code)).toBe(false)
  })

  it('holds no mark that turns the direction of writing', () => {
    const turns = [
      0x200e, 0x200f, 0x061c, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069,
    ]
    expect(turns.filter(hasGlyph)).toEqual([])
  })

  it('holds what the pages themselves print', () => {
    const characters = '■□→–−·±×≥≤’‘…µ%/é0123456789'
    const missing = [...characters].filter((character) => !hasGlyph(character.codePointAt(0) ?? 0))
    expect(missing).toEqual([])
  })
})
