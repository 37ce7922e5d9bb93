import type { Decision } from '../model/decision'
import { comparePeriods } from '../compare/comparePeriods'
import { findLows, type LowNotCounted, type NotCountedWhy } from '../day/lows'
import { byMeal } from '../day/meals'
import { latestStretch } from '../day/latestStretch'
import { unprompted } from '../day/promptedTests'
import { timeOfDay } from '../day/timeOfDay'
import { weekFigures } from '../day/week'
import type { Kit } from '../kit/kit'
import { isOfMeter } from '../kit/meters'
import { besideLaboratory } from '../kit/laboratoryA1c'
import { findFindings } from '../findings/findings'
import type { LogEntry } from '../log/entries'
import type { LogReport, SetAsideReason } from '../log/logReport'
import { type DaySpan, FLAG, isLow, type Readings, rangeOfDays } from '../log/readings'
import { glucoseManagementIndicator } from '../statistics/estimatedA1c'
import { intervalsOf, withLowIntervalsOf } from '../statistics/intervals'
import { latestA1c } from '../statistics/latestA1c'
import { summarise, type Summary } from '../statistics/summary'
import { metersOnPaper } from '../kit/metersOnPaper'
import { correctedReadings, withCorrections } from '../technique/corrections'
import { assessTechnique } from '../technique/assessTechnique'
import { checkedReadings } from '../technique/checkedReadings'
import { equipmentStretches, marksOfDoubt } from '../technique/equipmentStretches'
import type { EquipmentTold } from '../technique/reasons/evidence'
import { chronologicalOrder } from '../technique/chronology'
import type { Technique } from '../technique/technique'
import { findTrials, withChangedConditions } from '../technique/trials'
import { dayOf } from '../units/wallClock'
import { placeDecisions } from './readingKeys'
import type { Analysis, PeriodFigures } from './analysis'
import { afresh, type Keep } from '../model/keep'
import type { Settings } from '../model/settings'

export interface AnalysisRequest {
  readonly sources: readonly LogReport[]
  readonly readings: Readings
  readonly duplicatesAcrossLogs: number
  readonly entries: readonly LogEntry[]
  readonly kit: Kit
  readonly decisions: readonly Decision[]
  readonly settings: Settings
  /** The period asked for first, then the one to compare it with, if any. */
  readonly periods: readonly DaySpan[]
}

/**
 * Every figure of a logbook and its periods. Where it holds readings of a sensor beside finger-sticks, the
 * figures come from the finger-sticks alone.
 */
export function analyse(request: AnalysisRequest, keep: Keep = afresh): Analysis {
  const { settings, duplicatesAcrossLogs, entries, kit } = request
  const inTime = keep('readings', [request.readings], () => inOrder(request.readings))
  const { order, trials } = inTime
  const { byIndex: decisions, gone: decisionsGone } = placeDecisions(
    request.decisions,
    inTime.readings,
    request.sources.map(({ sha256 }) => sha256),
  )
  const leftOut = [...decisions].filter(([, { choice }]) => choice === 'leave-out').map(([index]) => index)
  const corrected = correctedReadings(inTime.readings, leftOut)
  const readings = keep('corrections', [inTime, corrected], () => withCorrections(inTime.readings, corrected))
  const sensor = countSensorReadings(readings)
  const mixed = sensor > 0 && sensor < readings.n
  const technique = assessTechnique(readings, order, settings, {
    trials,
    equipment: keep('equipment', [kit, readings], () => equipmentOf(kit, readings.meters)),
    decisions,
    keep,
  })
  const leaveOut = mixed ? FLAG.sensor : 0
  const logbook: Logbook = {
    readings,
    technique,
    checked: checkedReadings(readings, technique),
    order,
    leaveOut,
    kind: sensor > 0 && !mixed ? 'sensor' : 'finger-stick',
    doubtful: new Set(technique.doubtful.map(({ index }) => index)),
    notCounted: findNotCounted(request, leaveOut),
  }
  const periods = request.periods.map((span, i) =>
    figuresOfPeriod(logbook, span, request, (stage, of, compute) => keep(`${stage} ${i}`, of, compute)),
  )
  const [first, second] = periods
  const stretches = equipmentStretches(technique.doubtful, readings, settings, periods)
  return {
    settings,
    sources: mixed ? noteSensorLogs(request.sources, readings) : request.sources,
    readings,
    duplicatesAcrossLogs,
    entries,
    kit,
    laboratory: besideLaboratory(kit, readings, settings, leaveOut),
    technique,
    stretches,
    ...marksOfDoubt(technique.doubtful, stretches),
    decisionsGone,
    periods,
    comparison:
      periods.length < 2
        ? null
        : keep('comparison', [readings, leaveOut, settings, first.asLogged, second.asLogged], () =>
            comparePeriods(readings, leaveOut, [first, second], settings),
          ),
  }
}

