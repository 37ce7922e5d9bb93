import { disagreeingSets } from '../told/disagreeing'
import { type Doubts, doubtsOf } from '../told/doubts'
import { type MeasureKey, namingOf, periodMeasure } from '../told/measures'
import type { ReportContext } from './context'
import type { Block } from './document'
import { pageReferences, paragraph, sectionHeading, table, TYPE } from './parts'
import { SECTION } from './sections'

/** What leaving the doubtful readings out does to each figure, and how well repeats agree. */
export function trust(context: ReportContext): readonly Block[] {
  const { analysis, figures, words } = context
  const doubts = doubtsOf(analysis, figures)
  const sentences = paragraph(
    words.trust.trustSentences(doubts).flatMap((sentence, i) => (i === 0 ? sentence : [' ', ...sentence])),
  )
  const heading = titleAndPages(context, doubts)
  if (doubts.tooMany) {
    return [...heading, sentences, paragraph(words.trust.tooManyDoubtfulSentence(doubts))]
  }
  if (doubts.doubtful.length === 0 && figures.checked.n === figures.asLogged.n) {
    return [...heading, sentences, paragraph(words.trust.NOTHING_CHANGES)]
  }
  const once = doubts.stretches.filter(({ toldOnce }) => toldOnce)
  return [
    ...heading,
    bothRows(context),
    sentences,
    ...words.stretches.stretchesTexts(once).map((text) => paragraph(text)),
  ]
}

const SHOWN: readonly MeasureKey[] = [
  'meanMgDl',
  'sdMgDl',
  'cvPercent',
  'percentInTarget',
  'percentAbove180',
  'readingsBelow70',
]
/** Points; the others share the rest. */
const WIDTHS: Readonly<Partial<Record<MeasureKey, number>>> = {
  meanMgDl: 34,
  sdMgDl: 34,
  cvPercent: 34,
  readingsBelow70: 98,
}

/** The figures as logged, and under each what it is without the doubtful readings. */
function bothRows({ analysis, figures, unit, words }: ReportContext): Block {
  const naming = namingOf(analysis.settings, figures)
  const printed = (which: 'asLogged' | 'checked') =>
    SHOWN.map((key) => words.figures.valueText(periodMeasure(key, figures, which), unit))
  return table(
    [
      { title: words.trust.READINGS_TITLE, width: 146 },
      ...SHOWN.map((key) => {
        const title = words.figures.columnTitle(periodMeasure(key, figures), naming)
        return {
          title: key === 'readingsBelow70' ? words.trust.alwaysCounted(title) : title,
          width: WIDTHS[key] ?? ('*' as const),
          align: 'right' as const,
        }
      }),
    ],
    [
      [words.trust.allOfThem(figures.asLogged.n), ...printed('asLogged')],
      [words.trust.withoutDoubtful(figures.checked.n), ...printed('checked')],
    ],
    { fontSize: TYPE.small + 0.4 },
  )
}

/** The heading, and beside it where the doubtful readings stand one by one. */
function titleAndPages(context: ReportContext, { doubtful }: Doubts): readonly Block[] {
  const [rule, title] = sectionHeading(context.words.trust.TRUST_TITLE, context.width)
  const { pageOf, TITLES } = context.words.pages
  const disagree = disagreeingSets(context.analysis, context.figures).sets.length > 0
  const places = [
    ...(doubtful.length > 0 ? [{ words: pageOf(TITLES.doubtful), id: SECTION.doubtful }] : []),
    ...(disagree ? [{ words: pageOf(TITLES.disagreeing), id: SECTION.disagreeing }] : []),
    ...(context.analysis.technique.trials.length > 0
      ? [{ words: pageOf(TITLES.trials), id: SECTION.trials }]
      : []),
  ]
  if (places.length === 0 || context.options.onePage) return [rule, title]
  const pages = { ...pageReferences(places), width: 'auto', margin: [0, 2.5, 0, 0] } as const
  return [rule, { columns: [{ ...title, width: '*' }, pages] }]
}
