import { createRequire } from 'node:module'
import { pageFonts } from '../../../src-main/pdf/fonts'

/** The part of the font reader that the tests use; it comes with the PDF library. */
interface Font {
  readonly unitsPerEm: number
  readonly characterSet: readonly number[]
  hasGlyphForCodePoint(codePoint: number): boolean
  glyphForCodePoint(codePoint: number): { readonly advanceWidth: number }
  layout(text: string): {
    readonly advanceWidth: number
    readonly bbox: { readonly minY: number; readonly maxY: number }
  }
}

const { create } = createRequire(import.meta.url)('fontkit') as { create: (bytes: Buffer) => Font }
const [regular, semibold] = pageFonts()

/** Both weights, as the pages embed them. */
export const FONTS = { regular: create(regular.bytes), semibold: create(semibold.bytes) } as const

const known = new Map<string, { top: number; bottom: number }>()

/** How far the ink of a line of letters reaches above and below its baseline, as a share of the type size. */
export function inkOf(text: string, bold: boolean): { readonly top: number; readonly bottom: number } {
  const key = `${bold} ${text}`
  let ink = known.get(key)
  if (ink === undefined) {
    const font = bold ? FONTS.semibold : FONTS.regular
    const { minY, maxY } = font.layout(text).bbox
    ink = { top: maxY / font.unitsPerEm, bottom: -minY / font.unitsPerEm }
    known.set(key, ink)
  }
  return ink
}
