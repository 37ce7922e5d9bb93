import { extractText, getDocumentProxy } from 'unpdf'

/** The text of each page, white space as single spaces. */
export async function pageTexts(pdf: Uint8Array): Promise<readonly string[]> {
  // The reader takes the buffer away from its owner.
  const { text } = await extractText(await getDocumentProxy(new Uint8Array(pdf)))
  return text.map((page) => page.replace(/\s+/g, ' '))
}
