import { isTyped } from '../log/typedByHand'
import { gapsTold } from '../told/gaps'
import { PRINT_PALETTE } from '../charts/palette'
import { PAGE_MARGINS, type ReportContext } from './context'
import type { Block, Inline, PageDocument, TextStyle } from './document'
import { greyParagraph, pageReferences, paragraph, TYPE } from './parts'
import { oneLine, printable, shortened } from './printable'
import { SECTION } from './sections'
import { fingerprint } from '../told/logs'
import type { Words } from '../wording/words'

/** Characters: in full under the title, on the line for the name, in the foot. */
const LABEL_LENGTH = { head: 200, line: 44, foot: 24 } as const

/** The first page's head: title, blank for the name, what the readings are, and the safety line in ink. */
export function firstHead(context: ReportContext, style: TextStyle): readonly Block[] {
  const { figures, options, unit, years, words } = context
  const { readings } = context.analysis
  const meters = new Set(
    context.indexes.filter((index) => !isTyped(readings, index)).map((index) => readings.meter[index]),
  )
  const gaps = gapsTold(readings, context.indexes, figures.kind, options.madeAt)
  const extent = words.head.extentLine({
    ...figures,
    n: figures.asLogged.n,
    meters: meters.size,
    unit,
  })
  return [
    firstLine(words, words.head.TITLE, options.label),
    ...(options.label === null || [...options.label].length <= LABEL_LENGTH.line
      ? []
      : [paragraph(oneLine(options.label, LABEL_LENGTH.head), { bold: true, ...style })]),
    greyParagraph(
      [extent, ...(gaps === null ? [] : [words.head.gapsSentence(gaps, years)])].join(' · '),
      style,
    ),
    ...besideIt(context, style),
    paragraph(words.head.SAFETY_LINE, { bold: true, fontSize: TYPE.person, margin: [0, 1, 0, 0] }),
  ]
}

/** A title with the blank for the name: the head of a first page. */
export function firstLine(words: Words, title: string, label: string | null): Block {
  return {
    columns: [
      { text: title, bold: true, fontSize: TYPE.title, outline: true, level: 1, width: '*' },
      {
        text: nameLine(words, label),
        fontSize: TYPE.person,
        alignment: 'right',
        width: 'auto',
        margin: [0, 6, 0, 0],
      },
    ],
    margin: [0, -8, 0, 2],
  }
}

/** Where the second period stands; nothing where one period was asked for. */
function besideIt({ analysis, words, options }: ReportContext, style: TextStyle): readonly Block[] {
  const other = analysis.periods.at(1)
  if (analysis.comparison === null || other === undefined || options.onePage) return []
  return [
    pageReferences(
      [{ words: words.comparison.besideText(other, other.lows.readingsBelow70), id: SECTION.compared }],
      style,
    ),
  ]
}

/** The head of every later page: a page without a name gets into the wrong file. */
export function runningHead(words: Words, label: string | null): Block {
  return {
    columns: [
      { text: words.head.TITLE, color: PRINT_PALETTE.grey, width: '*' },
      { text: nameLine(words, label), alignment: 'right', width: 'auto' },
    ],
    margin: [PAGE_MARGINS[0], 17, PAGE_MARGINS[2], 0],
  }
}

/** What stands at the foot of every page. */
export function foot(context: ReportContext): PageDocument['foot'] {
  const { figures, options, analysis, words } = context
  const period = words.dates.spanText(figures.from, figures.to)
  const label = options.label === null ? '' : ` · ${shortened(options.label, LABEL_LENGTH.foot)}`
  const carries = options.carries ? ` ${words.attachments.CARRIES[options.carries]}` : ''
  return {
    left: [words.head.purposeLine(figures.kind) + carries, `${period}${label}`],
    right:
      `made ${words.dates.dayText(options.madeAt, 'with-year')} · ${words.head.TITLE} ${options.programVersion} · ` +
      words.logs.fingerprintText(fingerprint(analysis.sources)),
  }
}

/** The label where one is given, else 80 mm and more for the pen. */
function nameLine({ head }: Words, label: string | null): readonly Inline[] {
  return [
    `${head.NAME_LINE} `,
    label === null ? '_'.repeat(45) : { text: printable(shortened(label, LABEL_LENGTH.line)), bold: true },
  ]
}
