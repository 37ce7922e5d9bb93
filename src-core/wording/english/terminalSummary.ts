import type { Analysis } from '../../analysis/analysis'
import { heldMeasure } from '../../compare/heldMeasure'
import { periodsInOrder } from '../../analysis/inOrderOfTime'
import { highsBeyond } from '../../analysis/highsBeyond'
import { newMeters } from '../../technique/newMeters'
import { newMeterSentence } from './besideNumbers'
import { isOutsideTable } from '../../statistics/latestA1c'
import { standingOf } from '../../compare/comparison'
import type { LogReport, SetAsideReason } from '../../log/logReport'
import { stretchesIn } from './knownCauses'
import {
  A1C_OUTSIDE_TABLE,
  a1cDaysText,
  a1cHeldBackText,
  glucoseOrNone,
  heldBackText,
  latestA1cText,
  percentOrNone,
  targetText,
} from './figures'
import {
  comparisonLines,
  fewDaysSentence,
  habitSentence,
  laterChange,
  meterMixSentence,
  sharedDaysSentence,
} from './comparison'
import { readingMoment, spanText } from './dates'
import { highsHeadline } from './highs'
import { plainText } from '../phrases'
import { notCountedSentence } from './lows'
import { hasManyMarkers, heldBack } from '../../statistics/heldBack'
import { markersNotJudged, misfitSentence } from './trust'
import { inTargetPhrase, indicatorNote, SENSOR_NOT_JUDGED } from './sensor'
import { stretchText } from './stretches'
import { noteText } from './importMessages'
import { columnsText } from './logs'
import { count, limitText, listed } from './numbers'
import { LIMITS } from '../../reference/limits'

const BASIS = {
  header: 'from the header',
  cell: 'from the cells',
  column: 'from the unit column',
  values: 'from the size of the values',
  answer: 'as you said',
  form: 'by their form',
  rows: 'decided by the rows',
} as const
const ORDER = {
  ymd: 'year-month-day',
  dmy: 'day-month-year',
  mdy: 'month-day-year',
  epoch: 'epoch numbers',
  serial: 'spreadsheet serials',
  name: 'with month names',
} as const

/** The lines of the short summary that ends a run on the terminal; `written` are the files made. */
export function terminalSummary(analysis: Analysis, written: readonly string[]): readonly string[] {
  const [period] = analysis.periods
  const { unit, targetLow, targetHigh } = analysis.settings
  const { asLogged, lows } = period
  const lines = analysis.sources.flatMap(logLines)
  const kind = period.kind === 'sensor' ? 'sensor reading' : 'finger-stick reading'
  lines.push(
    '',
    `${spanText(period.from, period.to)}: ${count(asLogged.n, kind)} on ${period.daysWithReadings} of ${count(period.days, 'day')}`,
    lows.readingsBelow70 === 0
      ? 'Lows: none recorded. That does not show that there were none.'
      : `Lows: ${count(lows.readingsBelow70, 'reading')} below ${limitText(LIMITS.low, unit)}, ${lows.readingsBelow54} below ${limitText(LIMITS.veryLow, unit)}. Every one counts.`,
    ...highsLines(analysis),
    ...(lows.notCounted.length === 0 ? [] : [notCountedSentence(lows.notCounted) ?? '']),
    figuresLine(analysis, `${targetText(targetLow, targetHigh, unit)} ${unit}`),
  )
  const a1c = period.latestA1c.asLogged
  const indicator = indicatorNote(asLogged)
  if (a1c.estimate !== null) {
    const from = period.kind === 'sensor' ? 'sensor readings' : 'finger-sticks'
    lines.push(
      `Estimated A1C: ${isOutsideTable(a1c) ? A1C_OUTSIDE_TABLE : `${latestA1cText(a1c)} %`}, ${a1cDaysText(a1c, period, unit)}; from ${from}, not a laboratory A1C` +
        (indicator === null ? '' : `; ${indicator}`),
    )
  } else if (a1c.heldBack === 'pregnancy' || a1c.heldBack === 'few-days') {
    lines.push(`Estimated A1C: ${a1cHeldBackText(a1c)}${indicator === null ? '' : `; ${indicator}`}`)
  }
  lines.push(
    trustLine(analysis),
    ...stretchesIn(analysis, period).map(stretchText),
    ...twoPeriodsLines(analysis),
    '',
    ...written.map((path) => `Wrote ${path}`),
  )
  lines.push('For discussion with the care team. Do not change doses from these figures.')
  return lines
}

