import type { Element } from '../layout/structure'
import { type Objects, type Ref, textString, to } from './objects'

/** Where pieces of an element stand: the page and the number of the piece on it. */
interface Piece {
  readonly page: Ref
  readonly mark: number
}

/**
 * Writes the structure of the pages (ISO 32000-1, 14.7): its elements with the pieces of each, and for each page the
 * elements of its pieces. Elements of which nothing is drawn are left out.
 */
export function writeStructure(
  objects: Objects,
  document: Element,
  pages: readonly { readonly ref: Ref; readonly marked: readonly Element[] }[],
): Ref {
  const pieces = new Map<Element, Piece[]>()
  for (const { ref, marked } of pages) {
    marked.forEach((element, mark) => {
      const list = pieces.get(element)
      if (list === undefined) pieces.set(element, [{ page: ref, mark }])
      else list.push({ page: ref, mark })
    })
  }
  const root = objects.reserve()
  const refs = new Map<Element, Ref>()
  const write = (element: Element, parent: Ref): Ref | null => {
    const own = pieces.get(element) ?? []
    if (own.length === 0 && element.children.length === 0) return null
    const ref = objects.reserve()
    const children = element.children.flatMap((child) => {
      const written = write(child, ref)
      return written === null ? [] : [to(written)]
    })
    const marks = own.map(({ page, mark }) => `<< /Type /MCR /Pg ${to(page)} /MCID ${mark} >>`)
    const scope = element.kind === 'TH' ? ' /A << /O /Table /Scope /Column >>' : ''
    const alternative = element.alternative === undefined ? '' : ` /Alt ${textString(element.alternative)}`
    objects.set(
      ref,
      `<< /Type /StructElem /S /${element.kind} /P ${to(parent)}${scope}${alternative} /K [${[...children, ...marks].join(' ')}] >>`,
    )
    refs.set(element, ref)
    return ref
  }
  const top = write(document, root)
  const parents = pages.map(({ marked }, i) => {
    const list = marked.map((element) => to(refs.get(element) ?? root)).join(' ')
    return `${i} [${list}]`
  })
  const tree = objects.add(`<< /Nums [${parents.join(' ')}] >>`)
  objects.set(
    root,
    `<< /Type /StructTreeRoot /K [${top === null ? '' : to(top)}] /ParentTree ${to(tree)} /ParentTreeNextKey ${pages.length} >>`,
  )
  return root
}
