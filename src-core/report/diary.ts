import { USUAL_DIARY_DAYS } from '../reference/paper'
import type { LogEntry } from '../log/entries'
import { mealMoment } from '../log/mealWords'
import { hasClockTime, isLow, isMarker, rangeOfDays, type Readings } from '../log/readings'
import { BLOCK_HOURS, HOURS_PER_DAY } from '../reference/dayParts'
import type { RepeatSet } from '../technique/technique'
import { clock, type DayNumber, dayOf, minutesBetween, secondOfDay, weekday } from '../units/wallClock'
import { PRINT_PALETTE } from '../charts/palette'
import { tellsMeals } from '../day/meals'
import { markedText } from '../shown/markedText'
import { sequenceOf, withGaps } from '../told/lowEvents'
import { toldOnce } from '../told/stretches'
import { isInPeriod, type ReportContext } from './context'
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
/** A cell shows every low, and of the other tests no more than these. */
const MOST_OTHERS = 6

/** A column of the diary: what it is called and what stands in it. */
interface Column {
  readonly title: string
  readonly holds: (index: number) => boolean
  /** Whether the hour stands beside each test, for the title names none. */
  readonly timed?: true
  /** Whether the log's own tags put the tests there. */
  readonly byTag?: true
}

/** A single test, or a set of repeats that counts as one. */
type Item = { readonly first: number; readonly set: RepeatSet | null }

/**
 * One row for each of the latest days with readings, columns by part of the day; stretches without readings in one
 * row. A sensor's log has too many readings for a diary.
 */
export function diary(context: ReportContext): readonly Block[] {
  const { readings } = context.analysis
  const { indexes, figures, words } = context
  const days = context.options.diaryDays ?? USUAL_DIARY_DAYS
  const last = indexes.at(-1)
  if (figures.kind === 'sensor' || days === 0 || last === undefined) return []
  const to = dayOf(readings.at[last])
  const from = Math.max(figures.from, to - days + 1)
  const byDay = itemsByDay(context, from, to)
  const shown = [...byDay.values()].flat()
  const columns = columnsOf(
    context,
    shown.map(({ first }) => first),
  )
  const widthOf = (column: Column) => {
    const held = shown.filter(({ first }) => column.holds(first))
    if (column.timed) return WIDTHS.timed
    return held.some(({ set }) => set) ? WIDTHS.sets : WIDTHS.tests
  }
  const entries = entriesByDay(context.analysis.entries)
  const rows: (string | readonly Inline[])[][] = []
  let day = from
  while (day <= to) {
    const items = byDay.get(day)
    const told = entries.get(day)
    if (items === undefined && told === undefined) {
      let end = day
      while (end < to && !byDay.has(end + 1) && !entries.has(end + 1)) end++
      rows.push([
        dayCell(context, day, end),
        ...columns.map((_, i) =>
          i === 0 ? [{ text: words.diary.NO_READINGS_THEN, color: PRINT_PALETTE.grey, noWrap: true }] : '',
        ),
        '',
      ])
      day = end + 1
      continue
    }
    rows.push([
      [...bracketOf(context, items ?? []), ...dayCell(context, day, day)],
      ...columns.map((column) =>
        cell(
          context,
          (items ?? []).filter(({ first }) => column.holds(first)),
          column.timed,
        ),
      ),
      remarks(context, items ?? [], told ?? []),
    ])
    day++
  }
  const stretches = toldOnce(context.analysis, rangeOfDays(readings, { from, to }))
  return [
    heading(words.diary.DIARY),
    greyParagraph(
      `${words.diary.diaryCaption(to - from + 1, from > figures.from ? to - figures.from + 1 : null, context.unit)} ${words.diary.diaryLegend(new Set(columns.map(({ byTag }) => byTag)).size > 1)}${words.stretches.bracketedDaysSentence(stretches)}`,
      { fontSize: TYPE.small },
    ),
    table(
      [
        { title: '', width: WIDTHS.day + (stretches.length > 0 ? WIDTHS.bracket : 0) },
        ...columns.map((column) => ({ title: column.title, width: widthOf(column) })),
        { title: words.pages.DIARY_NOTES, width: '*' as const },
      ],
      rows,
      { fontSize: SMALL },
    ),
  ]
}

/** Each day's tests in order of time, sets of repeats as one. */
function itemsByDay(context: ReportContext, from: DayNumber, to: DayNumber): ReadonlyMap<DayNumber, Item[]> {
  const { readings, technique } = context.analysis
  const setOf = new Map<number, RepeatSet>()
  for (const set of technique.repeatSets) for (const member of set.members) setOf.set(member, set)
  const byDay = new Map<DayNumber, Item[]>()
  for (const index of context.indexes) {
    const day = dayOf(readings.at[index])
    if (day < from || day > to) continue
    const set = setOf.get(index) ?? null
    // The rest of a set stands with its first test, also where that was before midnight.
    if (set !== null && set.members[0] !== index && isInPeriod(context, set.members[0])) continue
    const items = byDay.get(day)
    const item = { first: index, set }
    if (items === undefined) byDay.set(day, [item])
    else items.push(item)
  }
  return byDay
}

