import type { LogEntry } from '../log/entries'
import { MEAL_MOMENTS, mealMoment, type MealMoment } from '../log/mealWords'
import { hasClockTime, isLow, isMarker, rangeOfDays } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import type { RepeatSet } from '../technique/technique'
import { clock, type DayNumber, dayOf, secondOfDay, weekday } from '../units/wallClock'
import { PRINT_PALETTE } from '../charts/palette'
import { durationText, minutesBetween, shortDayText } from '../wording/dates'
import { hoursText } from '../wording/day'
import { DIARY, diaryCaption, diaryLegend, NO_READINGS_THEN, NO_TIME_COLUMN } from '../wording/diary'
import { glucoseText } from '../wording/numbers'
import { tellsMeals } from '../day/meals'
import { BRACKET, bracketedDaysSentence } from '../wording/stretches'
import { isInPeriod, markedText, type ReportContext } from './context'
import type { Block, Inline } from './document'
import { sequenceText } from './lowsFirst'
import { greyParagraph, heading, table, TYPE } from './parts'
import { stretchesIn } from './knownCauses'
import { LINE_END, oneLine } from './printable'

const SMALL = TYPE.small + 0.2
/** Lows and doubts are to be seen at arm's length. */
const LARGE = TYPE.body + 0.8
/** Columns by the widest that stands in them; 'breakfast' takes 30. Points. */
const WIDTHS = { day: 41, bracket: 6, tests: 32, sets: 38 } as const
const LENGTH = { note: 60, remarks: 220 } as const
/** A cell shows every low, and of the other tests no more than these. */
const MOST_OTHERS = 6

/** Four weeks. */
const USUAL_DIARY_DAYS = 28

/** A column of the diary: what it is called and what stands in it. */
interface Column {
  readonly title: string
  readonly holds: (index: number) => boolean
}

/** A single test, or a set of repeats that counts as one. */
type Item = { readonly first: number; readonly set: RepeatSet | null }

/**
 * One row for each of the latest days with readings, columns by part of the day; stretches without readings in one
 * row. A sensor's log has too many readings for a diary.
 */
