import Papa from 'papaparse'
import type { Measure } from '../told/measures'
import type { Overview, OverviewRow } from '../told/overview'
import { isoDay } from '../units/wallClock'
import { SPREADSHEET_FORMAT } from './spreadsheetFormat'

const HEADER = [
  ...[
    'log',
    'report',
    'state',
    'kind',
    'from',
    'to',
    'days',
    'days_with_readings',
    'readings',
    'low_episodes',
  ],
  ...['readings_below_70', 'readings_below_54', 'nights_tested', 'nights_with_lows', 'percent_above_250'],
  ...['mean_mg_dl', 'cv_percent', 'a1c_from_percent', 'a1c_to_percent', 'doubtful_percent', 'last_day'],
  ...['days_since_last', 'findings', 'why'],
] as const

/**
 * The list of a folder as a CSV file's text: comma, header, numbers at full precision, glucose in mg/dL; what is held back
 * on paper is empty. `today`: the day of making.
 */
export function overviewCsv(rows: readonly OverviewRow[], today: number): string {
  const cells = rows.map(({ log, report, state, overview, why }) => [
    ...[log, report, state],
    ...(overview === null ? Array<string>(HEADER.length - 4).fill('') : figuresOf(overview, today)),
    why,
  ])
  return `${Papa.unparse([[...HEADER], ...cells], SPREADSHEET_FORMAT)}\n`
}

function figuresOf(overview: Overview, today: number): readonly (string | number)[] {
  const { kind, from, to, days, daysWithReadings, n, episodes, nights, a1c, lastDay } = overview
  const [a1cFrom, a1cTo] = a1c.estimate?.rangePercent ?? ['', '']
  return [
    ...[kind, isoDay(from), isoDay(to), days, daysWithReadings, n, episodes ?? ''],
    ...[overview.readingsBelow70, overview.readingsBelow54, nights.tested, nights.withLows],
    ...[valueOf(overview.above250), valueOf(overview.mean), valueOf(overview.cv), a1cFrom ?? '', a1cTo ?? ''],
    ...[n === 0 ? '' : (100 * overview.doubtful) / n, isoDay(lastDay), today - lastDay],
    overview.findings.join(';'),
  ]
}

function valueOf({ heldBack, points: [point] }: Measure): string | number {
  return heldBack !== null || typeof point !== 'number' ? '' : point
}