/** Columns for the tests `shown`: by the log's own tags where it tells meals, a test without one by its hour. */
function columnsOf(context: ReportContext, shown: readonly number[]): readonly Column[] {
  const { words } = context
  const { readings } = context.analysis
  const ofMeal = new Map(shown.map((index) => [index, mealColumnOf(readings.meal(index))]))
  const meals = MEAL_COLUMNS.filter(({ moment }) => [...ofMeal.values()].includes(moment))
  if (!tellsMeals(context.figures.byMeal) || meals.length === 0) {
    const columns = hoursColumns(words, readings, BLOCK_HOURS)
    return shown.every((index) => hasClockTime(readings, index))
      ? columns
      : [...columns, noTime(words, readings)]
  }
  const untagged = shown.filter((index) => ofMeal.get(index) === null)
  const timed = untagged.filter((index) => hasClockTime(readings, index))
  const byTag = meals.map(({ moment, fromHour }) => ({
    title: words.diary.MEAL_TITLES[moment],
    holds: (index: number) => ofMeal.get(index) === moment,
    fromHour,
    byTag: true as const,
  }))
  const byHours = HOURS_OF_UNTAGGED.map((hours) =>
    hoursColumns(words, readings, hours)
      .filter(({ holds }) => timed.some(holds))
      .map((column) => ({
        ...column,
        holds: (index: number) => ofMeal.get(index) === null && column.holds(index),
      })),
  ).find(({ length }) => length + meals.length <= MOST_COLUMNS)
  const columns =
    byHours === undefined
      ? [
          ...byTag,
          {
            title: `${words.day.hoursText(0, HOURS_PER_DAY)}, ${words.diary.NO_TAG}`,
            holds: (index: number) => ofMeal.get(index) === null && hasClockTime(readings, index),
            timed: true as const,
          },
        ]
      : [...byTag, ...byHours].sort((a, b) => a.fromHour - b.fromHour)
  return timed.length === untagged.length
    ? columns
    : [
        ...columns,
        {
          ...noTime(words, readings),
          holds: (index) => ofMeal.get(index) === null && !hasClockTime(readings, index),
        },
      ]
}

/** More leave no room for the notes, on A4 either. */
const MOST_COLUMNS = 9
/** Tests without a tag stand in columns of so many hours: the finest that leave room. */
const HOURS_OF_UNTAGGED = [BLOCK_HOURS, 2 * BLOCK_HOURS] as const

function hoursColumns(
  words: Words,
  readings: Readings,
  hours: number,
): readonly (Column & { readonly fromHour: number })[] {
  return Array.from({ length: HOURS_PER_DAY / hours }, (_, part) => ({
    title: words.day.hoursText(part * hours, (part + 1) * hours),
    fromHour: part * hours,
    holds: (index: number) =>
      hasClockTime(readings, index) && Math.floor(secondOfDay(readings.at[index]) / 3600 / hours) === part,
  }))
}

function noTime(words: Words, readings: Readings): Column {
  return { title: words.diary.NO_TIME_COLUMN, holds: (index) => !hasClockTime(readings, index) }
}

/** The moments that have a column, with the hour from which such tests are usual: for the order alone. Design choice. */
const MEAL_COLUMNS = [
  { moment: 'night', fromHour: 0 },
  { moment: 'before-breakfast', fromHour: 6 },
  { moment: 'after-breakfast', fromHour: 9 },
  { moment: 'before-lunch', fromHour: 11.5 },
  { moment: 'after-lunch', fromHour: 13.5 },
  { moment: 'before-dinner', fromHour: 17 },
  { moment: 'after-dinner', fromHour: 19.5 },
  { moment: 'bedtime', fromHour: 21.5 },
] as const
type MealColumn = (typeof MEAL_COLUMNS)[number]['moment']

/** A tag that names no meal puts a test nowhere. */
function mealColumnOf(tag: string): MealColumn | null {
  const told = mealMoment(tag)
  return MEAL_COLUMNS.find(({ moment }) => moment === told)?.moment ?? null
}

function dayCell({ years, words }: ReportContext, from: DayNumber, to: DayNumber): readonly Inline[] {
  const name = (day: DayNumber) => `${WEEKDAYS[weekday(day)]} ${words.dates.shortDayText(day, years)}`
  return [from === to ? name(from) : `${name(from)} – ${name(to)}`]
}

/** '[' before a day with tests of a stretch that is told once. */
function bracketOf(
  { analysis: { bracketed }, words }: ReportContext,
  items: readonly Item[],
): readonly Inline[] {
  const within = items.some(({ first, set }) =>
    (set?.members ?? [first]).some((index) => bracketed.has(index)),
  )
  return within ? [{ text: `${words.stretches.BRACKET}\u00A0`, bold: true }] : []
}

