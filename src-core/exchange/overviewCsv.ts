import Papa from 'papaparse'
import type { Measure } from '../told/measures'
import type { Overview, OverviewRow } from '../told/overview'
import { type DayNumber, isoDay } from '../units/wallClock'
import { SPREADSHEET_FORMAT } from './spreadsheetFormat'

type Cell = string | number | null

/**
 * One log of a folder by the names of its columns: numbers at full precision, glucose in mg/dL; null what is held back on
 * paper and, of a log without a report, every figure.
 */
function overviewRecord({ log, report, state, overview, why }: OverviewRow, today: DayNumber) {
  const of = <T extends Cell>(figure: (overview: Overview) => T): T | null =>
    overview === null ? null : figure(overview)
  const a1cRange = overview?.a1c.estimate?.rangePercent
  return {
    log,
    report,
    state,
    kind: of(({ kind }) => kind),
    from: of(({ from }) => isoDay(from)),
    to: of(({ to }) => isoDay(to)),
    days: of(({ days }) => days),
    days_with_readings: of(({ daysWithReadings }) => daysWithReadings),
    readings: of(({ n }) => n),
    low_episodes: of(({ episodes }) => episodes),
    readings_below_70: of(({ readingsBelow70 }) => readingsBelow70),
    readings_below_54: of(({ readingsBelow54 }) => readingsBelow54),
    nights_tested: of(({ nights }) => nights.tested),
    nights_with_lows: of(({ nights }) => nights.withLows),
    percent_above_250: of(({ above250 }) => valueOf(above250)),
    mean_mg_dl: of(({ mean }) => valueOf(mean)),
    cv_percent: of(({ cv }) => valueOf(cv)),
    a1c_from_percent: a1cRange?.[0] ?? null,
    a1c_to_percent: a1cRange?.[1] ?? null,
    doubtful_percent: of(({ n, doubtful }) => (n === 0 ? null : (100 * doubtful) / n)),
    last_day: of(({ lastDay }) => isoDay(lastDay)),
    days_since_last: of(({ lastDay }) => today - lastDay),
    findings: overview?.findings ?? [],
    why,
  }
}

/** The list of a folder as a CSV file's text: comma, header, one line a log, empty where a figure is null. `today`: the day of making. */
export function overviewCsv(rows: readonly OverviewRow[], today: DayNumber): string {
  const records = rows.map((row) => overviewRecord(row, today))
  const lines = records.map((record) =>
    Object.values<Cell | readonly string[]>(record).map((cell) =>
      typeof cell === 'object' ? (cell?.join(';') ?? '') : cell,
    ),
  )
  return `${Papa.unparse([Object.keys(records[0] ?? {}), ...lines], SPREADSHEET_FORMAT)}\n`
}

/** The same for programs: one line of JSON a log, with the names of the CSV's columns, `findings` as a list. */
export function overviewJsonLines(rows: readonly OverviewRow[], today: DayNumber): string {
  return rows.map((row) => `${JSON.stringify(overviewRecord(row, today))}\n`).join('')
}

function valueOf({ heldBack, points: [point] }: Measure): number | null {
  return heldBack !== null || typeof point !== 'number' ? null : point
}
