import type { PdfPages } from './pdfPages'

/** Fine enough for small letters, small enough for the memory of a dozen pages. */
const DOTS_PER_INCH = 200
const POINTS_PER_INCH = 72

/** Prints the pages as they are: drawn sheet by sheet, then handed to the print dialog of browser or desktop. */
export async function printPages(pages: PdfPages, paper: 'A4' | 'Letter'): Promise<void> {
  const sheets = document.createElement('div')
  sheets.className = `print-sheets print-${paper}`
  for (let page = 1; page <= pages.count; page++) {
    const canvas = document.createElement('canvas')
    await pages.draw(page, canvas, Math.round(((await pages.points(page)) / POINTS_PER_INCH) * DOTS_PER_INCH))
    sheets.append(canvas)
  }
  document.body.append(sheets)
  // The dialog returns when it is closed; where it does not wait, the sheets stay until printing is over.
  window.addEventListener('afterprint', () => sheets.remove(), { once: true })
  window.print()
}
