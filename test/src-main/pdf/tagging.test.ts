import { getDocumentProxy } from 'unpdf'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Block, Paragraph } from '../../../src-core/report/document'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { documentOf, pdfOf } from '../../helpers/pages'

// The structure of the PDF's pages as another library reads it (ISO 32000-1, 14.7 and 14.8).

interface Element {
  readonly role?: string
  readonly alt?: string
  readonly type?: string
  readonly id?: string
  readonly children?: readonly Element[]
}

interface PageStructure {
  readonly tree: Element
  /** Texts by the marked content that they belong to; those of artifacts under ''. */
  readonly texts: ReadonlyMap<string, string>
}

/** The structure of each page with the texts of its marked content. */
async function structureOf(pdf: Uint8Array): Promise<readonly PageStructure[]> {
  const document = await getDocumentProxy(new Uint8Array(pdf))
  const pages: PageStructure[] = []
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number)
    const tree = (await page.getStructTree()) as Element
    const { items } = await page.getTextContent({ includeMarkedContent: true })
    const texts = new Map<string, string>()
    const open: string[] = []
    for (const item of items) {
      if ('str' in item) {
        const id = open.findLast((one) => one !== '') ?? ''
        texts.set(id, `${texts.get(id) ?? ''}${item.str}${item.hasEOL ? ' ' : ''}`)
      } else if (item.type.startsWith('begin')) open.push(item.id ?? '')
      else open.pop()
    }
    pages.push({ tree, texts })
  }
  return pages
}

function textOf(element: Element, texts: ReadonlyMap<string, string>): string {
  if (element.type === 'content') return texts.get(element.id ?? '') ?? ''
  return (element.children ?? []).map((kid) => textOf(kid, texts)).join(' ').replace(/\s+/g, ' ').trim()
} // prettier-ignore

/** All elements of a role below one, in reading order. */
function all(element: Element, role: string): readonly Element[] {
  return [
    ...(element.role === role ? [element] : []),
    ...(element.children ?? []).flatMap((kid) => all(kid, role)),
  ]
}

function written(text: Paragraph['text']): string {
  return typeof text === 'string'
    ? text
    : text.map((run) => (typeof run === 'string' ? run : run.text)).join('')
}

/** The headings of sections in a block of the document. */
function headingsOf(block: Block): readonly string[] {
  if ('text' in block) return block.level === 2 ? [written(block.text)] : []
  if ('stack' in block) return block.stack.flatMap(headingsOf)
  return 'columns' in block ? block.columns.flatMap(headingsOf) : []
}

const ANALYSIS = analysisOf(inventedLog({ days: 60, repeats: 0.2 }))

describe('the structure of the pages', () => {
  let pages: readonly PageStructure[]
  beforeAll(async () => {
    pages = await structureOf(await pdfOf(ANALYSIS))
  })

  it('has the title first, and the headings of the document in its order', () => {
    const [first] = pages
    expect(first.tree.children?.[0]?.children?.[0]?.role).toBe('H1')
    const headings = pages.flatMap(({ tree, texts }) => all(tree, 'H2').map((one) => textOf(one, texts)))
    expect(headings.length).toBeGreaterThan(8)
    expect(headings).toEqual(documentOf(ANALYSIS).content.flatMap(headingsOf))
  })

  it('names what each picture shows', () => {
    const figures = pages.flatMap(({ tree }) => all(tree, 'Figure'))
    expect(figures.length).toBeGreaterThan(1)
    for (const { alt } of figures) expect(alt?.length ?? 0).toBeGreaterThan(40)
  })

  it('has tables of rows with as many cells as heads, each column headed', () => {
    const tables = pages.flatMap(({ tree }) => all(tree, 'Table'))
    expect(tables.length).toBeGreaterThan(1)
    for (const table of tables.filter((one) => all(one, 'TH').length > 0)) {
      const heads = all(table, 'TH').length
      for (const row of all(table, 'TR')) expect(row.children).toHaveLength(heads)
    }
  })

  it('keeps the heads and feet of the pages out of the reading order, and leaves no other text out', () => {
    for (const { tree, texts } of pages.slice(1)) {
      expect(textOf(tree, texts)).not.toContain('Page ')
      expect(texts.get('') ?? '').toMatch(/Visit report/)
    }
    const foot = pages.map(({ texts }) => texts.get('') ?? '')
    // Of a page: its running head, its foot, and heads of a table that come again. Nothing as long as a section.
    for (const text of foot) expect(text.length).toBeLessThan(700)
  })
})
