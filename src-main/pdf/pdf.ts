import type { Content, CustomTableLayout, Node, NodeQueries, TDocumentDefinitions } from 'pdfmake/interfaces'
import type { Margin, PageDocument, TableLayoutName } from '../../src-core/report/document'
import { FONT_FAMILY } from '../../src-core/charts/sceneToSvg'
import { PRINT_PALETTE } from '../../src-core/charts/palette'
import { BOX, CELL_PADDING, CLOSE_PADDING, LINE_HEIGHT, TABLE_RULE, TYPE } from '../../src-core/report/parts'
import { pageFonts } from './fonts'
import { prepareTagging, type StructuredDocument, tagContent, writeStructure } from './tagging'
import { manifestOf } from '../files/attachments'
import { sealed, UNSEALED } from '../files/pdfSeal'
import type { LogFile } from '../../src-core/bridge/contract'
import type { Words } from '../../src-core/wording/words'

declare module 'pdfmake' {
  interface TCreatedPdf {
    /** The document once everything is drawn and before it is ended; its types leave it out. */
    getStream(): Promise<StructuredDocument>
  }
  /** Files that the library finds before any of the disk; its types leave it out. */
  export const virtualfs: { writeFileSync(name: string, bytes: Uint8Array): void }
}

const ruled = ({
  above,
  below,
  across,
}: Readonly<Record<'above' | 'below' | 'across', number>>): CustomTableLayout => ({
  hLineWidth: (line) => (line === 0 ? 0 : TABLE_RULE),
  vLineWidth: () => 0,
  hLineColor: () => PRINT_PALETTE.rule,
  paddingLeft: (column) => (column === 0 ? 0 : across),
  paddingRight: (column, node) => (column === (node.table.widths?.length ?? 0) - 1 ? 0 : across),
  paddingTop: () => above,
  paddingBottom: () => below,
})

const TABLE_LAYOUTS: Record<TableLayoutName, CustomTableLayout> = {
  thinRules: ruled(CELL_PADDING),
  closeColumns: ruled(CLOSE_PADDING),
  boxes: {
    hLineWidth: () => BOX.rule,
    vLineWidth: () => BOX.rule,
    hLineColor: () => PRINT_PALETTE.ink,
    vLineColor: () => PRINT_PALETTE.ink,
    paddingLeft: () => BOX.across,
    paddingRight: () => BOX.across,
    paddingTop: () => CELL_PADDING.above,
    paddingBottom: () => CELL_PADDING.below,
  },
}

export interface RenderOptions {
  /** Milliseconds since 1970-01-01T00:00Z, written into the file as its date of making. */
  readonly madeAtMs: number
  /** What the PDF carries. */
  readonly files?: readonly LogFile[]
}

/**
 * The pages as the bytes of a PDF. The same document and date give the same bytes. Nothing is fetched, and no
 * file but the program's own fonts is read.
 */
export async function renderPdf(
  words: Words,
  document: PageDocument,
  { madeAtMs, files = [] }: RenderOptions,
): Promise<Uint8Array> {
  // Loaded only now: the library takes longer to load than a whole log to read.
  const { default: pdfmake } = await import('pdfmake')
  const fonts = pageFonts()
  for (const { name, bytes } of fonts) pdfmake.virtualfs.writeFileSync(name, bytes)
  const [regular, semibold] = fonts.map(({ name }) => name)
  pdfmake.setFonts({
    [FONT_FAMILY]: { normal: regular, bold: semibold, italics: regular, bolditalics: semibold },
  })
  pdfmake.setLocalAccessPolicy(() => false)
  pdfmake.setUrlAccessPolicy(() => false)
  pdfmake.setTableLayouts(TABLE_LAYOUTS)
  await prepareTagging()
  // The library writes into what it is given; the document stays as it was.
  const pages = structuredClone(document)
  const tree = tagContent(pages.content)
  const madeAt = new Date(madeAtMs)
  const pdf = pdfmake.createPdf(definition(words, pages, madeAt))
  const drawn = await pdf.getStream()
  writeStructure(drawn, tree)
  const dates = { creationDate: madeAt, modifiedDate: madeAt }
  const description = manifestOf(files)
  for (const { name, bytes } of files) {
    drawn.file(Buffer.from(bytes), { name, description, relationship: 'Data', ...dates })
  }
  return sealed(await pdf.getBuffer())
}

/** No page is emptier: a third, and the height of what stands lowest on it. */
const LEAST_FILL = 0.36

/**
 * Whether a section begins a new page: where too little of it would stand at the foot of the page, or where the last page
 * would be nearly empty without it.
 */
function breaksBefore(
  { headlineLevel, startPosition, pages }: Node,
  { getFollowingNodesOnPage, getNodesOnNextPage }: NodeQueries,
  top: number,
): boolean {
  if (headlineLevel === undefined) return false
  const fill = (position: Node['startPosition']) => (position.top - top) / position.pageInnerHeight
  const left = (1 - fill(startPosition)) * startPosition.pageInnerHeight
  if (left < headlineLevel || getFollowingNodesOnPage().length === 0) return true
  if (startPosition.pageNumber !== pages - 1 || fill(startPosition) < LEAST_FILL) return false
  const next = getNodesOnNextPage().filter((node) => node.startPosition.pageNumber === pages)
  return next.length > 0 && next.every((node) => fill(node.startPosition) < LEAST_FILL)
}

function definition(words: Words, document: PageDocument, madeAt: Date): TDocumentDefinitions {
  const { content, runningHead, foot, ...page } = document
  return {
    content: content as Content[],
    tagged: true,
    pageSize: page.paper === 'A4' ? 'A4' : 'LETTER',
    pageMargins: [...page.margins] as [number, number, number, number],
    defaultStyle: {
      font: FONT_FAMILY,
      fontSize: TYPE.body,
      color: PRINT_PALETTE.ink,
      lineHeight: LINE_HEIGHT,
    },
    language: page.language,
    version: '1.7',
    displayTitle: true,
    pageBreakBefore: (node, around) => breaksBefore(node, around, page.margins[1]),
    info: {
      title: page.title,
      subject: page.subject,
      creator: page.creator,
      creationDate: madeAt,
      modDate: madeAt,
      ...UNSEALED,
    },
    header: (currentPage) => (currentPage === 1 ? null : (structuredClone(runningHead) as Content)),
    footer: (currentPage, pageCount, pageSize) =>
      footer(foot, words.head.pageNumberText(currentPage, pageCount), pageSize.width, page.margins),
  }
}

function footer(
  { left, right }: PageDocument['foot'],
  pageNumber: string,
  width: number,
  margins: Margin,
): Content {
  const line = (atLeft: string, atRight: string): Content => ({
    columns: [
      { text: atLeft, width: '*' },
      { text: atRight, width: 'auto', alignment: 'right' },
    ],
    columnGap: 12,
  })
  const inner = width - margins[0] - margins[2]
  return {
    stack: [
      {
        canvas: [
          { type: 'line', x1: 0, y1: 0, x2: inner, y2: 0, lineWidth: 0.5, lineColor: PRINT_PALETTE.rule },
        ],
        margin: [0, 0, 0, 4],
      },
      line(left[0], pageNumber),
      line(left[1], right),
    ],
    color: PRINT_PALETTE.grey,
    fontSize: TYPE.first,
    margin: [margins[0], 7, margins[2], 0],
  }
}
