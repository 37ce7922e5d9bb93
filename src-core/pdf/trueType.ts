// The part of a TrueType font that pages need: widths, and a smaller file with the glyphs that are printed
// (Apple, TrueType Reference Manual; OpenType 1.9: cmap format 12, glyf, hmtx, loca).

/** A font as it lies in its file. Lengths are thousandths of the type size. */
export interface TrueTypeFont {
  readonly name: string
  readonly ascent: number
  readonly descent: number
  readonly capHeight: number
  readonly xHeight: number
  readonly box: readonly number[]
  /** The glyph of a code point; 0, the sign for what is missing, where the font has none. */
  glyphOf(codePoint: number): number
  widthOf(glyph: number): number
  /** A font file with these glyphs and their parts alone; each keeps its number. */
  subset(glyphs: ReadonlySet<number>): Uint8Array
}

/** What a reader of PDF needs of a TrueType file; the rest (names, kerning, other scripts' rules) stays out. */
const KEPT_TABLES = ['cvt ', 'fpgm', 'glyf', 'head', 'hhea', 'hmtx', 'loca', 'maxp', 'prep'] as const

/** Reads a font of the 1,000 units, long offsets and format 12 table that the pages' type comes with. */
export function trueTypeFont(name: string, file: Uint8Array): TrueTypeFont {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength)
  const tables = tablesOf(view)
  const at = (table: string) => {
    const found = tables.get(table)
    if (found === undefined) throw new Error(`The font ${name} has no table '${table}'.`)
    return found
  }
  const head = at('head').offset
  const hhea = at('hhea').offset
  const os2 = at('OS/2').offset
  const hmtx = at('hmtx').offset
  const loca = at('loca').offset
  const glyf = at('glyf').offset
  const glyphCount = view.getUint16(at('maxp').offset + 4)
  const widthCount = view.getUint16(hhea + 34)
  if (view.getUint16(head + 18) !== 1000 || view.getInt16(head + 50) !== 1) {
    throw new Error(`The font ${name} is not of the kind that the pages are made with.`)
  }
  const groups = charactersAt(view, at('cmap').offset)
  const known = new Map<number, number>()
  const placeOf = (glyph: number) =>
    [view.getUint32(loca + 4 * glyph), view.getUint32(loca + 4 * glyph + 4)] as const

  /** The glyphs of which one is put together, itself included. */
  const withParts = (glyph: number, found: Set<number>) => {
    if (found.has(glyph)) return
    found.add(glyph)
    const [from, to] = placeOf(glyph)
    if (to - from > 10 && view.getInt16(glyf + from) < 0) {
      for (const part of partsAt(view, glyf + from + 10)) withParts(part, found)
    }
  }

  return {
    name,
    ascent: view.getInt16(hhea + 4),
    descent: view.getInt16(hhea + 6),
    xHeight: view.getInt16(os2 + 86),
    capHeight: view.getInt16(os2 + 88),
    box: [36, 38, 40, 42].map((offset) => view.getInt16(head + offset)),
    glyphOf(codePoint) {
      let glyph = known.get(codePoint)
      if (glyph === undefined) {
        const group = groups.find(({ first, last }) => codePoint >= first && codePoint <= last)
        glyph = group === undefined ? 0 : group.glyph + codePoint - group.first
        known.set(codePoint, glyph)
      }
      return glyph
    },
    widthOf: (glyph) => view.getUint16(hmtx + 4 * Math.min(glyph, widthCount - 1)),
    subset(glyphs) {
      const kept = new Set<number>()
      withParts(0, kept)
      for (const glyph of glyphs) withParts(glyph, kept)
      const outlines: Uint8Array[] = []
      const places = new DataView(new ArrayBuffer(4 * (glyphCount + 1)))
      const widths = new DataView(new ArrayBuffer(at('hmtx').length))
      let length = 0
      for (let glyph = 0; glyph < glyphCount; glyph++) {
        places.setUint32(4 * glyph, length)
        if (!kept.has(glyph)) continue
        const [from, to] = placeOf(glyph)
        outlines.push(file.subarray(glyf + from, glyf + to))
        length += to - from
        if (glyph < widthCount) widths.setUint32(4 * glyph, view.getUint32(hmtx + 4 * glyph))
      }
      places.setUint32(4 * glyphCount, length)
      const made: Readonly<Record<string, Uint8Array>> = {
        glyf: joined(outlines),
        loca: new Uint8Array(places.buffer),
        hmtx: new Uint8Array(widths.buffer),
      }
      return fontFile(
        KEPT_TABLES.flatMap((tag) => {
          const table = tables.get(tag)
          if (table === undefined) return []
          const { offset, length } = table
          return [{ tag, bytes: made[tag] ?? file.subarray(offset, offset + length) }]
        }),
      )
    },
  }
}

