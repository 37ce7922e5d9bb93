import type { LogFile } from '../../src-core/bridge/contract'
import { getDocument, VerbosityLevel } from 'unpdf/pdfjs'

// The one module that reads PDFs. This build of the library asks for nothing of a browser.

/** A file that a PDF carries, as far as a reader could make it out. */
export interface Attachment extends LogFile {
  readonly description: string
}

/** As the library gives them; its types leave it open. */
type Attachments = Readonly<
  Record<
    string,
    { readonly filename: string; readonly description: string; readonly content?: Uint8Array<ArrayBuffer> }
  >
>

/** What a PDF carries; null where it is none that can be read, or one under a password. */
export async function attachmentsIn(pdf: Uint8Array): Promise<readonly Attachment[] | null> {
  const opening = getDocument({ data: new Uint8Array(pdf), verbosity: VerbosityLevel.ERRORS })
  try {
    const found = (await (await opening.promise).getAttachments()) as Attachments | null
    return Object.values(found ?? {}).map(({ filename, description, content }) => ({
      name: filename,
      bytes: content ?? new Uint8Array(),
      description,
    }))
  } catch {
    return null
  } finally {
    await opening.destroy()
  }
}
