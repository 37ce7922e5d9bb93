import { markedSequence } from '../shown/markedText'
import { confirmedLows } from '../told/confirmedLows'
import { type LowEvent, lowestEvents, lowEvents, MOST_LOWS_LISTED, sequenceOf } from '../told/lowEvents'
import { lowsTold } from '../told/lows'
import { lowRemarkInWords, printedNote, type ReportContext } from './context'
import type { Block } from './document'
import { bracketBefore } from './lowsFirst'
import { greyParagraph, heading, heads, paragraph, right, table } from './parts'
import { oneLine } from './printable'

const NOTE_LENGTH = 60

/** Every low with what came after it, or nothing where there is none. */
export function eachLow(context: ReportContext): readonly Block[] {
  const events = lowEvents(context.analysis, context.figures)
  const confirmed = confirmedLows(context.analysis, context.figures)
  if (events.length === 0) return []
  // The lowest stay where not all have room.
  const shown = lowestEvents(context.analysis, events, MOST_LOWS_LISTED)
  const more = events.length - shown.length
  const { pages } = context.words
  const columns = pages.COLUMNS.eachLow
  return [
    heading(pages.TITLES.eachLow),
    paragraph(context.words.lows.AFTER_A_LOW),
    greyParagraph(pages.EACH_LOW_NOTE),
    table(
      heads(columns, [context.years === 'with-year' ? 92 : 80, 114, 84, right(62), '*']),
      shown.map((event) => row(context, event, confirmed)),
    ),
    ...(more > 0 ? [paragraph(pages.moreLowsText(more))] : []),
    paragraph(
      lowsTold(context.analysis, context.figures)
        .remarks.filter(({ code }) => code !== 'further')
        .map((remark) => lowRemarkInWords(context, remark))
        .join(' '),
    ),
  ]
}

function row(context: ReportContext, event: LowEvent, confirmed: ReadonlySet<number>) {
  const { words } = context
  const { readings } = context.analysis
  const { next, highestAfter } = event
  const spread = event.minutes === null ? '' : ` (${words.dates.durationText(event.minutes)})`
  const untimed = next === 'no-times'
  const text = (index: number) => words.numbers.readingText(readings, index, context.unit)
  return [
    words.dates.readingMoment(readings, event.members[0], context.years),
    [
      {
        text: `${bracketBefore(context, event.members)}■ ${markedSequence(words, context.analysis, sequenceOf(readings, event.members))}`,
        bold: true,
      },
      spread,
    ],
    untimed
      ? words.numbers.NO_NUMBER
      : next === 'log-ends'
        ? words.pages.LOG_ENDS
        : words.pages.nextTestText(text(next.index), words.dates.durationText(next.minutes)),
    highestAfter === null ? (untimed ? words.numbers.NO_NUMBER : words.pages.NO_TEST) : text(highestAfter),
    [
      event.members.some((index) => confirmed.has(index)) ? words.lows.CONFIRMED : '',
      ...event.members.map((index) => mealAndNote(context, index, NOTE_LENGTH)),
    ]
      .filter((text) => text !== '')
      .join('; '),
  ]
}

/** What the log says beside a reading, in short; '' where it says nothing. */
export function mealAndNote(context: ReportContext, index: number, length: number): string {
  const { readings } = context.analysis
  const note = printedNote(context, index)
  const quoted = note === '' ? '' : `‘${oneLine(note, length)}’`
  return [oneLine(readings.meal(index), length), quoted].filter((part) => part !== '').join(', ')
}
