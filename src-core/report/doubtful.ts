import { isTyped } from '../log/typedByHand'
import { contextPicture } from '../charts/contextPicture'
import { PRINT_PALETTE } from '../charts/palette'
import { isLow } from '../log/readings'
import { adviceText, lowAfterwardsText } from '../shown/adviceOnReading'
import type { DoubtfulReading } from '../technique/technique'
import { strong } from '../wording/phrases'
import { confirmedLows, tellOfTwoLows } from '../told/confirmedLows'
import { adviceOnReading, isShared, type SharedExplanation } from '../told/advice'
import { type DoubtfulTold, doubtfulTold, moversTold } from '../told/doubtfulReadings'
import { doubtTold } from '../told/doubts'
import { testsAfter } from '../told/lowEvents'
import { reasonsTold } from '../told/reasons'
import type { StretchTold } from '../told/stretches'
import { reasonsInWords, type ReportContext } from './context'
import type { Block, Inline, Paragraph } from './document'
import { mealAndNote } from './eachLow'
import { keptTogether } from './height'
import { COLUMN_GAP, greyParagraph, heading, heads, paragraph, picture, right, table, TYPE } from './parts'
import { SECTION } from './sections'

const PICTURE_HEIGHT = 47
const NOTE_LENGTH = 140

/** The doubtful readings one by one, lows on top; where there are none, page 1 says what that means. */
export function doubtfulReadings(context: ReportContext): readonly Block[] {
  const { words } = context
  const told = doubtfulTold(context.analysis, context.figures)
  const { n, outside, together, shown, explains } = told
  const outsideText = outside > 0 ? [greyParagraph(words.doubt.outsidePeriodSentence(outside))] : []
  const title = heading(words.pages.TITLES.doubtful, SECTION.doubtful)
  if (n === 0) return outside === 0 ? [] : keptTogether([title, ...outsideText], context.width)

  const [first, ...others] = [
    ...together.map((stretch) => shownStretch(context, stretch)),
    ...inPairs(shown.map((reading) => shownReading(context, reading, explains))),
  ]
  const introduction = [
    words.doubt.doubtfulIntroduction(n, context.figures.asLogged.n),
    whatMovesMost(context),
    ...context.analysis.technique.doubtClusters.map((cluster) =>
      words.doubt.clusterSentence(cluster, context.meterNames),
    ),
    shown.length > 0 ? words.reasons.BRIEF_REASONS : null,
  ]
  return [
    ...keptTogether(
      [
        title,
        paragraph(introduction.filter((sentence) => sentence !== null).join(' ')),
        ...(explains === null ? [] : [sharedAdvice(context, explains)]),
        paragraph(words.advice.nextTimeSentence(context.unit), { bold: true }),
        ...outsideText,
        first,
      ],
      context.width,
    ),
    ...others,
    ...withoutPicture(context, told),
  ]
}

/** A row for each doubtful reading that has no picture, as far as that makes no book. */
function withoutPicture(
  context: ReportContext,
  { listed, unlisted, explains }: DoubtfulTold,
): readonly Block[] {
  if (listed.length === 0) return []
  const { analysis, figures, unit, words, years } = context
  const { readings } = analysis
  const confirmed = confirmedLows(analysis, figures)
  const text = (index: number) => words.numbers.readingText(readings, index, unit)
  const after = testsAfter(
    analysis,
    figures,
    listed.map(({ index }) => index),
  )
  return [
    heading(
      words.doubt.furtherDoubtfulTitle(
        listed.length + unlisted,
        listed.some(({ index }) => isLow(readings, index)),
      ),
    ),
    table(
      heads(words.pages.COLUMNS.furtherDoubtful, [76, 40, right(46), '*']),
      listed.map(({ index, doubt, reasons }, i) => {
        const told = reasonsTold(reasons, readings, index)
        const next = after[i]
        const advice = adviceRuns(context, index, reasons, explains)
        const nextTold = told.some((reason) => 'other' in reason && reason.other === next?.index)
        return [
          words.dates.readingMoment(readings, index, years),
          [{ text: `${isLow(readings, index) ? '■ ' : ''}${text(index)}?`, bold: true }],
          words.doubt.doubtInHundredText(doubtTold(doubt)),
          [
            ...(confirmed.has(index) && !tellOfTwoLows(told) ? [`${words.lows.CONFIRMED_LOW} `] : []),
            reasonsInWords(context, told),
            ...(next === null || nextTold
              ? []
              : [
                  ` ${words.doubt.nextTestSentence(text(next.index), words.dates.durationText(next.minutes))}`,
                ]),
            ...(advice.length === 0 ? [] : [' ', ...advice]),
            ...[lowAfterwardsText(words, analysis, figures, index)].flatMap((low) =>
              low === null ? [] : [` ${low}`],
            ),
            { text: ` ${detailsOf(context, index)}`, color: PRINT_PALETTE.grey },
          ],
        ]
      }),
      { fontSize: TYPE.small, layout: 'closeColumns' },
    ),
    ...(unlisted > 0 ? [paragraph(words.doubt.unlistedSentence(unlisted))] : []),
  ]
}

/** The few readings that move the figures most; null where none moves the printed ones. */
function whatMovesMost({ analysis, figures, unit, years, words }: ReportContext): string | null {
  const { readings } = analysis
  const change = (mgDl: number) => words.numbers.signedGlucoseText(mgDl, unit)
  return words.doubt.effectSentence(
    moversTold(analysis, figures).map(({ index, mean, sd }) => ({
      reading: `${words.numbers.readingText(readings, index, unit)} on ${words.dates.readingMomentAt(readings, index, years)}`,
      mean: change(mean),
      sd: change(sd),
    })),
  )
}

