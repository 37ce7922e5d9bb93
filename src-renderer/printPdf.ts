/** The PDF that was printed last, in a frame that is not seen. */
let last: { readonly frame: HTMLIFrameElement; readonly address: string } | null = null

/**
 * Hands a PDF to the print dialog of the browser through the browser's own PDF viewer: what is printed is the PDF, its
 * text as text. Gives whether it could: some browsers have no viewer, or let no page print from it.
 */
export async function printPdf(bytes: Uint8Array<ArrayBuffer>): Promise<boolean> {
  // The dialog may still look at the one before until then: nothing tells when it is closed.
  if (last !== null) {
    last.frame.remove()
    URL.revokeObjectURL(last.address)
    last = null
  }
  if (!navigator.pdfViewerEnabled) return false
  const address = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }))
  const frame = document.createElement('iframe')
  frame.className = 'print-frame'
  frame.setAttribute('aria-hidden', 'true')
  // Keys stay with the window: in the frame Ctrl+P would print what it holds, whatever was changed since.
  frame.inert = true
  frame.src = address
  last = { frame, address }
  await new Promise((loaded) => {
    frame.addEventListener('load', loaded, { once: true })
    document.body.append(frame)
  })
  try {
    frame.contentWindow?.print()
    return true
  } catch {
    return false
  }
}
