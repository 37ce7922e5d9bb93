import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { readingsAround } from '../charts/contextPicture'
import { daysRows } from '../charts/daysPicture'
import { spreadOf } from '../charts/distributionPicture'
import { isLow } from '../log/readings'
import type { PlainTable } from '../shown/plainTable'
import { yearsFor, yearsOf } from '../told/years'
import type { Words } from '../wording/words'

// What pictures show, as tables for those who do not see them, from the same numbers.

/** The days row by row: readings, median, lows. */
export function daysTable(words: Words, analysis: Analysis, figures: PeriodFigures): PlainTable {
  const { unit } = analysis.settings
  const years = yearsFor(figures.from, figures.to)
  return {
    titles: words.tables.DAYS_TITLES,
    rows: daysRows(analysis, figures).rows.map((row) => [
      words.pictures.rowText(row, (day) => words.dates.shortDayText(day, years)),
      String(row.n),
      words.figures.glucoseOrNone(row.median, unit),
      String(row.lows),
    ]),
  }
}

/** How many readings each step of values holds; LO and HI have rows of their own. */
export function spreadTable(words: Words, analysis: Analysis, figures: PeriodFigures): PlainTable {
  const { unit } = analysis.settings
  const { bars, lo, hi } = spreadOf(analysis, periodReadings(analysis, figures))
  return {
    titles: words.tables.SPREAD_TITLES,
    rows: [
      ...(lo > 0 ? [['LO', String(lo), words.tables.MARKS.low]] : []),
      ...bars.map(({ from, to, n, low }) => [
        words.numbers.rangeText(words.numbers.glucoseText(from, unit), words.numbers.glucoseText(to, unit)),
        String(n),
        low ? words.tables.MARKS.low : '',
      ]),
      ...(hi > 0 ? [['HI', String(hi), '']] : []),
    ],
  }
}

/** More rows than this in a day come from a sensor; the picture itself names no more values. */
const MOST_AROUND = 100

/** The readings of the hours around one of them, the nearest where they are many. */
export function aroundTable(words: Words, analysis: Analysis, index: number): PlainTable {
  const { readings, technique, settings, marked, bracketed } = analysis
  const { MARKS } = words.tables
  const years = yearsOf(readings)
  const kept = new Set(technique.kept.map((reading) => reading.index))
  const all = readingsAround(analysis, index)
  const first = Math.max(0, Math.min(all.indexOf(index) - MOST_AROUND / 2, all.length - MOST_AROUND))
  return {
    titles: words.tables.AROUND_TITLES,
    rows: all
      .slice(first, first + MOST_AROUND)
      .map((i) => [
        words.dates.readingMoment(readings, i, years),
        words.numbers.readingText(readings, i, settings.unit),
        [
          ...(i === index ? [MARKS.this] : []),
          ...(isLow(readings, i) ? [MARKS.low] : []),
          ...(marked.has(i) ? [MARKS.doubtful] : []),
          ...(bracketed.has(i) ? [MARKS.bracketed] : []),
          ...(kept.has(i) ? [MARKS.kept] : []),
        ].join(', '),
      ]),
  }
}
