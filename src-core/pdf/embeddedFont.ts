import { hex4, latin, type Objects, type Ref, to } from './objects'
import type { TrueTypeFont } from './trueType'

/** A font on its way into a file: remembers what is printed with it. */
export interface EmbeddedFont {
  readonly widthOf: (text: string, size: number) => number
  /** The text as numbers of glyphs, '<00240025>'. */
  encode(text: string): string
  /** Writes the font with the glyphs that were printed (ISO 32000-1, 9.7). */
  write(objects: Objects, ref: Ref, tag: string): void
}

export function embeddedFont(font: TrueTypeFont): EmbeddedFont {
  /** Glyphs that were printed, each with the character that it stands for. */
  const printed = new Map<number, string>()
  const asciiWidths = Array.from({ length: 0x80 }, (_, code) => font.widthOf(font.glyphOf(code)))
  return {
    widthOf(text, size) {
      let thousandths = 0
      for (const character of text) {
        const code = character.codePointAt(0) ?? 0
        thousandths += asciiWidths[code] ?? font.widthOf(font.glyphOf(code))
      }
      return (thousandths * size) / 1000
    },
    encode(text) {
      let hex = ''
      for (const character of text) {
        const glyph = font.glyphOf(character.codePointAt(0) ?? 0)
        if (!printed.has(glyph)) printed.set(glyph, character)
        hex += hex4(glyph)
      }
      return `<${hex}>`
    },
    write(objects, ref, tag) {
      const glyphs = [...printed.keys()].sort((a, b) => a - b)
      const name = `/${tag}+${font.name}`
      const file = font.subset(new Set(glyphs))
      const fontFile = objects.addStream(file, `/Length1 ${file.length} `)
      const NONSYMBOLIC = 32
      const descriptor = objects.add(
        `<< /Type /FontDescriptor /FontName ${name} /Flags ${NONSYMBOLIC} /FontBBox [${font.box.join(' ')}]` +
          ` /ItalicAngle 0 /Ascent ${font.ascent} /Descent ${font.descent} /CapHeight ${font.capHeight}` +
          ` /XHeight ${font.xHeight} /StemV 80 /FontFile2 ${to(fontFile)} >>`,
      )
      const widths = glyphs.map((glyph) => `${glyph} [${font.widthOf(glyph)}]`).join(' ')
      const descendant = objects.add(
        `<< /Type /Font /Subtype /CIDFontType2 /BaseFont ${name} /CIDToGIDMap /Identity` +
          ` /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>` +
          ` /FontDescriptor ${to(descriptor)} /DW ${font.widthOf(0)} /W [${widths}] >>`,
      )
      const unicode = objects.addStream(latin(toUnicode(glyphs, printed)))
      objects.set(
        ref,
        `<< /Type /Font /Subtype /Type0 /BaseFont ${name} /Encoding /Identity-H` +
          ` /DescendantFonts [${to(descendant)}] /ToUnicode ${to(unicode)} >>`,
      )
    },
  }
}

/** Which character each glyph stands for, so that text can be found and copied (9.10.3). */
function toUnicode(glyphs: readonly number[], printed: ReadonlyMap<number, string>): string {
  /** Entries that one section may hold. */
  const MOST = 100
  const entries = glyphs.map((glyph) => {
    const text = printed.get(glyph) ?? ''
    return `<${hex4(glyph)}> <${[...Array(text.length).keys()].map((i) => hex4(text.charCodeAt(i))).join('')}>`
  })
  let sections = ''
  for (let i = 0; i < entries.length; i += MOST) {
    const part = entries.slice(i, i + MOST)
    sections += `${part.length} beginbfchar\n${part.join('\n')}\nendbfchar\n`
  }
  return (
    '/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n' +
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n' +
    '/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n' +
    '1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n' +
    `${sections}endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n`
  )
}
