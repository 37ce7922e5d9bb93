import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Block, Run } from '../../../src-core/report/document'
import {
  oneLine,
  printable,
  printableBlocks,
  REPLACEMENT,
  shortened,
  softened,
} from '../../../src-core/report/printable'
import { FONTS } from '../charts/embeddedFont'

const inFont = (character: string) => FONTS.regular.hasGlyphForCodePoint(character.codePointAt(0) ?? 0)

describe('text made printable', () => {
  it('keeps every character that the type holds', () => {
    const text = 'Frühstück, crêpes – 3½ Äpfel; ночь, βράδυ, łyżka, 8 µL ≥ 70 % “ok”'
    expect(printable(text)).toBe(text)
  })

  it.each([
    { what: 'an emoji', text: 'sick 🤒 today', result: 'sick □ today' },
    { what: 'another script', text: '朝食後', result: '□□□' },
    { what: 'Arabic', text: 'قبل', result: '□□□' },
    { what: 'a control character', text: 'a\u0000b\u0007c', result: 'a□b□c' },
    { what: 'half of a pair', text: 'a\ud83eb', result: 'a□b' },
    { what: 'a byte-order mark in the middle', text: 'a\ufeffb', result: 'a□b' },
    { what: 'a mark that turns the direction of writing', text: 'was\u202e80', result: 'was□80' },
    { what: 'an invisible joiner', text: 'a\u200db', result: 'a□b' },
  ])('shows a sign for $what', ({ text, result }) => {
    expect(REPLACEMENT).toBe('□')
    expect(printable(text)).toBe(result)
  })

  it('puts lines and tabs into one line', () => {
    expect(printable('one\r\ntwo\tthree\u2028four\u0085five')).toBe('one two three four five')
  })

  it('never drops a character but runs of line ends and tabs, and prints only what the font holds', () => {
    const codePoint = fc.oneof(fc.nat(0xff), fc.nat(0x2fff), fc.nat(0x10ffff))
    fc.assert(
      fc.property(fc.array(codePoint, { maxLength: 40 }), (codes) => {
        const text = String.fromCodePoint(...codes)
        const expected = [...text.replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, ' ')].map((character) =>
          inFont(character) && character >= ' ' && character !== '\ufeff' ? character : REPLACEMENT,
        )
        expect(printable(text)).toBe(expected.join(''))
      }),
    )
  })
})

describe('shortened text', () => {
  it('shows where something was cut', () => {
    expect(shortened('abcdef', 6)).toBe('abcdef')
    expect(shortened('abcdefg', 6)).toBe('abcde…')
  })

  it('counts a pair of surrogates as one character and never cuts it in two', () => {
    expect(shortened('🤒🤒🤒', 3)).toBe('🤒🤒🤒')
    expect(shortened('🤒🤒🤒🤒', 3)).toBe('🤒🤒…')
  })
})

describe('very long words', () => {
  it('get places where a line may end, and lose nothing', () => {
    const word = 'x'.repeat(95)
    const parts = softened(word).split('\u200b')
    expect(parts.map((part) => part.length)).toEqual([18, 18, 18, 18, 18, 5])
    expect(parts.join('')).toBe(word)
    expect(softened('x'.repeat(18))).toBe('x'.repeat(18))
    expect(softened('short words only')).toBe('short words only')
  })

  it('are cut before they are parted', () => {
    expect(oneLine(`  ${'y'.repeat(50)}  `, 35)).toBe(`${'y'.repeat(18)}\u200b${'y'.repeat(16)}…`)
  })
})

describe('blocks made printable', () => {
  it('in every text, wherever it stands, and nowhere else', () => {
    const blocks: readonly Block[] = [
      { text: 'a 🤒' },
      { text: ['b ', { text: '朝', bold: true }] },
      { columns: [{ stack: [{ text: 'c\u0007' }] }] },
      { table: { widths: ['*'], body: [[{ text: 'd 🤒' }]] }, layout: 'thinRules' },
      { svg: '<svg>🤒</svg>', alt: '', width: 10, height: 5 },
    ]
    expect(printableBlocks(blocks)).toEqual([
      { text: 'a □' },
      { text: ['b ', { text: '□', bold: true }] },
      { columns: [{ stack: [{ text: 'c□' }] }] },
      { table: { widths: ['*'], body: [[{ text: 'd □' }]] }, layout: 'thinRules' },
      { svg: '<svg>🤒</svg>', alt: '', width: 10, height: 5 },
    ])
    expect(blocks[0]).toEqual({ text: 'a 🤒' })
  })

  it('keep a unit in one piece with what follows it, in the style of its run', () => {
    const [block] = printableBlocks([{ text: ['Mean ', { text: '154 mg/dL, SD 38 mmol/L.', bold: true }] }])
    const runs = (block as { text: readonly (string | Run)[] }).text
    expect(runs).toEqual([
      'Mean ',
      { text: '154 ', bold: true },
      { text: 'mg/dL,', bold: true, noWrap: true },
      { text: ' SD 38 ', bold: true },
      { text: 'mmol/L.', bold: true, noWrap: true },
    ])
    expect(printableBlocks([{ text: '' }])).toEqual([{ text: '' }])
  })
})
