import type { Analysis } from '../analysis/analysis'
import { dayPicture } from '../charts/dayPicture'
import { PRINT_PALETTE } from '../charts/palette'
import { sceneToSvg } from '../charts/sceneToSvg'
import { spanText } from '../wording/dates'
import { purposeLine, TITLE } from '../wording/head'
import { REPLACED_GLYPHS } from '../wording/method'
import { PAGE_MARGINS, type PageOptions, type ReportContext, reportContext } from './context'
import { disagreeingSets } from './disagreeing'
import type { Block, PageDocument } from './document'
import { doubtfulReadings } from './doubtful'
import { eachLow } from './eachLow'
import { firstHead, foot, runningHead } from './head'
import { lowsFirst } from './lowsFirst'
import { method } from './method'
import { theNumbers } from './numbers'
import { paragraph, sectionHeading } from './parts'
import { printableBlocks, printable, REPLACEMENT } from './printable'
import { trust } from './trust'

const PICTURE_HEIGHT = { A4: 236, Letter: 200 } as const

/**
 * The whole report as a plain page document, made afresh at every call: the visit at a glance, each low, the
 * doubtful readings one by one, and how it was computed. The first period is the report's.
 */
export function pageDocument(analysis: Analysis, options: PageOptions): PageDocument {
  const context = reportContext(analysis, options)
  const behind = [
    ...eachLow(context),
    ...doubtfulReadings(context),
    ...disagreeingSets(context),
    ...method(context),
  ]
  const content = printableBlocks([...firstPage(context), ...onNewPage(behind)])
  const replaced = JSON.stringify(content).includes(REPLACEMENT)
  const { left, right } = foot(context)
  return {
    title: `${TITLE}, ${spanText(context.figures.from, context.figures.to)}`,
    subject: purposeLine(context.figures.kind),
    creator: `${TITLE} ${options.programVersion}`,
    language: 'en-GB',
    paper: options.paper,
    margins: PAGE_MARGINS,
    runningHead: runningHead(),
    foot: { left: [printable(left[0]), printable(left[1])], right },
    content: replaced ? [...content, paragraph(REPLACED_GLYPHS)] : content,
  }
}

function firstPage(context: ReportContext): readonly Block[] {
  const { analysis, figures, width, options } = context
  const size = { width, height: PICTURE_HEIGHT[options.paper], palette: PRINT_PALETTE }
  return [
    ...firstHead(context),
    ...lowsFirst(context),
    ...theNumbers(context),
    ...sectionHeading('The day', width),
    { svg: sceneToSvg(dayPicture(analysis, figures, size)), width },
    ...trust(context),
  ]
}

function onNewPage([first, ...rest]: readonly Block[]): readonly Block[] {
  return [{ ...first, pageBreak: 'before', margin: [0, 0, 0, 3] }, ...rest]
}