function inOrder(logged: Readings) {
  const order = chronologicalOrder(logged)
  const trials = findTrials(logged, order)
  return { order, trials, readings: withChangedConditions(logged, trials) }
}

function equipmentOf({ strips = [], controls = [] }: Kit, meters: readonly string[]): EquipmentTold {
  const onPaper = metersOnPaper(meters)
  return { strips, controls, isOfMeter: (told, meter) => isOfMeter(told, meters[meter], onPaper[meter]) }
}

/** What the figures of every period are taken from. */
interface Logbook {
  readonly readings: Readings
  readonly technique: Technique
  readonly checked: Readings
  readonly order: Uint32Array
  readonly leaveOut: number
  readonly kind: PeriodFigures['kind']
  readonly doubtful: ReadonlySet<number>
  readonly notCounted: readonly LowNotCounted[]
}

const MARKERS = FLAG.aboveRange | FLAG.belowRange

function figuresOfPeriod(
  logbook: Logbook,
  span: DaySpan,
  { settings, entries, kit }: AnalysisRequest,
  keep: Keep,
): PeriodFigures {
  const { readings, checked, leaveOut, kind } = logbook
  const { from, to } = span
  // What no decision touches.
  const logged = keep('as logged', [readings, from, to, settings, leaveOut, kind], () =>
    figuresAsLogged(logbook, span, settings),
  )
  const { asLogged, intervals, start, end, days, byMeal } = logged
  const lows = findLows({ ...logbook, start, end, days })
  const found = findFindings({ ...logbook, settings, entries, kit, start, end, byMeal, lows, keep })
  if (checked === readings) {
    return {
      ...logged,
      checked: asLogged,
      intervals: { asLogged: intervals, checked: intervals },
      latestA1c: { ...logged.latestA1c, checked: logged.latestA1c.asLogged },
      lows,
      ...found,
    }
  }
  const summary = sumUp(logbook, checked, span, settings)
  return {
    ...logged,
    checked: withLowsOf(asLogged, summary),
    intervals: {
      asLogged: intervals,
      checked: withLowIntervalsOf(intervals, intervalsIn(checked, span, summary, settings, leaveOut)),
    },
    latestA1c: { ...logged.latestA1c, checked: latestA1c(checked, span, leaveOut, settings) },
    lows,
    ...found,
  }
}

function figuresAsLogged(logbook: Logbook, span: DaySpan, settings: Settings) {
  const { readings, leaveOut, kind } = logbook
  const { start, end } = rangeOfDays(readings, span)
  const days = span.to - span.from + 1
  const asLogged = sumUp(logbook, readings, span, settings)
  const hasMarkers = asLogged.belowRange + asLogged.aboveRange > 0
  return {
    from: span.from,
    to: span.to,
    start,
    end,
    days,
    daysWithReadings: countDays(readings, start, end, leaveOut),
    readingsPerDay: asLogged.n / days,
    kind,
    asLogged,
    intervals: intervalsIn(readings, span, asLogged, settings, leaveOut),
    withoutMarkers: hasMarkers ? sumUp(logbook, readings, span, settings, MARKERS) : null,
    latestA1c: {
      asLogged: latestA1c(readings, span, leaveOut, settings),
      withoutMarkers: hasMarkers ? latestA1c(readings, span, leaveOut | MARKERS, settings) : null,
    },
    timeOfDay: timeOfDay(readings, start, end, leaveOut),
    byMeal: byMeal(readings, start, end, settings, leaveOut),
    week: weekFigures(readings, start, end, leaveOut),
    latestStretch: kind === 'sensor' ? null : latestStretch(readings, span, leaveOut, settings, asLogged),
    unprompted:
      kind === 'sensor' ? null : unprompted(readings, indexesOf(readings, start, end, leaveOut), settings),
  }
}

