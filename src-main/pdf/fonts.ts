import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

/** A font that the pages embed: Source Sans 3, SIL Open Font License 1.1. */
export interface PageFont {
  /** Its PostScript name, by which the PDF library finds in pictures what it has loaded for the text. */
  readonly name: string
  readonly bytes: Buffer
}

/** Regular and semibold, without the tables that the pages do not need. The package stays outside the bundle. */
export function pageFonts(): readonly [regular: PageFont, semibold: PageFont] {
  const folder = join(dirname(createRequire(import.meta.url).resolve('source-sans/package.json')), 'TTF')
  const font = (name: string): PageFont => ({ name, bytes: lean(readFileSync(join(folder, `${name}.ttf`))) })
  return [font('SourceSans3-Regular'), font('SourceSans3-Semibold')]
}

/** Ligatures, kerning and the like: the library spends more time on them than on all the rest of the pages. */
const TABLES_LEFT_OUT = new Set(['GSUB', 'GPOS', 'GDEF'])
/** A 'post' table of this version names no glyphs; the names are not needed either. */
const NO_GLYPH_NAMES = 0x00030000

/** Hides tables of an OpenType font from its readers (OpenType specification 1.9, table directory; 'post'). */
function lean(font: Buffer): Buffer {
  const tables = font.readUInt16BE(4)
  for (let i = 0; i < tables; i++) {
    const record = 12 + 16 * i
    const tag = font.toString('latin1', record, record + 4)
    if (TABLES_LEFT_OUT.has(tag)) font.write('    ', record, 'latin1')
    if (tag === 'post') font.writeUInt32BE(NO_GLYPH_NAMES, font.readUInt32BE(record + 8))
  }
  return font
}
