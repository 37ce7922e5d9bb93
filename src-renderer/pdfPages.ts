import { getDocument, GlobalWorkerOptions } from 'pdfjs-dist'
import workerAddress from 'pdfjs-dist/build/pdf.worker.min.mjs?url'

// The pages of a PDF drawn in the window. Loaded when the pages are looked at: the library is larger than the window.

/** An open PDF. */
export interface PdfPages {
  readonly count: number
  /** Draws a page, counted from 1, in a width of so many pixels of the screen. */
  readonly draw: (page: number, canvas: HTMLCanvasElement, pixels: number) => Promise<void>
  /** The text of a page, line by line. */
  readonly text: (page: number) => Promise<readonly string[]>
  /** Width of a page in points. */
  readonly points: (page: number) => Promise<number>
  readonly close: () => void
}

/** The bytes are the library's from then on. */
export async function openPdf(bytes: Uint8Array<ArrayBuffer>): Promise<PdfPages> {
  // A port of our own: for a scheme that it does not know the library would start its worker from a blob.
  GlobalWorkerOptions.workerPort ??= new Worker(workerAddress, { type: 'module' })
  const loading = getDocument({ data: bytes, isEvalSupported: false, useWasm: false })
  const document = await loading.promise
  return {
    count: document.numPages,
    async draw(number, canvas, pixels) {
      const page = await document.getPage(number)
      const scale = pixels / page.getViewport({ scale: 1 }).width
      const viewport = page.getViewport({ scale })
      canvas.width = Math.round(viewport.width)
      canvas.height = Math.round(viewport.height)
      await page.render({ canvas, viewport }).promise
    },
    async text(number) {
      const page = await document.getPage(number)
      const { items } = await page.getTextContent()
      const pieces = items.flatMap((item) => ('str' in item ? [item] : []))
      const text = pieces.map(({ str, hasEOL }) => (hasEOL ? `${str}\n` : str)).join('')
      return text.split('\n').filter((line) => line.trim() !== '')
    },
    async points(number) {
      const page = await document.getPage(number)
      return page.getViewport({ scale: 1 }).width
    },
    close: () => void loading.destroy(),
  }
}