export function diary(context: ReportContext): readonly Block[] {
  const { readings } = context.analysis
  const { indexes, figures } = context
  const days = context.options.diaryDays ?? USUAL_DIARY_DAYS
  const last = indexes.at(-1)
  if (figures.kind === 'sensor' || days === 0 || last === undefined) return []
  const to = dayOf(readings.at[last])
  const from = Math.max(figures.from, to - days + 1)
  const byDay = itemsByDay(context, from, to)
  const columns = columnsOf(context)
  const shown = [...byDay.values()].flat()
  const widthOf = (column: Column) => {
    const held = shown.filter(({ first }) => column.holds(first))
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
          i === 0 ? [{ text: NO_READINGS_THEN, color: PRINT_PALETTE.grey, noWrap: true }] : '',
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
        ),
      ),
      remarks(context, items ?? [], told ?? []),
    ])
    day++
  }
  const stretches = stretchesIn(context.analysis, rangeOfDays(readings, { from, to })).filter(
    ({ toldOnce }) => toldOnce,
  )
  return [
    heading(DIARY),
    greyParagraph(
      `${diaryCaption(to - from + 1, to - figures.from + 1, context.unit)} ${diaryLegend()}${bracketedDaysSentence(stretches)}`,
      { fontSize: TYPE.small },
    ),
    table(
      [
        { title: '', width: WIDTHS.day + (stretches.length > 0 ? WIDTHS.bracket : 0) },
        ...columns.map((column) => ({ title: column.title, width: widthOf(column) })),
        { title: 'notes and entries of the log', width: '*' as const },
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

function columnsOf(context: ReportContext): readonly Column[] {
  return tellsMeals(context.figures.byMeal) ? columnsByMeal(context) : columnsByClock(context)
}

function columnsByClock({ analysis: { readings }, indexes }: ReportContext): readonly Column[] {
  const blockOf = (index: number) => Math.floor(secondOfDay(readings.at[index]) / 3600 / BLOCK_HOURS)
  const columns = Array.from({ length: BLOCKS_PER_DAY }, (_, block) => ({
    title: hoursText(block * BLOCK_HOURS, (block + 1) * BLOCK_HOURS),
    holds: (index: number) => hasClockTime(readings, index) && blockOf(index) === block,
  }))
  if (indexes.every((index) => hasClockTime(readings, index))) return columns
  return [...columns, { title: NO_TIME_COLUMN, holds: (index) => !hasClockTime(readings, index) }]
}

/** Where a test without a meal's tag goes: the column of the hours in which such tests are usual. Design choice. */
const USUAL_HOURS: readonly (readonly [number, MealMoment])[] = [
  [6, 'night'],
  [9, 'before-breakfast'],
  [11.5, 'after-breakfast'],
  [13.5, 'before-lunch'],
  [17, 'after-lunch'],
  [19.5, 'before-dinner'],
  [21.5, 'after-dinner'],
  [24, 'bedtime'],
]

const MEAL_TITLES: Readonly<Record<string, string>> = {
  night: 'night',
  'before-breakfast': 'before breakfast',
  'after-breakfast': 'after breakfast',
  'before-lunch': 'before lunch',
  'after-lunch': 'after lunch',
  'before-dinner': 'before dinner',
  'after-dinner': 'after dinner',
  bedtime: 'bedtime',
}

function columnsByMeal({ analysis: { readings }, indexes }: ReportContext): readonly Column[] {
  const momentOf = (index: number): MealMoment | null => {
    const told = mealMoment(readings.meal(index))
    if (told !== null && told in MEAL_TITLES) return told
    if (!hasClockTime(readings, index)) return null
    const hour = secondOfDay(readings.at[index]) / 3600
    return USUAL_HOURS.find(([before]) => hour < before)?.[1] ?? 'bedtime'
  }
  const columns: readonly Column[] = [
    'night' as const,
    ...MEAL_MOMENTS.filter((moment) => moment !== 'night'),
  ]
    .filter((moment) => moment in MEAL_TITLES)
    .map((moment) => ({
      title: MEAL_TITLES[moment],
      holds: (index: number) => momentOf(index) === moment,
    }))
  if (indexes.every((index) => momentOf(index) !== null)) return columns
  return [...columns, { title: NO_TIME_COLUMN, holds: (index) => momentOf(index) === null }]
}

function dayCell({ years }: ReportContext, from: DayNumber, to: DayNumber): readonly Inline[] {
  const name = (day: DayNumber) => `${WEEKDAYS[weekday(day)]} ${shortDayText(day, years)}`
  return [from === to ? name(from) : `${name(from)} – ${name(to)}`]
}

/** '[' before a day with tests of a stretch that is told once. */
function bracketOf({ analysis: { bracketed } }: ReportContext, items: readonly Item[]): readonly Inline[] {
  const within = items.some(({ first, set }) =>
    (set?.members ?? [first]).some((index) => bracketed.has(index)),
  )
  return within ? [{ text: `${BRACKET}\u00A0`, bold: true }] : []
}

/** By `weekday`. */
const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const

function cell(context: ReportContext, items: readonly Item[]): readonly Inline[] {
  const holdsLow = ({ first, set }: Item) =>
    set === null ? isLow(context.analysis.readings, first) : set.holdsLow
  let others = 0
  const shown = items.filter((item) => holdsLow(item) || ++others <= MOST_OTHERS)
  const runs = shown.flatMap((item, i) => [
    ...(i === 0 ? [] : [LINE_END]),
    ...(holdsLow(item) ? lowRuns(context, item) : otherRuns(context, item)),
  ])
  return shown.length === items.length
    ? runs
    : [...runs, LINE_END, grey(`and ${items.length - shown.length} more`)]
}

/** '■ 52 → 90 (9 min)', large and bold. */
function lowRuns(context: ReportContext, { first, set }: Item): readonly Inline[] {
  const { readings } = context.analysis
  const large = { bold: true, fontSize: LARGE }
  if (set === null) return [{ text: `■ ${markedText(context, first)}`, ...large }]
  const last = set.members[set.members.length - 1]
  return [
    { text: `■ ${sequenceText(context, set.members)}`, ...large },
    `\u00A0(${durationText(minutesBetween(readings.at[first], readings.at[last]))})`,
  ]
}

/** '118', '118 (2)' for the consensus of two, '180?' large where doubtful. */
function otherRuns(context: ReportContext, { first, set }: Item): readonly Inline[] {
  const { readings } = context.analysis
  const marked = (index: number): Inline => {
    const text = markedText(context, index)
    return context.analysis.marked.has(index) ? { text, bold: true, fontSize: LARGE } : text
  }
  if (set === null) return [marked(first)]
  const doubtful = set.members.filter((index) => context.analysis.marked.has(index))
  if (doubtful.length === set.members.length) {
    return doubtful.flatMap((index, i) => (i === 0 ? [marked(index)] : [' ', marked(index)]))
  }
  const sound = set.members.length - doubtful.length
  const marker = set.members.find((index) => isMarker(readings, index) && !context.analysis.marked.has(index))
  // A mean with a test beyond the meter's limit would be no measured value.
  const consensus =
    marker === undefined ? glucoseText(set.consensusMgDl, context.unit) : markedText(context, marker)
  return [
    sound === 1 ? consensus : `${consensus} (${sound})`,
    ...doubtful.flatMap((index) => [' ', marked(index)]),
  ]
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
    oneLine(`${dayOnly ? '' : `${clock(at)} `}${label} ${text}`, LENGTH.note),
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
