/** A piece of a sentence; a strong one is set in bold. */
export type Phrase = string | { readonly strong: string }

export function strong(text: string): Phrase {
  return { strong: text }
}

/** The same words without emphasis. */
export function plainText(phrases: readonly Phrase[]): string {
  return phrases.map((phrase) => (typeof phrase === 'string' ? phrase : phrase.strong)).join('')
}

/** A sentence starts with a capital letter. */
export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
