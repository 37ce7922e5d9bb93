import type { LogEntry } from '../log/entries'
import { isLow, rangeOfDays } from '../log/readings'
import { HOURS_PER_DAY } from '../reference/dayParts'
import type { RepeatSet } from '../technique/technique'
import { clock, type DayNumber, minutesBetween, weekday } from '../units/wallClock'
import { PRINT_PALETTE } from '../charts/palette'
import { markedText } from '../shown/markedText'
import { type DiaryColumn, type DiaryItem, diaryTold, holdsLow, setTold, shownInCell } from '../told/diary'
import { toldOnce } from '../told/stretches'
import { printedNote, type ReportContext } from './context'
import type { Block, Inline } from './document'

import { greyParagraph, heading, table, TYPE } from './parts'
import { LINE_END, oneLine } from './printable'
import type { Words } from '../wording/words'

const SMALL = TYPE.small + 0.2
/** Lows are to be seen at arm's length. */
const LARGE = TYPE.body + 0.8
/** A doubtful value carries less weight than the others; a doubtful low stays large. */
const DOUBTFUL = SMALL - 1
/** Columns by the widest that stands in them; 'breakfast' takes 30. Points. */
const WIDTHS = { day: 41, bracket: 6, tests: 32, sets: 38, timed: 50 } as const
const LENGTH = { note: 60, remarks: 220 } as const

/** One row for each of the latest days with readings, columns by part of the day; stretches without readings in one row. */
export function diary(context: ReportContext): readonly Block[] {
  const { analysis, figures, words, unit } = context
  const told = diaryTold(analysis, figures, context.options.diaryDays)
  if (told === null) return []
  const { from, to, columns, rows } = told
  const widthOf = (column: DiaryColumn, i: number) => {
    if (column.of === 'untagged') return WIDTHS.timed
    return rows.some(({ cells }) => cells[i].some(({ set }) => set)) ? WIDTHS.sets : WIDTHS.tests
  }
  const noReadings = { text: words.diary.NO_READINGS_THEN, color: PRINT_PALETTE.grey, noWrap: true }
  const stretches = toldOnce(analysis, rangeOfDays(analysis.readings, { from, to }))
  const mixed = new Set(columns.map(({ of }) => of === 'meal')).size > 1
  return [
    heading(words.diary.DIARY),
    greyParagraph(
      `${words.diary.diaryCaption(to - from + 1, from > figures.from ? to - figures.from + 1 : null, unit)} ${words.diary.diaryLegend(mixed)}${words.stretches.bracketedDaysSentence(stretches)}`,
      { fontSize: TYPE.small },
    ),
    table(
      [
        { title: '', width: WIDTHS.day + (stretches.length > 0 ? WIDTHS.bracket : 0) },
        ...columns.map((column, i) => ({ title: titleOf(words, column), width: widthOf(column, i) })),
        { title: words.pages.DIARY_NOTES, width: '*' as const },
      ],
      rows.map((row) =>
        row.isGap
          ? [dayCell(context, row.from, row.to), ...columns.map((_, i) => (i === 0 ? [noReadings] : '')), '']
          : [
              [...bracketOf(context, row.items), ...dayCell(context, row.from, row.to)],
              ...row.cells.map((items, i) => cell(context, items, columns[i].of === 'untagged')),
              remarks(context, row.items, row.entries),
            ],
      ),
      { fontSize: SMALL, layout: 'closeColumns' },
    ),
  ]
}

function titleOf({ day, diary: own }: Words, column: DiaryColumn): string {
  switch (column.of) {
    case 'meal':
      return own.MEAL_TITLES[column.moment]
    case 'hours':
      return day.hoursText(column.from, column.to)
    case 'untagged':
      return `${day.hoursText(0, HOURS_PER_DAY)}, ${own.NO_TAG}`
    case 'no-time':
      return own.NO_TIME_COLUMN
  }
}

function dayCell({ years, words }: ReportContext, from: DayNumber, to: DayNumber): readonly Inline[] {
  const name = (day: DayNumber) => `${WEEKDAYS[weekday(day)]} ${words.dates.shortDayText(day, years)}`
  return [from === to ? name(from) : `${name(from)} – ${name(to)}`]
}

