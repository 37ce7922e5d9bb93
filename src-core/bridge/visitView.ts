import type { Analysis } from '../analysis/analysis'
import type { ImportContext } from '../log/logSource'
import { isoDay } from '../units/wallClock'
import { spanText } from '../wording/dates'
import { count } from '../wording/numbers'
import { figuresView, type FiguresView } from './figuresView'
import { latestWarning } from './latestReading'
import { logView, type LogView } from './logsView'
import { lowsView, type LowsView } from './lowsView'
import { pictureView, type PictureView } from './pictureView'
import type { StoppedView } from './stoppedView'
import { type StandsOutView, standsOutView } from './standsOutView'
import { trustView } from './trustView'

/** All that the window shows of the logs it opened, in the words and numbers it shows. */
export type VisitView = OpenedView | StoppedView

export interface OpenedView {
  readonly kind: 'opened'
  /** Names this visit in later messages. */
  readonly visit: string
  /** What cannot wait, above all else: a latest reading that is low, or HI. */
  readonly latest: string | null
  /** '2 March to 30 May 2026'. */
  readonly period: string
  /** '438 readings on 88 of 90 days'. */
  readonly extent: string
  readonly unit: string
  readonly lows: LowsView
  readonly picture: PictureView
  readonly figures: FiguresView
  readonly standsOut: StandsOutView
  /** How far the readings can be trusted, in sentences. */
  readonly trust: readonly string[]
  readonly logs: readonly LogView[]
}

/** The view of an analysed visit. */
export function visitView(
  analysis: Analysis,
  { visit, now }: { visit: string; now: ImportContext },
): OpenedView {
  const { readings, settings } = analysis
  const period = analysis.periods[0]
  return {
    kind: 'opened',
    visit,
    latest: latestWarning(readings, settings.unit, now),
    period: spanText(period.from, period.to),
    extent: `${count(period.end - period.start, 'reading')} on ${period.daysWithReadings} of ${count(period.days, 'day')}`,
    unit: settings.unit,
    lows: lowsView(analysis, period),
    picture: pictureView(analysis, period),
    figures: figuresView(analysis, period),
    standsOut: standsOutView(analysis, period),
    trust: trustView(analysis, period),
    logs: analysis.sources.map(logView),
  }
}

/** Name under which the pages are offered for saving; it tells the days and nothing of the person. */
export function reportFileName({ periods: [{ from, to }] }: Analysis): string {
  return `visit-report-${isoDay(from)}-to-${isoDay(to)}.pdf`
}
