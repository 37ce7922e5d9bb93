/** Hands the finished PDF to the browser's or the desktop program's own way of saving a file. */
export function savePdf(fileName: string, bytes: Uint8Array<ArrayBuffer>): void {
  saveFile(fileName, bytes, 'application/pdf')
}

/** Hands any file over in the same way. */
export function saveFile(fileName: string, bytes: Uint8Array<ArrayBuffer>, type: string): void {
  const address = URL.createObjectURL(new Blob([bytes], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = fileName
  link.click()
  // The saving may start after this; the data go when the window does or after a minute.
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