/** The second period against the first; none where one period was asked for. */
function twoPeriodsLines(analysis: Analysis): readonly string[] {
  const inOrder = periodsInOrder(analysis)
  if (inOrder === null) return []
  const { comparison, earlier, later, firstIsLater, lows } = inOrder
  const names = [spanText(earlier.from, earlier.to), spanText(later.from, later.to)] as const
  const mean = comparison.measures.find(({ measure }) => measure === 'meanMgDl')
  const mix = comparison.meters.map(({ meter, firstPercent, secondPercent }) => ({
    meter: analysis.readings.meters[meter],
    earlierPercent: firstIsLater ? secondPercent : firstPercent,
    laterPercent: firstIsLater ? firstPercent : secondPercent,
  }))
  const { readings, technique } = analysis
  const span = { from: Math.min(earlier.from, later.from), to: Math.max(earlier.to, later.to) }
  const meterName = (meter: number) => readings.meters[meter]
  const cautions = [
    ...newMeters(readings, technique.meterPairs, span).map((found) =>
      newMeterSentence(found, meterName(found.meter), meterName(found.other), 'with-year'),
    ),
    habitSentence(comparison, names, firstIsLater),
    meterMixSentence(mix, names),
    sharedDaysSentence(comparison.sharedDays, 'with-year'),
    fewDaysSentence([earlier.daysWithReadings, later.daysWithReadings]),
  ].filter((sentence) => sentence !== null)
  if (mean === undefined) return cautions
  const { sameTimesOfDay: sameTimes, sameMeals } = comparison
  const held = heldMeasure('meanMgDl', [earlier.asLogged, later.asLogged], analysis.settings)
  return [
    '',
    ...comparisonLines(
      names,
      analysis.settings.unit,
      laterChange(mean, firstIsLater, standingOf(comparison, 'measures')),
      sameTimes && laterChange(sameTimes, firstIsLater, standingOf(comparison, 'sameTimes')),
      typeof sameMeals === 'string'
        ? null
        : laterChange(sameMeals, firstIsLater, standingOf(comparison, 'sameMeals')),
      lows,
      cautions,
      held && heldBackText(held.why, held.of),
    ),
  ]
}

/** The readings above the meter's range; none where there are none. */
function highsLines(analysis: Analysis): readonly string[] {
  const highs = highsBeyond(analysis, analysis.periods[0])
  if (highs === null) return []
  const latest = highs.latest[highs.latest.length - 1]
  return [
    plainText(highsHeadline(highs.n, highs.days, readingMoment(analysis.readings, latest, 'with-year'))),
  ]
}

function figuresLine(analysis: Analysis, target: string): string {
  const { asLogged, kind } = analysis.periods[0]
  const { unit } = analysis.settings
  const figures =
    heldBack('mean', asLogged, analysis.settings) === null
      ? [`Mean ${glucoseOrNone(asLogged.mean, unit)} ${unit}`]
      : [`Mean, SD and estimated A1C ${heldBackText('markers', asLogged)}`]
  if (heldBack('spread', asLogged, analysis.settings) === null) {
    figures.push(`SD ${glucoseOrNone(asLogged.sd, unit)}`)
    figures.push(`coefficient of variation ${percentOrNone(asLogged.cvPercent)} %`)
  }
  if (hasManyMarkers(asLogged)) {
    const inTarget = Math.round(((asLogged.percentInTarget ?? 0) * asLogged.n) / 100)
    figures.push(`${inTarget} of ${asLogged.n} in ${target}`)
  } else figures.push(inTargetPhrase(kind, target, percentOrNone(asLogged.percentInTarget)))
  return figures.join(', ')
}

function trustLine(analysis: Analysis): string {
  const [period] = analysis.periods
  if (period.kind === 'sensor') return SENSOR_NOT_JUDGED
  const doubtful = analysis.technique.doubtful.filter(
    ({ index }) => index >= period.start && index < period.end,
  )
  const { repeatSets, misfit, notDoubtfulForMisfit } = analysis.technique
  const fitsBadly = misfitSentence(
    misfit,
    notDoubtfulForMisfit.filter((index) => index >= period.start && index < period.end).length,
  )
  const where = period.end - period.start < analysis.readings.n ? ' in the whole logbook' : ''
  const agree = repeatSets.filter((set) => set.agree).length
  const sets =
    repeatSets.length === 0
      ? 'No reading was repeated within 10 minutes.'
      : `${agree} of ${count(repeatSets.length, 'set')} of repeat readings${where} ${repeatSets.length === 1 ? 'agrees' : 'agree'}.`
  const readings =
    doubtful.length === 1 ? '1 reading is doubtful' : `${doubtful.length} readings are doubtful`
  if (doubtful.length === 0 && hasManyMarkers(period.asLogged)) {
    return [markersNotJudged(period.asLogged), fitsBadly, sets].filter((text) => text !== null).join(' ')
  }
  const doubts =
    doubtful.length === 0
      ? 'No reading was found doubtful, which does not prove them right.'
      : `${readings}; the others are not proven right.`
  return [doubts, fitsBadly, sets].filter((text) => text !== null).join(' ')
}

function logLines(log: LogReport): string[] {
  const unit = `${log.unit.value === 'mixed' ? 'mg/dL and mmol/L mixed' : log.unit.value} ${BASIS[log.unit.basis]}`
  const dates = `dates ${ORDER[log.dateOrder.value]} ${BASIS[log.dateOrder.basis]}`
  const lines = [
    `${log.name}: ${log.rows.accepted} of ${count(log.rows.total, 'row')} read; ${unit}; ${dates}`,
    `  ${columnsText(log)}`,
  ]
  const byReason = new Map<SetAsideReason, number[]>()
  for (const { reason, line } of log.setAside) {
    const rows = byReason.get(reason)
    if (rows) rows.push(line)
    else byReason.set(reason, [line])
  }
  for (const [reason, rows] of byReason) lines.push(`  set aside, ${reason}: ${linesText(rows)}`)
  return [...lines, ...log.notes.map((note) => `  ${noteText(note, 'terminal')}`)]
}

const LINES_NAMED = 5

function linesText(lines: readonly number[]): string {
  const named = lines.slice(0, LINES_NAMED).map(String)
  const more = lines.length - named.length
  return `${lines.length === 1 ? 'line' : 'lines'} ${listed(more > 0 ? [...named, `${more} more`] : named)}`
}