/** Readings that one fault of strips or meter makes doubtful, told once. */
function shownStretch(context: ReportContext, stretch: StretchTold): Block {
  const { reasons, indexes } = stretch
  const { readings } = context.analysis
  const { unit, years, words } = context
  const lows = indexes
    .filter((index) => isLow(readings, index))
    .map(
      (index) =>
        `■ ${words.numbers.readingText(readings, index, unit)} on ${words.dates.readingMomentAt(readings, index, years)}`,
    )
  const advice = adviceRuns(context, indexes.find((index) => !isLow(readings, index)) ?? indexes[0], reasons)
  const told = words.doubt.stretchLows(lows)
  return {
    stack: [
      paragraph(
        `${stretch.toldOnce ? `${words.stretches.BRACKET} ` : ''}${words.stretches.stretchTitle(stretch, years)}`,
        {
          bold: true,
          fontSize: 10,
          margin: [0, 0, 0, 0],
        },
      ),
      paragraph([
        words.stretches.stretchReasonsText(stretch, readings, unit),
        ' ',
        strong(words.stretches.ERRS[stretch.errs]),
      ]),
      ...(told === null ? [] : [paragraph(told)]),
      ...(advice.length === 0 ? [] : [{ text: advice, margin: [0, 0, 0, 3] as const }]),
    ],
    unbreakable: true,
    margin: [0, 6, 0, 3],
  }
}

function inPairs(cards: readonly Block[]): readonly Block[] {
  return cards.flatMap((card, i): readonly Block[] =>
    i % 2 === 1
      ? []
      : [
          {
            columns: [card, cards[i + 1] ?? { text: '' }],
            columnGap: COLUMN_GAP,
            unbreakable: true,
            margin: [0, 3, 0, 2],
          },
        ],
  )
}

/** A doubtful reading with the hours around it. */
function shownReading(
  context: ReportContext,
  { index, doubt, reasons }: DoubtfulReading,
  explains: SharedExplanation | null,
): Block {
  const { readings } = context.analysis
  const { unit, years, words } = context
  const low = isLow(readings, index)
  const told = reasonsTold(reasons, readings, index)
  const confirmed = confirmedLows(context.analysis, context.figures).has(index) && !tellOfTwoLows(told)
  const advice = adviceRuns(context, index, reasons, explains)
  const afterwards = lowAfterwardsText(words, context.analysis, context.figures, index)
  const around = contextPicture(words, context.analysis, index, {
    width: (context.width - COLUMN_GAP) / 2,
    height: PICTURE_HEIGHT,
    palette: PRINT_PALETTE,
  })
  const blocks: readonly Block[] = [
    paragraph(
      `${low ? '■ ' : ''}${words.numbers.readingText(readings, index, unit)}? ${unit} on ${words.dates.readingMomentAt(readings, index, years)}`,
      { bold: true, fontSize: 10, margin: [0, 0, 0, 0] },
    ),
    greyParagraph(detailsOf(context, index), { fontSize: TYPE.small, margin: [0, 0, 0, 1] }),
    { ...picture(around), margin: [0, 0, 0, 1] as const },
    {
      text: [
        { text: `${words.doubt.doubtText(doubtTold(doubt))}. `, bold: true },
        reasonsInWords(context, told),
      ],
      margin: [0, 0, 0, 3],
    },
    ...(confirmed ? [paragraph(words.lows.CONFIRMED_LOW, { bold: true })] : []),
    ...(advice.length === 0 ? [] : [{ text: advice, margin: [0, 0, 0, 3] as const }]),
    ...(afterwards === null ? [] : [paragraph(afterwards)]),
  ]
  return { stack: blocks }
}

/** Meter, line, meal and note of a reading. */
function detailsOf(context: ReportContext, index: number): string {
  const { readings } = context.analysis
  return [
    context.meterNames[readings.meter[index]],
    isTyped(readings, index)
      ? ''
      : `line ${readings.line[index]} of ${context.words.logs.logName(readings.source[index])}`,
    mealAndNote(context, index, NOTE_LENGTH),
  ]
    .filter((part) => part !== '')
    .join(' · ')
}

/** What explains several readings, told once. */
function sharedAdvice({ words }: ReportContext, code: SharedExplanation): Paragraph {
  const { fitsBest, alsoPossible } = words.advice.sharedAdvice(code)
  const leads = words.advice.ADVICE_LEADS
  return paragraph([
    { strong: leads.unlessSaid },
    `${fitsBest} `,
    { strong: leads.alsoPossible },
    alsoPossible,
  ])
}

/** What explains a reading and what to do; nothing where that is what `toldOnce` says. */
function adviceRuns(
  { analysis, words }: ReportContext,
  index: number,
  reasons: DoubtfulReading['reasons'],
  toldOnce: SharedExplanation | null = null,
): readonly Inline[] {
  const advice = adviceText(words, analysis, index, reasons)
  if (advice === null || isShared(adviceOnReading(analysis, index, reasons), toldOnce)) return []
  const leads = words.advice.ADVICE_LEADS
  return [
    { text: leads.fitsBest, bold: true },
    `${advice.fitsBest} `,
    { text: leads.alsoPossible, bold: true },
    advice.alsoPossible,
    ...(advice.isUsual ? [] : [{ text: leads.nextTime, bold: true }, advice.nextTime]),
  ]
}
