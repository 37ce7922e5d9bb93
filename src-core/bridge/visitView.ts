import type { Analysis } from '../analysis/analysis'
import { unitOfFirstLog } from '../analysis/openVisit'
import { unknownMeters } from '../kit/meters'
import type { ImportContext } from '../log/logSource'
import { isTyped } from '../log/typedByHand'
import type { DaySpan, Readings } from '../log/readings'
import type { GlucoseUnit } from '../units/glucose'
import { dayOf, isoDay } from '../units/wallClock'
import { sinceLastVisit } from '../visit/visitRequest'
import { metersOnPaper } from '../kit/metersOnPaper'
import { latestWarning } from './latestReading'
import { logView, type LogView } from './logsView'
import { lowsView, type LowsView } from './lowsView'
import { filterChoices, type FilterChoices } from './readingRows'
import { othersReadings } from '../told/othersReadings'
import { toldOnce } from '../told/stretches'
import type { Words } from '../wording/words'

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
  /** Printed where the person names none. */
  readonly unitOfLogs: GlucoseUnit
  readonly counts: VisitCounts
  readonly lows: LowsView
  /** What is told once in place of marks of doubt, in words. */
  readonly toldOnce: readonly string[]
  readonly logs: readonly LogView[]
  readonly filters: FilterChoices
  /** To choose from where a form asks for a meter: by its name in the log, shown as on paper. */
  readonly meters: readonly { readonly value: string; readonly label: string }[]
  /** Meters that the kit names and no log has. */
  readonly unknownMeters: readonly string[]
  /** First and last day of all logs, ISO dates. */
  readonly days: { readonly from: string; readonly to: string }
  /** That readings lie in none of the periods of the report, in words; null where all lie in one. */
  readonly outside: string | null
  /** The days since the last visit and those before, where they are known and not shown yet. */
  readonly sinceLast: { readonly period: DaySpan; readonly versus: DaySpan } | null
}

/** What stands beside the names of the steps. */
export interface VisitCounts {
  readonly readings: number
  /** As the pages count them: in the days of the report, without those that the person keeps. */
  readonly doubtful: number
  /** Others in those days whose note says that they may be somebody else's. */
  readonly others: number
  /** Those of both, but for stretches told once, of which the person has said nothing yet. */
  readonly open: number
}

/** The view of an analysed visit. `broughtAlong`: logs of a visit that was opened, null of one that began here. */
export function visitView(
  words: Words,
  analysis: Analysis,
  now: ImportContext,
  broughtAlong: readonly string[] | null = null,
): OpenedView {
  const { readings, settings, technique } = analysis
  const outside = outsideBySource(analysis)
  const allOutside = outside.reduce((sum, n) => sum + n, 0)
  const period = analysis.periods[0]
  const besideSensor = period.asLogged.n < period.end - period.start
  const onPaper = metersOnPaper(readings.meters)
  const ofLogs = metersOfLogs(readings)
  const decided = new Set(technique.decided.map(({ index }) => index))
  const doubtful = technique.doubtful.filter(({ index }) => index >= period.start && index < period.end)
  const isMarked = new Set([...technique.doubtful, ...technique.kept].map(({ index }) => index))
  const others = othersReadings(analysis, period).filter((index) => !isMarked.has(index))
  return {
    kind: 'opened',
    latest: latestWarning(words, readings, settings.unit, now),
    period: words.dates.spanText(period.from, period.to),
    extent: words.window.extentText(period, besideSensor),
    unit: settings.unit,
    unitOfLogs: unitOfFirstLog(analysis.sources, readings),
    counts: {
      readings: readings.n,
      doubtful: doubtful.length,
      others: others.length,
      open:
        doubtful.filter(({ index }) => analysis.marked.has(index) && !decided.has(index)).length +
        others.filter((index) => !decided.has(index)).length,
    },
    lows: lowsView(words, analysis, period),
    toldOnce: words.stretches.stretchesTexts(toldOnce(analysis, period)),
    logs: analysis.sources.map((log, source) => logView(words, log, outside[source])),
    filters: filterChoices(words, analysis),
    meters: readings.meters
      .map((value, i) => ({ value, label: onPaper[i] }))
      .filter((_, meter) => ofLogs.has(meter)),
    unknownMeters: unknownMeters(analysis.kit, readings.meters, onPaper),
    days: { from: isoDay(dayOf(readings.at[0])), to: isoDay(dayOf(readings.at[readings.n - 1])) },
    outside: allOutside > 0 ? words.window.outsideText(allOutside) : null,
    sinceLast: broughtAlong && sinceLast(analysis, new Set(broughtAlong)),
  }
}

/** Meters that a log names; what was typed comes from none. */
function metersOfLogs(readings: Readings): ReadonlySet<number> {
  const meters = new Set<number>()
  for (let i = 0; i < readings.n; i++) if (!isTyped(readings, i)) meters.add(readings.meter[i])
  return meters
}

function outsideBySource({ readings, sources, periods }: Analysis): readonly number[] {
  const outside = sources.map(() => 0)
  for (let i = 0; i < readings.n; i++) {
    if (!periods.some(({ start, end }) => i >= start && i < end)) outside[readings.source[i]]++
  }
  return outside
}

/** As the command line reports a visit to which logs were added; what a person typed belongs to the days before. */
function sinceLast(analysis: Analysis, broughtAlong: ReadonlySet<string>): OpenedView['sinceLast'] {
  const { readings, sources, periods } = analysis
  const isOld = (source: number) => broughtAlong.has(sources[source].sha256) || sources[source].typed === true
  if (broughtAlong.size === 0 || sources.every((_, source) => isOld(source))) return null
  const since = sinceLastVisit(readings, isOld)
  if (since === null) return null
  const isShown = [since.period, since.versus].every(
    ({ from, to }, i) => i < periods.length && periods[i].from === from && periods[i].to === to,
  )
  return isShown ? null : since
}
