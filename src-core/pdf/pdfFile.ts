import { PRINT_PALETTE } from '../charts/palette'
import { type Bookmark, type Page, pagesOf } from '../layout/pages'
import { type Drawn, slicesOf } from '../layout/slices'
import { element } from '../layout/structure'
import { type Block, type PageDocument, PAPERS } from '../report/document'
import { TYPE } from '../report/parts'
import { pageNumberText } from '../wording/head'
import { embeddedFont } from './embeddedFont'
import {
  dateString,
  type Deflate,
  latin,
  number,
  type Objects,
  pdfObjects,
  type Ref,
  textString,
  to,
} from './objects'
import { FONT_NAMES, pageContent } from './pageContent'
import { writeStructure } from './structureTree'
import type { TrueTypeFont } from './trueType'

export interface PdfParts {
  readonly regular: TrueTypeFont
  readonly semibold: TrueTypeFont
  readonly deflate: Deflate
  /** Milliseconds since 1970-01-01T00:00Z, written into the file as its date of making. */
  readonly madeAtMs: number
}

/** The pages as a tagged PDF 1.7 file (ISO 32000-1). The same document and date give the same bytes. */
export function pdfFile(
  document: PageDocument,
  { regular, semibold, deflate, madeAtMs }: PdfParts,
): Uint8Array {
  const paper = PAPERS[document.paper]
  const fonts = { regular: embeddedFont(regular), semibold: embeddedFont(semibold) }
  const widthOf = (text: string, size: number, bold: boolean) =>
    fonts[bold ? 'semibold' : 'regular'].widthOf(text, size)
  const [left, top, right, bottom] = document.margins
  const structure = element('Document', null)
  const slices = slicesOf(document.content, paper.width - left - right, widthOf, structure)
  const { pages, pageOf, bookmarks } = pagesOf(slices, { left, top, bottom: paper.height - bottom })
  /** Head and foot are no part of the text. */
  const around = (block: Block, y: number): readonly Drawn[] => {
    let line = y
    return slicesOf([block], paper.width, widthOf, null).flatMap((slice) => {
      line += slice.above
      const drawn = slice.drawn.map((item): Drawn => ({ ...item, y: item.y + line, element: null }))
      line += slice.height + slice.below
      return drawn
    })
  }

  const objects = pdfObjects(deflate)
  const pageTree = objects.reserve()
  const fontRefs = { regular: objects.reserve(), semibold: objects.reserve() }
  const resources = objects.add(
    `<< /Font << /${FONT_NAMES.regular} ${to(fontRefs.regular)} /${FONT_NAMES.semibold} ${to(fontRefs.semibold)} >> >>`,
  )
  const written = pages.map((page: Page, i) => {
    const drawn = [
      ...(i === 0 ? [] : around(document.runningHead, 0)),
      ...page.drawn,
      ...around(footer(document, i + 1, pages.length, paper.width), paper.height - bottom),
    ]
    const { operators, marked } = pageContent(drawn, paper.height, fonts, (id) =>
      String(pageOf.get(id) ?? ''),
    )
    const ref = objects.reserve()
    const content = objects.addStream(latin(operators))
    objects.set(
      ref,
      `<< /Type /Page /Parent ${to(pageTree)} /MediaBox [0 0 ${number(paper.width)} ${number(paper.height)}]` +
        ` /Resources ${to(resources)} /Contents ${to(content)} /StructParents ${i} /Tabs /S >>`,
    )
    return { ref, marked }
  })
  objects.set(
    pageTree,
    `<< /Type /Pages /Count ${written.length} /Kids [${written.map(({ ref }) => to(ref)).join(' ')}] >>`,
  )
  fonts.regular.write(objects, fontRefs.regular, 'AAAAAA')
  fonts.semibold.write(objects, fontRefs.semibold, 'AAAAAB')
  const outline = writeBookmarks(
    objects,
    bookmarks,
    ({ page, y }) => `[${to(written[page - 1].ref)} /XYZ null ${number(paper.height - y)} null]`,
  )
  const tree = writeStructure(objects, structure, written)
  const root = objects.add(
    `<< /Type /Catalog /Pages ${to(pageTree)} /Outlines ${to(outline)} /Lang ${textString(document.language)}` +
      ` /MarkInfo << /Marked true >> /StructTreeRoot ${to(tree)} /ViewerPreferences << /DisplayDocTitle true >> >>`,
  )
  const date = dateString(madeAtMs)
  const info = objects.add(
    `<< /Title ${textString(document.title)} /Subject ${textString(document.subject)}` +
      ` /Creator ${textString(document.creator)} /Producer ${textString(document.creator)}` +
      ` /CreationDate ${date} /ModDate ${date} >>`,
  )
  return objects.file(root, info)
}

/** A flat list of bookmarks (12.3.3). */
function writeBookmarks(
  objects: Objects,
  bookmarks: readonly Bookmark[],
  destination: (bookmark: Bookmark) => string,
): Ref {
  const outline = objects.reserve()
  const refs = bookmarks.map(() => objects.reserve())
  bookmarks.forEach((bookmark, i) => {
    const beside = [
      i > 0 ? ` /Prev ${to(refs[i - 1])}` : '',
      i < refs.length - 1 ? ` /Next ${to(refs[i + 1])}` : '',
    ]
    objects.set(
      refs[i],
      `<< /Title ${textString(bookmark.title)} /Parent ${to(outline)}${beside.join('')} /Dest ${destination(bookmark)} >>`,
    )
  })
  const ends = refs.length === 0 ? '' : ` /First ${to(refs[0])} /Last ${to(refs[refs.length - 1])}`
  objects.set(outline, `<< /Type /Outlines /Count ${refs.length}${ends} >>`)
  return outline
}

function footer({ foot, margins }: PageDocument, page: number, pages: number, width: number): Block {
  const look = { color: PRINT_PALETTE.grey, fontSize: TYPE.small }
  const line = (atLeft: string, atRight: string): Block => ({
    columns: [
      { text: atLeft, width: '*', ...look },
      { text: atRight, width: 'auto', alignment: 'right', ...look },
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
      line(foot.left[0], pageNumberText(page, pages)),
      line(foot.left[1], foot.right),
    ],
    margin: [margins[0], 10, margins[2], 0],
  }
}