/** '[' before a day with tests of a stretch that is told once. */
function bracketOf(
  { analysis: { bracketed }, words }: ReportContext,
  items: readonly DiaryItem[],
): readonly Inline[] {
  const within = items.some(({ first, set }) =>
    (set?.members ?? [first]).some((index) => bracketed.has(index)),
  )
  return within ? [{ text: `${words.stretches.BRACKET}\u00A0`, bold: true }] : []
}

/** By `weekday`. */
const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const

function cell(context: ReportContext, items: readonly DiaryItem[], timed = false): readonly Inline[] {
  const { readings } = context.analysis
  const shown = shownInCell(readings, items)
  const runs = shown.flatMap((item, i) => [
    ...(i === 0 ? [] : [LINE_END]),
    ...(timed ? [grey(`${clock(readings.at[item.first])} `)] : []),
    ...(holdsLow(readings, item) ? lowRuns(context, item) : otherRuns(context, item)),
  ])
  return shown.length === items.length
    ? runs
    : [...runs, LINE_END, grey(`and ${items.length - shown.length} more`)]
}

/** '■ 52 → 90 (9 min)', the low large. */
function lowRuns(context: ReportContext, { first, set }: DiaryItem): readonly Inline[] {
  const { at } = context.analysis.readings
  const square = { text: '■\u00A0', bold: true, fontSize: LARGE }
  if (set === null) return [square, valueRun(context, first)]
  const minutes = minutesBetween(at[first], at[set.members[set.members.length - 1]])
  const duration = context.words.dates.durationText(minutes).replaceAll(' ', '\u00A0')
  return [square, ...setRuns(context, set), ` (${duration})`]
}

function otherRuns(context: ReportContext, { first, set }: DiaryItem): readonly Inline[] {
  if (set !== null) return setRuns(context, set)
  const isMarked = context.analysis.marked.has(first)
  return [isMarked ? valueRun(context, first) : markedText(context.words, context.analysis, first)]
}

/** '118 (2)' for the mean of two that agree, '240? → 118' in the order of the tests, a line may end before an arrow. */
function setRuns(context: ReportContext, set: RepeatSet): readonly Inline[] {
  const { analysis, unit, words } = context
  const told = setTold(analysis, set)
  if ('sequence' in told) {
    return told.sequence.flatMap((index, i): readonly Inline[] => [
      ...(i === 0 ? [] : [' →\u00A0']),
      index === null ? '…' : valueRun(context, index),
    ])
  }
  const text =
    'marker' in told ? markedText(words, analysis, told.marker) : words.numbers.glucoseText(told.mgDl, unit)
  return [`${text} (${set.members.length})`]
}

/** A low large, a doubtful value small, what is trusted beside it bold. */
function valueRun(context: ReportContext, index: number): Inline {
  const { readings, marked } = context.analysis
  const text = markedText(context.words, context.analysis, index)
  if (isLow(readings, index)) return { text, bold: true, fontSize: LARGE }
  return marked.has(index) ? { text, fontSize: DOUBTFUL } : { text, bold: true }
}

function remarks(
  context: ReportContext,
  items: readonly DiaryItem[],
  entries: readonly LogEntry[],
): readonly Inline[] {
  const members = items.flatMap(({ first, set }) => set?.members ?? [first])
  const notes = [...new Set(members.map((index) => printedNote(context, index).trim()))]
    .filter((note) => note !== '')
    .map((note) => oneLine(note, LENGTH.note))
  // Of what the log says besides, amounts are no private words.
  const shown = context.options.withoutNotes ? entries.filter(({ text }) => /^\d/.test(text)) : entries
  const told = shown.map(({ at, dayOnly, label, text }) =>
    oneLine(
      `${dayOnly ? '' : `${clock(at)} `}${context.words.importMessages.entryLabel(label)} ${text}`,
      LENGTH.note,
    ),
  )
  return [oneLine([...notes, ...told].join('; '), LENGTH.remarks)]
}

function grey(text: string): Inline {
  return { text, color: PRINT_PALETTE.grey }
}
