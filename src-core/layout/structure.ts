// What a block is, for those who have the pages read to them (ISO 32000-1, 14.8: standard structure types).

export type ElementKind = 'Document' | 'H1' | 'H2' | 'P' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure'

/** An element of the document's structure; what is drawn refers to the one that it belongs to. */
export interface Element {
  readonly kind: ElementKind
  readonly children: Element[]
  /** What a picture shows, in words. */
  readonly alternative?: string
}

export function element(kind: ElementKind, parent: Element | null, alternative?: string): Element {
  const made: Element = { kind, children: [], ...(alternative !== undefined && { alternative }) }
  parent?.children.push(made)
  return made
}
