import { LIMITS } from '../reference/limits'
import type { Summary } from '../statistics/summary'
import { heldBackOfChecked, type HeldFigure } from '../statistics/heldBack'
import { countMarks } from '../technique/equipmentStretches'
import { doubtfulInPeriod, type ReportContext } from './context'
import type { Block, Paragraph } from './document'
import { pageReferences, paragraph, sectionHeading, table, TYPE } from './parts'
import { DISAGREEING_TITLE, DOUBTFUL_TITLE, SECTION, TRIALS_TITLE } from './sections'

/** What leaving the doubtful readings out does to each figure, and how well repeats agree. */
export function trust(context: ReportContext): readonly Block[] {
  const doubtful = doubtfulInPeriod(context).length
  const n = context.figures.asLogged.n
  const tooMany = doubtful > context.words.trust.MOST_DOUBTFUL_SHARE * n
  const same = doubtful === 0 && context.figures.checked.n === n
  const sentences = inWordsOf(context, doubtful)
  const heading = titleAndPages(context, doubtful)
  if (tooMany)
    return [
      ...heading,
      sentences,
      paragraph(
        context.words.trust.tooManyDoubtfulSentence(
          doubtful,
          n,
          context.words.knownCauses.knownCauses(context.analysis, context.figures),
        ),
      ),
    ]
  const once = context.words.knownCauses
    .toldOnce(context.analysis, context.figures)
    .map((text) => paragraph(text))
  if (same) return [...heading, sentences, paragraph(context.words.trust.NOTHING_CHANGES)]
  return [...heading, bothRows(context), sentences, ...once]
}

interface Row {
  readonly name: string
  readonly text: (summary: Summary) => string
  readonly held?: HeldFigure
  readonly narrow?: true
}

function rowsOf(context: ReportContext): readonly Row[] {
  const { unit } = context
  const { settings } = context.analysis
  return [
    {
      name: 'mean',
      text: (s) => context.words.figures.glucoseOrNone(s.mean, unit),
      held: 'mean',
      narrow: true,
    },
    {
      name: 'SD',
      text: (s) => context.words.figures.glucoseOrNone(s.sd, unit),
      held: 'spread',
      narrow: true,
    },
    {
      name: 'CV, %',
      text: (s) => context.words.figures.percentOrNone(s.cvPercent),
      held: 'spread',
      narrow: true,
    },
    {
      name: `${context.words.figures.targetText(settings.targetLow, settings.targetHigh, unit)}, %`,
      text: (s) => context.words.figures.percentOrNone(s.percentInTarget),
    },
    {
      name: `above ${context.words.numbers.limitText(LIMITS.high, unit)}, %`,
      text: (s) => context.words.figures.percentOrNone(s.percentAbove180),
    },
  ]
}

/** The figures as logged, and under each what it is without the doubtful readings. */
function bothRows(context: ReportContext): Block {
  const { asLogged, checked, lows } = context.figures
  const figures = rowsOf(context)
  const printed = (summary: Summary) =>
    figures.map(({ text, held }) =>
      held && heldBackOfChecked(held, summary, asLogged, context.analysis.settings) !== null
        ? context.words.numbers.NO_NUMBER
        : text(summary),
    )
  const [first, second] = [printed(asLogged), printed(checked)]
  const below = String(lows.readingsBelow70)
  const right = { width: '*', align: 'right' } as const
  return table(
    [
      { title: 'readings', width: 146 },
      ...figures.map(({ name, narrow }) => ({ title: name, ...right, ...(narrow && { width: 34 }) })),
      {
        title: `below ${context.words.numbers.limitText(LIMITS.low, context.unit)}, always counted`,
        width: 98,
        align: 'right',
      },
    ],
    [
      [`all ${asLogged.n}`, ...first, below],
      [`without doubtful, repeats merged: ${checked.n}`, ...second, below],
    ],
    { fontSize: TYPE.small + 0.4 },
  )
}

/** How many are doubtful, and how well repeats agree, in one paragraph. */
function inWordsOf(context: ReportContext, doubtful: number): Paragraph {
  const { analysis, figures } = context
  const sensor = figures.kind === 'sensor'
  const { bracketed } = countMarks(context.indexes, analysis)
  const { repeatSets, repeatability } = analysis.technique
  const agreeing = repeatSets.filter((set) => set.agree).length
  const wholeLogbook = figures.end - figures.start < analysis.readings.n
  const repeats = context.words.trust.repeatSentence(
    { sets: repeatSets.length, agreeing, wholeLogbook },
    repeatability,
  )
  const { misfit, notDoubtfulForMisfit } = analysis.technique
  const fitsBadly = context.words.trust.misfitSentence(
    misfit,
    notDoubtfulForMisfit.filter((i) => i >= figures.start && i < figures.end).length,
  )
  return paragraph([
    ...context.words.trust.doubtfulSentence(doubtful, sensor, figures.asLogged, bracketed),
    ...(sensor || fitsBadly === null ? [] : [` ${fitsBadly}`]),
    ...(sensor ? [] : [' ', ...repeats]),
  ])
}

/** The heading, and beside it where the doubtful readings stand one by one. */
function titleAndPages(context: ReportContext, doubtful: number): readonly Block[] {
  const [rule, title] = sectionHeading('How far the readings can be trusted', context.width)
  const disagree = context.analysis.technique.repeatSets.some((set) => !set.agree)
  const places = [
    ...(doubtful > 0 ? [{ words: `${DOUBTFUL_TITLE}: page`, id: SECTION.doubtful }] : []),
    ...(disagree ? [{ words: `${DISAGREEING_TITLE}: page`, id: SECTION.disagreeing }] : []),
    ...(context.analysis.technique.trials.length > 0
      ? [{ words: `${TRIALS_TITLE}: page`, id: SECTION.trials }]
      : []),
  ]
  if (places.length === 0) return [rule, title]
  const pages = { ...pageReferences(places), width: 'auto', margin: [0, 2.5, 0, 0] } as const
  return [rule, { columns: [{ ...title, width: '*' }, pages] }]
}
