import { PRINT_PALETTE } from '../charts/palette'
import { LIMITS } from '../reference/limits'
import type { Summary } from '../statistics/summary'
import { FEWEST_READINGS, glucoseOrNone, percentOrNone, targetText } from '../wording/figures'
import { differenceText, limitText, NO_NUMBER } from '../wording/numbers'
import {
  doubtfulSentence,
  MOST_DOUBTFUL_SHARE,
  NOTHING_CHANGES,
  repeatSentence,
  tooManyDoubtfulSentence,
} from '../wording/trust'
import { doubtfulInPeriod, type ReportContext } from './context'
import type { Block, Paragraph } from './document'
import { paragraph, sectionHeading, table, TYPE } from './parts'
import { DISAGREEING_TITLE, DOUBTFUL_TITLE, SECTION } from './sections'

/** What leaving the doubtful readings out does to each figure, and how well repeats agree. */
export function trust(context: ReportContext): readonly Block[] {
  const doubtful = doubtfulInPeriod(context).length
  const n = context.figures.asLogged.n
  const tooMany = doubtful > MOST_DOUBTFUL_SHARE * n
  const same = doubtful === 0 && context.figures.checked.n === n
  const sentences = [
    doubtfulParagraph(context, doubtful),
    ...repeatParagraphs(context),
    ...whereToLook(context, doubtful),
  ]
  const heading = sectionHeading('How far the readings can be trusted', context.width)
  if (tooMany) return [...heading, ...sentences, paragraph(tooManyDoubtfulSentence(doubtful, n))]
  if (same) return [...heading, ...sentences, paragraph(NOTHING_CHANGES)]
  return [
    ...heading,
    {
      columns: [
        { stack: [bothColumns(context), remark()], width: 316 },
        { stack: sentences, width: '*' },
      ],
      columnGap: 18,
    },
  ]
}

interface Row {
  readonly name: string
  readonly text: (summary: Summary) => string
  readonly needsReadings?: true
}

function rowsOf(context: ReportContext): readonly Row[] {
  const { unit } = context
  const { settings } = context.analysis
  return [
    { name: 'Mean', text: (s) => glucoseOrNone(s.mean, unit) },
    { name: 'SD', text: (s) => glucoseOrNone(s.sd, unit), needsReadings: true },
    { name: 'Coefficient of variation, %', text: (s) => percentOrNone(s.cvPercent), needsReadings: true },
    {
      name: `Readings ${targetText(settings.targetLow, settings.targetHigh, unit)}, %`,
      text: (s) => percentOrNone(s.percentInTarget),
    },
    {
      name: `Readings above ${limitText(LIMITS.high, unit)}, %`,
      text: (s) => percentOrNone(s.percentAbove180),
    },
  ]
}

function bothColumns(context: ReportContext): Block {
  const { asLogged, checked, lows } = context.figures
  const rows = rowsOf(context).map(({ name, text, needsReadings }) => {
    const printed = (summary: Summary) =>
      needsReadings && summary.n < FEWEST_READINGS ? NO_NUMBER : text(summary)
    const first = printed(asLogged)
    const second = printed(checked)
    const difference = first === NO_NUMBER || second === NO_NUMBER ? NO_NUMBER : differenceText(first, second)
    return [name, first, second, difference]
  })
  const below = String(lows.readingsBelow70)
  return table(
    [
      { title: '', width: '*' },
      { title: `all ${asLogged.n}`, width: 46, align: 'right' },
      { title: `without doubtful: ${checked.n}`, width: 86, align: 'right' },
      { title: 'difference', width: 58, align: 'right' },
    ],
    [...rows, [`Readings below ${limitText(LIMITS.low, context.unit)}`, below, below, 'always counted']],
  )
}

function remark(): Paragraph {
  return paragraph(
    'Second column: doubtful readings left out, repeats of one moment merged into one, except where one of them is a low.',
    {
      fontSize: TYPE.small,
      color: PRINT_PALETTE.grey,
    },
  )
}

function doubtfulParagraph(context: ReportContext, doubtful: number): Paragraph {
  return paragraph(doubtfulSentence(doubtful, context.figures.kind === 'sensor'))
}

function repeatParagraphs(context: ReportContext): readonly Paragraph[] {
  const { analysis, figures } = context
  if (figures.kind === 'sensor') return []
  const { repeatSets, repeatability } = analysis.technique
  const agreeing = repeatSets.filter((set) => set.agree).length
  const wholeLogbook = figures.end - figures.start < analysis.readings.n
  return [paragraph(repeatSentence({ sets: repeatSets.length, agreeing, wholeLogbook }, repeatability))]
}

/** 'Doubtful readings: page 3', in one line for all that stands behind. */
function whereToLook(context: ReportContext, doubtful: number): readonly Block[] {
  const disagree = context.analysis.technique.repeatSets.some((set) => !set.agree)
  const places = [
    ...(doubtful > 0 ? [{ title: DOUBTFUL_TITLE, id: SECTION.doubtful }] : []),
    ...(disagree ? [{ title: DISAGREEING_TITLE, id: SECTION.disagreeing }] : []),
  ]
  return places.map(({ title, id }) => ({
    columns: [
      { text: `${title}: page`, width: 'auto', color: PRINT_PALETTE.grey },
      { pageReference: id, width: 'auto', color: PRINT_PALETTE.grey },
    ],
    columnGap: 2.5,
  }))
}
