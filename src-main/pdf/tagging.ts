import type { Block, PageDocument } from '../../src-core/report/document'

// The structure of the pages (ISO 32000-1, 14.7 and 14.8): headings, paragraphs, tables and pictures in reading order, so
// that a screen reader can read them. The PDF library can write one and marks nothing by itself; everything that it draws
// goes through four methods of its renderer, in the order of the content. What belongs to no element of the content is an
// artifact: rules, heads and feet of the pages, a table's head that comes again.

/** An element of the structure while the pages are laid out. */
interface Tag {
  readonly type: string
  /** In points from the top of the page, for figures. */
  readonly options: { alt?: string; scope?: string; bbox?: readonly number[] }
  readonly kids: Tag[]
  /** What was drawn of it, in the library's own form. */
  readonly marks: unknown[]
}

interface StructureElement {
  add(kid: unknown): void
  end(): void
}

/** Of the library's document what is needed here. */
export interface StructuredDocument {
  struct(type: string, options: object): StructureElement
  addStructure(root: StructureElement): void
  markStructureContent(type: string): unknown
  markContent(type: string, options: object): void
  endMarkedContent(): void
  /** Attaches a file. */
  file(bytes: Buffer, options: Readonly<Record<string, string | Date>>): void
}

/** A node of the content, or what is drawn of one. */
interface Node {
  tag?: Tag
  /** The same of a line and its copies: those on later pages are artifacts. */
  first?: object
  readonly x?: number
  readonly y?: number
  readonly _width?: number
  readonly _height?: number
}

type Draw = (this: { pdfDocument: StructuredDocument }, item: Node, ...rest: unknown[]) => unknown
const DRAWING = ['renderLine', 'renderVector', 'renderSVG', 'renderImage'] as const

let isPrepared = false

/** Makes the library mark what it draws; once for a process. Every document that it makes from then on must be tagged. */
export async function prepareTagging(): Promise<void> {
  if (isPrepared) return
  isPrepared = true
  const layout = classOf(await import('pdfmake/js/LayoutBuilder.js'))
  const lines = layout.prototype as { buildNextLine: (this: object, node: Node) => Node | null }
  const nextLine = lines.buildNextLine
  lines.buildNextLine = function (node) {
    const line = nextLine.call(this, node)
    if (line && node.tag) Object.assign(line, { tag: node.tag, first: {} })
    return line
  }
  const drawn = new WeakSet()
  const renderer = classOf(await import('pdfmake/js/Renderer.js')).prototype as Record<
    (typeof DRAWING)[number],
    Draw
  >
  for (const method of DRAWING) {
    const draw = renderer[method]
    renderer[method] = function (item, ...rest) {
      const { tag, first } = item
      if (tag && !(first && drawn.has(first))) {
        if (first) drawn.add(first)
        const { x = 0, y = 0, _width = 0, _height = 0 } = item
        if (tag.type === 'Figure') tag.options.bbox = [x, y, x + _width, y + _height]
        tag.marks.push(this.pdfDocument.markStructureContent(tag.type))
      } else this.pdfDocument.markContent('Artifact', { type: tag ? 'Pagination' : 'Layout' })
      const drawnItem = draw.call(this, item, ...rest)
      this.pdfDocument.endMarkedContent()
      return drawnItem
    }
  }
}

/** The class that a module of the library gives, whichever way it was bundled. */
function classOf({ default: given }: { readonly default: Class | { readonly default: Class } }): Class {
  return 'default' in given ? given.default : given
}
type Class = { readonly prototype: object }

/** Gives each piece of the content its element, in reading order; the content is written into. */
export function tagContent(content: PageDocument['content']): Tag {
  const root = newTag('Document')
  for (const block of content) tagBlock(block, root)
  return root
}

function newTag(type: string, parent?: Tag, options: Tag['options'] = {}): Tag {
  const tag: Tag = { type, options, kids: [], marks: [] }
  parent?.kids.push(tag)
  return tag
}

function tagBlock(block: Block, parent: Tag): void {
  if ('text' in block) setTag(block, newTag(block.level === undefined ? 'P' : `H${block.level}`, parent))
  // The number of a page ends the sentence before it.
  else if ('pageReference' in block) setTag(block, parent.kids.at(-1) ?? newTag('P', parent))
  else if ('svg' in block) setTag(block, newTag('Figure', parent, { alt: block.alt }))
  else if ('table' in block) {
    const table = newTag('Table', parent)
    block.table.body.forEach((row, nth) => {
      const isHead = nth < (block.table.headerRows ?? 0)
      const tr = newTag('TR', table)
      for (const cell of row) setTag(cell, isHead ? newTag('TH', tr, { scope: 'Column' }) : newTag('TD', tr))
    })
  } else if ('columns' in block && block.isListItem) tagItem(block.columns, parent)
  else if ('stack' in block) for (const kid of block.stack) tagBlock(kid, parent)
  else if ('columns' in block) for (const kid of block.columns) tagBlock(kid, parent)
}

/** Items that follow each other are one list. */
function tagItem([label, ...body]: readonly Block[], parent: Tag): void {
  const before = parent.kids.at(-1)
  const item = newTag('LI', before?.type === 'L' ? before : newTag('L', parent))
  setTag(label, newTag('Lbl', item))
  const said = newTag('LBody', item)
  for (const block of body) tagBlock(block, said)
}

function setTag(block: Block, tag: Tag): void {
  Object.assign(block, { tag })
}

/** Writes the structure; to be called once everything is drawn. */
export function writeStructure(document: StructuredDocument, root: Tag): void {
  const element = ({ type, options, kids, marks }: Tag): StructureElement => {
    const made = document.struct(type, options)
    for (const mark of marks) made.add(mark)
    for (const kid of kids) made.add(element(kid))
    made.end()
    return made
  }
  document.addStructure(element(root))
}