function indexesOf({ flags }: Readings, start: number, end: number, leaveOut: number): readonly number[] {
  return Array.from({ length: end - start }, (_, i) => start + i).filter((i) => !(flags[i] & leaveOut))
}

function sumUp(
  { kind, leaveOut }: Logbook,
  of: Readings,
  span: DaySpan,
  settings: Settings,
  without = 0,
): Summary {
  const { start, end } = rangeOfDays(of, span)
  const summary = summarise(of, start, end, settings, leaveOut | without)
  if (kind !== 'sensor') return summary
  return {
    ...summary,
    gmiPercent: summary.meanMgDl === null ? null : glucoseManagementIndicator(summary.meanMgDl),
  }
}

function intervalsIn(of: Readings, span: DaySpan, summary: Summary, settings: Settings, leaveOut: number) {
  const { start, end } = rangeOfDays(of, span)
  return intervalsOf(of, start, end, summary, settings, leaveOut)
}

/** A low always counts: the shares of lows are those of the log. */
function withLowsOf(asLogged: Summary, checked: Summary): Summary {
  const { percentBelow54, percentBelow70 } = asLogged
  return { ...checked, percentBelow54, percentBelow70 }
}

function countSensorReadings({ n, flags }: Readings): number {
  let sensor = 0
  for (let i = 0; i < n; i++) if (flags[i] & FLAG.sensor) sensor++
  return sensor
}

function countDays({ at, flags }: Readings, start: number, end: number, leaveOut: number): number {
  let days = 0
  let last = NaN
  for (let i = start; i < end; i++) {
    if (flags[i] & leaveOut) continue
    const day = dayOf(at[i])
    if (day !== last) days++
    last = day
  }
  return days
}

const NOT_COUNTED: Readonly<Record<SetAsideReason, NotCountedWhy>> = {
  'control-solution': 'control',
  'empty-date': 'date',
  'unreadable-date': 'date',
  'future-date': 'date',
  'clock-reset': 'date',
  'ragged-row': 'cells',
  'not-glucose': 'no-reading',
  'unreadable-value': 'unreadable',
  'empty-value': 'set-aside',
  'impossible-value': 'set-aside',
  duplicate: 'set-aside',
  'repeated-header': 'set-aside',
  footer: 'set-aside',
  'other-table': 'set-aside',
  laboratory: 'no-reading',
  withdrawn: 'no-reading',
  derived: 'set-aside',
}

/** Characters of a row that is shown as it stands (design choice): day, time, value and a short note. */
const LONGEST_ROW_TOLD = 80

/** Rows set aside that may be lows, and lows outside all periods, by log and line. */
function findNotCounted({ sources, readings, periods }: AnalysisRequest, leaveOut: number): LowNotCounted[] {
  const rows: LowNotCounted[] = sources.flatMap(({ setAside }, source) =>
    setAside
      .filter(({ maybeLow, reason }) => maybeLow === true && reason !== 'duplicate')
      .map(({ line, reason, text }) => ({
        source,
        line,
        why: NOT_COUNTED[reason],
        ...(text.length <= LONGEST_ROW_TOLD && { row: text }),
      })),
  )
  for (let i = 0; i < readings.n; i++) {
    if (readings.flags[i] & leaveOut || !isLow(readings, i)) continue
    const day = dayOf(readings.at[i])
    if (periods.some(({ from, to }) => from <= day && day <= to)) continue
    rows.push({ source: readings.source[i], line: readings.line[i], why: 'outside-period' })
  }
  return rows.sort((a, b) => a.source - b.source || a.line - b.line)
}

function noteSensorLogs(sources: readonly LogReport[], readings: Readings): LogReport[] {
  const fromSensor = new Set<number>()
  for (let i = 0; i < readings.n; i++) {
    if (readings.flags[i] & FLAG.sensor) fromSensor.add(readings.source[i])
  }
  return sources.map((report, source) =>
    fromSensor.has(source) ? { ...report, notes: [...report.notes, { code: 'log-of-sensor' }] } : report,
  )
}
