import { readFileSync } from 'node:fs'
import { deflateSync } from 'node:zlib'
import { pdfFile } from '../src-core/pdf/pdfFile'
import { trueTypeFont } from '../src-core/pdf/trueType'
import type { PageDocument } from '../src-core/report/document'
import { fontFiles } from './fonts'

export interface RenderOptions {
  /** Milliseconds since 1970-01-01T00:00Z, written into the file as its date of making. */
  readonly madeAtMs: number
}

/**
 * The pages as the bytes of a PDF. The same document and date give the same bytes. Nothing is fetched, and no
 * file but the program's own fonts is read.
 */
export function renderPdf(document: PageDocument, { madeAtMs }: RenderOptions): Uint8Array {
  const fonts = fontFiles()
  return pdfFile(document, {
    regular: trueTypeFont('SourceSans3-Regular', readFileSync(fonts.regular)),
    semibold: trueTypeFont('SourceSans3-Semibold', readFileSync(fonts.semibold)),
    deflate: (bytes) => deflateSync(bytes),
    madeAtMs,
  })
}
