import type { Analysis } from '../analysis/analysis'
import { unknownMeters } from '../kit/meters'
import type { ImportContext } from '../log/logSource'
import { TYPED_BY_HAND } from '../log/typedByHand'
import type { GlucoseUnit } from '../units/glucose'
import { dayOf, isoDay } from '../units/wallClock'
import { spanText } from '../wording/dates'
import { metersOnPaper } from '../wording/metersOnPaper'
import { count } from '../wording/numbers'
import { latestWarning } from './latestReading'
import { logView, type LogView } from './logsView'
import { lowsView, type LowsView } from './lowsView'
import { filterChoices, type FilterChoices } from './readingRows'

/** What the window shows of an analysed visit wherever the person is; each screen asks for the rest. */
export interface OpenedView {
  readonly kind: 'opened'
  /** What cannot wait, above all else: a latest reading that is low, or HI. */
  readonly latest: string | null
  /** '2 March to 30 May 2026'. */
  readonly period: string
  /** '438 readings on 88 of 90 days'. */
  readonly extent: string
  readonly unit: GlucoseUnit
  readonly counts: VisitCounts
  readonly lows: LowsView
  readonly logs: readonly LogView[]
  readonly filters: FilterChoices
  /** To choose from where a form asks for a meter: by its name in the log, shown as on paper. */
  readonly meters: readonly { readonly value: string; readonly label: string }[]
  /** Meters that the kit names and no log has. */
  readonly unknownMeters: readonly string[]
  /** First and last day of all logs, ISO dates. */
  readonly days: { readonly from: string; readonly to: string }
}

/** What stands beside the names of the steps. */
export interface VisitCounts {
  readonly readings: number
  readonly doubtful: number
  /** Doubtful readings of which the person has said nothing yet. */
  readonly open: number
}

/** The view of an analysed visit. */
export function visitView(analysis: Analysis, now: ImportContext): OpenedView {
  const { readings, settings, technique } = analysis
  const period = analysis.periods[0]
  const besideSensor = period.asLogged.n < period.end - period.start
  const onPaper = metersOnPaper(readings.meters)
  const decided = new Set(technique.decided.map(({ index }) => index))
  return {
    kind: 'opened',
    latest: latestWarning(readings, settings.unit, now),
    period: spanText(period.from, period.to),
    extent: `${count(period.asLogged.n, besideSensor ? 'finger-stick reading' : 'reading')} on ${period.daysWithReadings} of ${count(period.days, 'day')}`,
    unit: settings.unit,
    counts: {
      readings: readings.n,
      doubtful: technique.doubtful.length + technique.kept.length,
      open: technique.doubtful.filter(({ index }) => !decided.has(index)).length,
    },
    lows: lowsView(analysis, period),
    logs: analysis.sources.map(logView),
    filters: filterChoices(analysis),
    meters: readings.meters
      .map((value, i) => ({ value, label: onPaper[i] }))
      .filter(({ value }) => value !== TYPED_BY_HAND),
    unknownMeters: unknownMeters(analysis.kit, readings.meters, onPaper),
    days: { from: isoDay(dayOf(readings.at[0])), to: isoDay(dayOf(readings.at[readings.n - 1])) },
  }
}

/** Name under which the pages are offered for saving; it tells the days and nothing of the person. */
export function reportFileName({ periods: [{ from, to }] }: Analysis): string {
  return `visit-report-${isoDay(from)}-to-${isoDay(to)}.pdf`
}