/** By `weekday`. */
const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const

function cell(context: ReportContext, items: readonly Item[], timed = false): readonly Inline[] {
  const { readings } = context.analysis
  const holdsLow = ({ first, set }: Item) => (set === null ? isLow(readings, first) : set.holdsLow)
  let others = 0
  const shown = items.filter((item) => holdsLow(item) || ++others <= MOST_OTHERS)
  const runs = shown.flatMap((item, i) => [
    ...(i === 0 ? [] : [LINE_END]),
    ...(timed ? [grey(`${clock(readings.at[item.first])} `)] : []),
    ...(holdsLow(item) ? lowRuns(context, item) : otherRuns(context, item)),
  ])
  return shown.length === items.length
    ? runs
    : [...runs, LINE_END, grey(`and ${items.length - shown.length} more`)]
}

/** '■ 52 → 90 (9 min)', the low large. */
function lowRuns(context: ReportContext, { first, set }: Item): readonly Inline[] {
  const { readings } = context.analysis
  const square = { text: '■\u00A0', bold: true, fontSize: LARGE }
  if (set === null) return [square, valueRun(context, first)]
  const last = set.members[set.members.length - 1]
  return [
    square,
    ...sequenceRuns(context, sequenceOf(readings, set.members)),
    ` (${context.words.dates.durationText(minutesBetween(readings.at[first], readings.at[last])).replaceAll(' ', '\u00A0')})`,
  ]
}

/** '118', '118 (2)' for the mean of two that agree, '240? → 118' in the order of the tests where a doubt or a dispute is among them. */
function otherRuns(context: ReportContext, { first, set }: Item): readonly Inline[] {
  const { analysis, unit, words } = context
  const { readings, marked, bracketed } = analysis
  if (set === null) return [marked.has(first) ? valueRun(context, first) : markedText(words, analysis, first)]
  const { members, agree } = set
  if (!agree || members.some((index) => marked.has(index)))
    return sequenceRuns(context, doubtsAndEnds(context, members))
  const marker = members.find((index) => isMarker(readings, index))
  // A mean with a test beyond the meter's limit would be no measured value.
  const mean = members.some((index) => bracketed.has(index)) ? set.meanMgDl : set.consensusMgDl
  const consensus =
    marker === undefined ? words.numbers.glucoseText(mean, unit) : markedText(words, analysis, marker)
  return [`${consensus} (${members.length})`]
}

/** A low large, a doubtful value small, what is trusted beside it bold. */
function valueRun(context: ReportContext, index: number): Inline {
  const { readings, marked } = context.analysis
  const text = markedText(context.words, context.analysis, index)
  if (isLow(readings, index)) return { text, bold: true, fontSize: LARGE }
  return marked.has(index) ? { text, fontSize: DOUBTFUL } : { text, bold: true }
}

/** Tests in their order, '…' for null; a line may end before an arrow. */
function sequenceRuns(context: ReportContext, sequence: readonly (number | null)[]): readonly Inline[] {
  return sequence.flatMap((index, i): readonly Inline[] => [
    ...(i === 0 ? [] : [' →\u00A0']),
    index === null ? '…' : valueRun(context, index),
  ])
}

/** Of a long set every doubtful test and the first and last of the others; null for what is left out between them. */
function doubtsAndEnds(
  { analysis: { marked } }: ReportContext,
  members: readonly number[],
): readonly (number | null)[] {
  if (members.length <= MOST_OTHERS) return members
  const sound = members.filter((index) => !marked.has(index))
  const ends = [sound[0], sound[sound.length - 1]]
  return withGaps(members, (index) => marked.has(index) || ends.includes(index))
}

function remarks(
  context: ReportContext,
  items: readonly Item[],
  entries: readonly LogEntry[],
): readonly Inline[] {
  const { readings } = context.analysis
  const members = items.flatMap(({ first, set }) => set?.members ?? [first])
  const notes = [...new Set(members.map((index) => readings.note(index).trim()))]
    .filter((note) => note !== '')
    .map((note) => oneLine(note, LENGTH.note))
  const told = entries.map(({ at, dayOnly, label, text }) =>
    oneLine(
      `${dayOnly ? '' : `${clock(at)} `}${context.words.importMessages.entryLabel(label)} ${text}`,
      LENGTH.note,
    ),
  )
  return [oneLine([...notes, ...told].join('; '), LENGTH.remarks)]
}

function entriesByDay(entries: readonly LogEntry[]): ReadonlyMap<DayNumber, LogEntry[]> {
  const byDay = new Map<DayNumber, LogEntry[]>()
  for (const entry of entries) {
    const list = byDay.get(dayOf(entry.at))
    if (list === undefined) byDay.set(dayOf(entry.at), [entry])
    else list.push(entry)
  }
  return byDay
}

function grey(text: string): Inline {
  return { text, color: PRINT_PALETTE.grey }
}
