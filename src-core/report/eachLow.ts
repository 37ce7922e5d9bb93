import { hasClockTime } from '../log/readings'
import type { ReportContext } from './context'
import type { Block } from './document'
import { type LowEvent, lowEvents } from './lowEvents'
import { MOST_LOWS_LISTED } from './limits'
import { bracketBefore, sequenceText } from './lowsFirst'
import { greyParagraph, heading, paragraph, table } from './parts'
import { oneLine } from './printable'

const NOTE_LENGTH = 60

/** Every low with what came after it, or nothing where there is none. */
export function eachLow(context: ReportContext): readonly Block[] {
  const { readings } = context.analysis
  const events = lowEvents(context.analysis, context.figures)
  if (events.length === 0) return []
  // The lowest stay where not all have room.
  const shown = [...events]
    .sort((a, b) => readings.mgDl[a.lowest] - readings.mgDl[b.lowest] || b.lowest - a.lowest)
    .slice(0, MOST_LOWS_LISTED)
    .sort((a, b) => a.members[0] - b.members[0])
  const more = events.length - shown.length
  return [
    heading('Each low'),
    greyParagraph(
      'Repeats within ten minutes stand in one line, in the order in which they were taken. ‘?’: doubtful, and counted all the same.',
    ),
    table(
      [
        { title: 'when', width: 92 },
        { title: 'reading', width: 118 },
        { title: 'next test', width: 92 },
        { title: 'highest within 4 h', width: 62, align: 'right' },
        { title: 'meal, note', width: '*' },
      ],
      shown.map((event) => row(context, event)),
    ),
    ...(more > 0
      ? [paragraph(`and ${context.words.numbers.count(more, 'more low')}, none lower than those listed.`)]
      : []),
  ]
}

function row(context: ReportContext, event: LowEvent) {
  const { readings } = context.analysis
  const { next, highestAfter } = event
  const spread = event.minutes === null ? '' : ` (${context.words.dates.durationText(event.minutes)})`
  const untimed = !hasClockTime(readings, event.lowest)
  const text = (index: number) => context.words.numbers.readingText(readings, index, context.unit)
  return [
    context.words.dates.readingMoment(readings, event.members[0], context.years),
    [
      {
        text: `${bracketBefore(context, event.members)}■ ${sequenceText(context, event.members)}`,
        bold: true,
      },
      spread,
    ],
    next === null
      ? untimed
        ? context.words.numbers.NO_NUMBER
        : 'the log ends here'
      : `${text(next.index)} after ${context.words.dates.durationText(next.minutes)}`,
    highestAfter === null ? (untimed ? context.words.numbers.NO_NUMBER : 'no test') : text(highestAfter),
    event.members
      .map((index) => mealAndNote(context, index, NOTE_LENGTH))
      .filter((text) => text !== '')
      .join('; '),
  ]
}

/** What the log says beside a reading, in short; '' where it says nothing. */
export function mealAndNote(context: ReportContext, index: number, length: number): string {
  const { readings } = context.analysis
  const note = readings.note(index)
  const quoted = note === '' ? '' : `‘${oneLine(note, length)}’`
  return [oneLine(readings.meal(index), length), quoted].filter((part) => part !== '').join(', ')
}
