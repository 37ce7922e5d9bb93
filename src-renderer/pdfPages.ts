import { getDocument, PDFWorker } from 'pdfjs-dist'
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
  /** Gives the PDF back once all that was asked of it has its answer; what is asked after that is refused. */
  readonly close: () => Promise<void>
}

/**
 * One for all PDFs, which none takes with it: with a worker of the library's own choice, a PDF that goes would end the
 * worker of one that is just being opened. A port of our own: for a scheme that it does not know the library would start
 * its worker from a blob.
 */
let worker: PDFWorker | null = null

/** The bytes are the library's from then on. */
export async function openPdf(bytes: Uint8Array<ArrayBuffer>): Promise<PdfPages> {
  worker ??= PDFWorker.create({ port: new Worker(workerAddress, { type: 'module' }) })
  const loading = getDocument({ data: bytes, isEvalSupported: false, useWasm: false, worker })
  const document = await loading.promise
  const asked = new Set<Promise<unknown>>()
  let isClosed = false
  async function pageOf(number: number) {
    const page = await document.getPage(number)
    if (isClosed) throw new Error('The PDF is closed')
    return page
  }
  /** Passes a question on to the library, which is not closed before it has answered. */
  function ask<Answer>(question: () => Promise<Answer>): Promise<Answer> {
    if (isClosed) return Promise.reject(new Error('The PDF is closed'))
    const answer = question()
    asked.add(answer)
    const isAnswered = () => void asked.delete(answer)
    answer.then(isAnswered, isAnswered)
    return answer
  }
  return {
    count: document.numPages,
    draw: (number, canvas, pixels) =>
      ask(async () => {
        const page = await pageOf(number)
        const scale = pixels / page.getViewport({ scale: 1 }).width
        const viewport = page.getViewport({ scale })
        canvas.width = Math.round(viewport.width)
        canvas.height = Math.round(viewport.height)
        await page.render({ canvas, viewport }).promise
      }),
    text: (number) =>
      ask(async () => {
        const page = await pageOf(number)
        const { items } = await page.getTextContent()
        const pieces = items.flatMap((item) => ('str' in item ? [item] : []))
        const text = pieces.map(({ str, hasEOL }) => (hasEOL ? `${str}\n` : str)).join('')
        return text.split('\n').filter((line) => line.trim() !== '')
      }),
    points: (number) =>
      ask(async () => {
        const page = await pageOf(number)
        return page.getViewport({ scale: 1 }).width
      }),
    async close() {
      isClosed = true
      // A drawing is not cancelled: the worker would go on with it, and may complain where its document goes meanwhile.
      await Promise.allSettled(asked)
      await loading.destroy()
    },
  }
}
