import type { Analysis } from '../analysis/analysis'
import { awareness } from './awareness'
import { beforeAfter } from './beforeAfter'
import { byMealBehind } from './byMeal'
import { PAGE_MARGINS, type PageOptions, type ReportContext, reportContext } from './context'
import { clockQuestion } from './clockQuestion'
import { dayInNumbers } from './dayInNumbers'
import { decidedReadings } from './decided'
import { diary } from './diary'
import { disagreeing } from './disagreeing'
import { type Block, type PageDocument } from './document'
import { doubtfulReadings } from './doubtful'
import { eachLow } from './eachLow'
import { firstPage } from './firstPage'
import { foot, runningHead } from './head'
import { forTheVisit } from './forTheVisit'
import { highsBehind } from './lowsFirst'
import { metersAgainstEachOther } from './meters'
import { estimatedPages, withSections } from './flow'
import { method } from './method'
import { numbersInFull } from './numbers'
import { onNewPage, paragraph } from './parts'
import { daysUnderOneAnother, howReadingsSpread, repeatsAgainstOneAnother } from './pictures'
import { lacksGlyphs, printableBlocks, printable } from './printable'
import { behindSensor } from './sensor'
import { othersReadings } from './othersReadings'
import { standsOut } from './standsOut'
import { theWeek } from './theWeek'
import { techniqueTrials } from './trials'
import { trust } from './trust'
import { twoPeriods } from './twoPeriods'
import type { Words } from '../wording/words'

/**
 * The whole report as a plain page document, made afresh at every call: the visit at a glance, two periods side by
 * side where asked for, each low, the day, the doubtful readings one by one, meters and trials, the diary, and how it was
 * computed. The first period is the report's.
 */
export function pageDocument(words: Words, analysis: Analysis, options: PageOptions): PageDocument {
  const context = reportContext(words, analysis, options)
  const first = firstPage(context)
  if (options.onePage) return documentOf(context, first)
  if (context.figures.kind === 'sensor') {
    return documentOf(context, [...first, ...onNewPage(withSections(behindSensor(context), context.width))])
  }
  const day = dayInNumbers(context)
  const patterns = [...byMealBehind(context), ...theWeek(context), ...daysUnderOneAnother(context)]
  const repeats = repeatsAgainstOneAnother(context)
  const spread = howReadingsSpread(context)
  const told = forTheVisit(context)
  const doubts = [
    ...doubtfulReadings(context),
    ...othersReadings(context),
    ...decidedReadings(context),
    ...disagreeing(context),
    ...beforeAfter(context),
    ...metersAgainstEachOther(context),
    ...techniqueTrials(context),
  ]
  const lows = [
    ...eachLow(context),
    ...awareness(context),
    ...highsBehind(context),
    ...numbersInFull(context),
    ...standsOut(context),
    ...trust(context),
  ]
  const compared = twoPeriods(context)
  const days = diary(context)
  const behind = (spreadShown: readonly Block[], ofMethod: readonly Block[]) => {
    const seen = [
      ...patterns,
      ...spreadShown,
      ...repeats,
      ...(told.length === 0 ? clockQuestion(context) : []),
    ]
    return [
      ...compared,
      // They have a page of their own, which the picture fills.
      ...(compared.length > 0 ? onNewPage(lows) : lows),
      ...(day.length > 0 ? [...day, ...seen, ...doubts] : [...doubts, ...seen]),
      ...told,
      ...(told.length === 0 ? [] : clockQuestion(context)),
      ...days,
      ...ofMethod,
    ]
  }
  // The method stands in two columns, and how the readings spread is left out, where this saves a sheet.
  const pages = [false, true]
    .flatMap((beside) => [spread, []].map((shown) => behind(shown, method(context, beside))))
    .map((blocks) => ({ blocks, n: estimatedPages(context, blocks) }))
    .reduce((best, each) => (each.n < best.n ? each : best)).blocks
  return documentOf(context, [...first, ...onNewPage(withSections(pages, context.width))])
}

function documentOf(context: ReportContext, pages: readonly Block[]): PageDocument {
  const { words, options } = context
  const content = printableBlocks(pages)
  // A first page alone has it in its own room.
  const replaced = !options.onePage && lacksGlyphs(content)
  const { left, right } = foot(context)
  return {
    title: `${words.head.TITLE}, ${words.dates.spanText(context.figures.from, context.figures.to)}`,
    subject: words.head.purposeLine(context.figures.kind),
    creator: `${words.head.TITLE} ${options.programVersion}`,
    language: words.windowFrame.LANGUAGE,
    paper: options.paper,
    margins: PAGE_MARGINS,
    runningHead: runningHead(words, options.label),
    foot: { left: [printable(left[0]), printable(left[1])], right },
    content: replaced ? [...content, paragraph(words.method.REPLACED_GLYPHS)] : content,
  }
}
