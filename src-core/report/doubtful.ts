import { isTyped } from '../log/typedByHand'
import { contextPicture } from '../charts/contextPicture'
import { PRINT_PALETTE } from '../charts/palette'
import { isLow } from '../log/readings'
import { adviceText, lowAfterwardsText } from '../shown/adviceOnReading'
import type { DoubtfulReading } from '../technique/technique'
import { strong } from '../wording/phrases'
import { confirmedLows, tellOfTwoLows } from '../told/confirmedLows'
import { doubtfulTold, moversTold } from '../told/doubtfulReadings'
import { doubtTold } from '../told/doubts'
import { reasonsTold } from '../told/reasons'
import type { StretchTold } from '../told/stretches'
import { reasonsInWords, type ReportContext } from './context'
import type { Block, Paragraph } from './document'
import { mealAndNote } from './eachLow'
import { keptTogether } from './height'
import {
  greyParagraph,
  heading,
  heads,
  pageReferences,
  paragraph,
  picture,
  right,
  table,
  TYPE,
} from './parts'
import { SECTION } from './sections'

const PICTURE_HEIGHT = 50
/** Between two readings beside each other, points. */
const CARD_GAP = 18
const NOTE_LENGTH = 140

/** The doubtful readings one by one, lows on top; where there are none, page 1 says what that means. */
export function doubtfulReadings(context: ReportContext): readonly Block[] {
  const { words } = context
  const { pageOf, TITLES } = words.pages
  const { n, outside, together, shown, listed, unlisted, reasons } = doubtfulTold(
    context.analysis,
    context.figures,
  )
  const further = listed.length + unlisted
  const outsideText = outside > 0 ? [greyParagraph(words.doubt.outsidePeriodSentence(outside))] : []
  const title = heading(TITLES.doubtful, SECTION.doubtful)
  if (n === 0) return outside === 0 ? [] : keptTogether([title, ...outsideText], context.width)

  const rest =
    further === 0
      ? []
      : [
          paragraph(words.doubt.furtherDoubtfulSentence(further, reasons)),
          pageReferences([{ words: pageOf(TITLES.furtherDoubtful), id: SECTION.furtherDoubtful }]),
        ]
  const [first, ...others] = [
    ...together.map((stretch) => shownStretch(context, stretch)),
    ...inPairs(shown.map((reading) => shownReading(context, reading))),
  ]
  const introduction = paragraph(
    [
      words.doubt.doubtfulIntroduction(n, context.figures.asLogged.n),
      whatMovesMost(context),
      ...context.analysis.technique.doubtClusters.map((cluster) =>
        words.doubt.clusterSentence(cluster, context.meterNames),
      ),
    ]
      .filter((sentence) => sentence !== null)
      .join(' '),
  )
  return [
    ...keptTogether(
      [
        title,
        introduction,
        paragraph(words.advice.nextTimeSentence(context.unit), { bold: true }),
        ...outsideText,
        ...rest,
        first,
      ],
      context.width,
    ),
    ...others,
  ]
}

/** At the end: a line for each doubtful reading that has no picture, as far as that makes no book. */
export function furtherDoubtful(context: ReportContext): readonly Block[] {
  const { words } = context
  const { readings } = context.analysis
  const { listed, unlisted } = doubtfulTold(context.analysis, context.figures)
  if (listed.length === 0) return []
  const confirmed = confirmedLows(context.analysis, context.figures)
  return [
    heading(words.pages.TITLES.furtherDoubtful, SECTION.furtherDoubtful),
    table(
      heads(words.pages.COLUMNS.furtherDoubtful, [100, 50, right(56), '*']),
      listed.map(({ index, doubt, reasons }) => {
        const told = reasonsTold(reasons, readings, index)
        return [
          words.dates.readingMoment(readings, index, context.years),
          `${isLow(readings, index) ? '■ ' : ''}${words.numbers.readingText(readings, index, context.unit)}?`,
          words.doubt.doubtInHundredText(doubtTold(doubt)),
          [
            ...(confirmed.has(index) && !tellOfTwoLows(told) ? [words.lows.CONFIRMED_LOW] : []),
            reasonsInWords(context, told),
          ].join(' '),
        ]
      }),
      { fontSize: TYPE.small },
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
  const advice = adviceFor(context, indexes.find((index) => !isLow(readings, index)) ?? indexes[0], reasons)
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
      ...(advice === null ? [] : [advice]),
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
            columnGap: CARD_GAP,
            unbreakable: true,
            margin: [0, 3, 0, 2],
          },
        ],
  )
}

/** A doubtful reading with the hours around it. */
function shownReading(context: ReportContext, { index, doubt, reasons }: DoubtfulReading): Block {
  const { readings } = context.analysis
  const { unit, years, words } = context
  const low = isLow(readings, index)
  const told = reasonsTold(reasons, readings, index)
  const confirmed = confirmedLows(context.analysis, context.figures).has(index) && !tellOfTwoLows(told)
  const advice = adviceFor(context, index, reasons)
  const afterwards = lowAfterwardsText(words, context.analysis, context.figures, index)
  const details = [
    context.meterNames[readings.meter[index]],
    isTyped(readings, index)
      ? ''
      : `line ${readings.line[index]} of ${words.logs.logName(readings.source[index])}`,
    mealAndNote(context, index, NOTE_LENGTH),
  ].filter((part) => part !== '')
  const around = contextPicture(words, context.analysis, index, {
    width: (context.width - CARD_GAP) / 2,
    height: PICTURE_HEIGHT,
    palette: PRINT_PALETTE,
  })
  const blocks: readonly Block[] = [
    paragraph(
      `${low ? '■ ' : ''}${words.numbers.readingText(readings, index, unit)}? ${unit} on ${words.dates.readingMomentAt(readings, index, years)}`,
      { bold: true, fontSize: 10, margin: [0, 0, 0, 0] },
    ),
    greyParagraph(details.join(' · '), { fontSize: TYPE.small, margin: [0, 0, 0, 1] }),
    { ...picture(around), margin: [0, 0, 0, 1] as const },
    {
      text: [
        { text: `${words.doubt.doubtText(doubtTold(doubt))}. `, bold: true },
        reasonsInWords(context, told),
      ],
      margin: [0, 0, 0, 3],
    },
    ...(confirmed ? [paragraph(words.lows.CONFIRMED_LOW, { bold: true })] : []),
    ...(advice === null ? [] : [advice]),
    ...(afterwards === null ? [] : [paragraph(afterwards)]),
  ]
  return { stack: blocks }
}

function adviceFor(
  context: ReportContext,
  index: number,
  reasons: DoubtfulReading['reasons'],
): Paragraph | null {
  const { words } = context
  const advice = adviceText(words, context.analysis, index, reasons)
  if (advice === null) return null
  const leads = words.advice.ADVICE_LEADS
  return {
    text: [
      { text: leads.fitsBest, bold: true },
      `${advice.fitsBest} `,
      { text: leads.alsoPossible, bold: true },
      advice.alsoPossible,
      ...(advice.isUsual ? [] : [{ text: leads.nextTime, bold: true }, advice.nextTime]),
    ],
    margin: [0, 0, 0, 3],
  }
}
