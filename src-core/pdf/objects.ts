import { joined } from './trueType'

/** Number of an object in the file, from 1. */
export type Ref = number & { readonly object: unique symbol }

/** Compresses as zlib does (RFC 1950). */
export type Deflate = (bytes: Uint8Array) => Uint8Array

/** The objects of a PDF file (ISO 32000-1, 7.5), written out in the order of their numbers. */
export interface Objects {
  /** A number for an object that is written later. */
  reserve(): Ref
  /** Writes an object: its text between 'obj' and 'endobj'. */
  set(ref: Ref, text: string): void
  add(text: string): Ref
  /** A compressed stream; `entries` are further ones of its dictionary. */
  addStream(bytes: Uint8Array, entries?: string): Ref
  file(root: Ref, info: Ref): Uint8Array
}

export function pdfObjects(deflate: Deflate): Objects {
  const bodies: (readonly Uint8Array[])[] = []
  const reserve = () => bodies.push([]) as Ref
  const set = (ref: Ref, text: string) => {
    bodies[ref - 1] = [latin(text)]
  }
  return {
    reserve,
    set,
    add(text) {
      const ref = reserve()
      set(ref, text)
      return ref
    },
    addStream(bytes, entries = '') {
      const packed = deflate(bytes)
      const ref = reserve()
      const head = `<< /Length ${packed.length} /Filter /FlateDecode ${entries}>>\nstream\n`
      bodies[ref - 1] = [latin(head), packed, latin('\nendstream')]
      return ref
    },
    file(root, info) {
      // The second line tells programs that copy files that this one is no text.
      const pieces: Uint8Array[] = [latin('%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n')]
      let length = pieces[0].length
      const write = (piece: Uint8Array) => {
        pieces.push(piece)
        length += piece.length
      }
      const places = bodies.map((body, i) => {
        const place = length
        write(latin(`${i + 1} 0 obj\n`))
        body.forEach(write)
        write(latin('\nendobj\n'))
        return place
      })
      const start = length
      const size = bodies.length + 1
      const entries = places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('')
      write(latin(`xref\n0 ${size}\n0000000000 65535 f \n${entries}`))
      write(
        latin(
          `trailer\n<< /Size ${size} /Root ${to(root)} /Info ${to(info)} >>\nstartxref\n${start}\n%%EOF\n`,
        ),
      )
      return joined(pieces)
    },
  }
}

/** A reference to an object. */
export function to(ref: Ref): string {
  return `${ref} 0 R`
}

/** Bytes of characters up to U+00FF. */
export function latin(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length)
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i)
  return bytes
}

/** A text string in any script: UTF-16 after its mark (7.9.2.2). */
export function textString(text: string): string {
  let hex = 'FEFF'
  for (let i = 0; i < text.length; i++) hex += hex4(text.charCodeAt(i))
  return `<${hex}>`
}

export function hex4(value: number): string {
  return value.toString(16).toUpperCase().padStart(4, '0')
}

/** 'D:20260604090000Z'. */
export function dateString(ms: number): string {
  const digits = new Date(ms).toISOString().replace(/\D/g, '').slice(0, 14)
  return `(D:${digits}Z)`
}

/** A number with up to two decimals: a hundredth of a point is finer than any printer. */
export function number(value: number): string {
  return String(Math.round(value * 100) / 100)
}