function tablesOf(view: DataView): ReadonlyMap<string, { readonly offset: number; readonly length: number }> {
  const tables = new Map<string, { offset: number; length: number }>()
  for (let i = 0; i < view.getUint16(4); i++) {
    const entry = 12 + 16 * i
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((byte) => view.getUint8(entry + byte)))
    tables.set(tag, { offset: view.getUint32(entry + 8), length: view.getUint32(entry + 12) })
  }
  return tables
}

interface CharacterGroup {
  readonly first: number
  readonly last: number
  /** Glyph of the first. */
  readonly glyph: number
}

function charactersAt(view: DataView, cmap: number): readonly CharacterGroup[] {
  const FULL = 12
  for (let i = 0; i < view.getUint16(cmap + 2); i++) {
    const table = cmap + view.getUint32(cmap + 8 + 8 * i)
    if (view.getUint16(table) !== FULL) continue
    return Array.from({ length: view.getUint32(table + 12) }, (_, group) => {
      const at = table + 16 + 12 * group
      return { first: view.getUint32(at), last: view.getUint32(at + 4), glyph: view.getUint32(at + 8) }
    })
  }
  return []
}

/** The glyphs that a composite one names (glyf table: flags of a component). */
function partsAt(view: DataView, start: number): readonly number[] {
  const WORDS = 0x1
  const SCALE = 0x8
  const MORE = 0x20
  const TWO_SCALES = 0x40
  const MATRIX = 0x80
  const parts: number[] = []
  let at = start
  let flags: number
  do {
    flags = view.getUint16(at)
    parts.push(view.getUint16(at + 2))
    at += flags & WORDS ? 8 : 6
    if (flags & SCALE) at += 2
    else if (flags & TWO_SCALES) at += 4
    else if (flags & MATRIX) at += 8
  } while (flags & MORE)
  return parts
}

/** A font file of these tables, in the order of their names. */
function fontFile(tables: readonly { readonly tag: string; readonly bytes: Uint8Array }[]): Uint8Array {
  const HEAD = 12
  const ENTRY = 16
  const padded = (length: number) => (length + 3) & ~3
  const start = HEAD + ENTRY * tables.length
  const file = new Uint8Array(tables.reduce((sum, { bytes }) => sum + padded(bytes.length), start))
  const view = new DataView(file.buffer)
  const power = Math.floor(Math.log2(tables.length))
  view.setUint32(0, 0x00010000)
  view.setUint16(4, tables.length)
  view.setUint16(6, 16 * 2 ** power)
  view.setUint16(8, power)
  view.setUint16(10, 16 * (tables.length - 2 ** power))
  let offset = start
  tables.forEach(({ tag, bytes }, i) => {
    file.set(bytes, offset)
    const entry = HEAD + ENTRY * i
    for (let c = 0; c < 4; c++) view.setUint8(entry + c, tag.charCodeAt(c))
    view.setUint32(entry + 4, checksum(view, offset, padded(bytes.length)))
    view.setUint32(entry + 8, offset)
    view.setUint32(entry + 12, bytes.length)
    offset += padded(bytes.length)
  })
  return file
}

function checksum(view: DataView, offset: number, length: number): number {
  let sum = 0
  for (let at = offset; at < offset + length; at += 4) sum = (sum + view.getUint32(at)) >>> 0
  return sum
}

export function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0))
  let at = 0
  for (const piece of pieces) {
    whole.set(piece, at)
    at += piece.length
  }
  return whole
}
