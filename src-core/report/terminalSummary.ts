import type { Analysis } from '../analysis/analysis'
import { highsBeyond } from '../analysis/highsBeyond'
import { sensorShares } from '../shown/sensorShares'
import { confirmedLows } from '../told/confirmedLows'
import { doubtsOf } from '../told/doubts'
import { periodA1c } from '../told/estimatedA1c'
import { notCountedTold, withoutRows } from '../told/lows'
import { columnsTold, setAsideTold } from '../told/logs'
import { namingOf, periodMeasure } from '../told/measures'
import { type SensorTold, sensorTold } from '../told/sensor'
import { twoPeriodsTold } from '../told/twoPeriods'
import { plainText } from '../wording/phrases'
import type { Words } from '../wording/words'

/** The lines of the short summary that ends a run on the terminal; `written` are the files made. */
export function terminalSummary(
  words: Words,
  analysis: Analysis,
  written: readonly string[],
): readonly string[] {
  const [period] = analysis.periods
  const { settings } = analysis
  const { notCounted } = period.lows
  const terminal = words.terminalSummary
  const doubts = doubtsOf(analysis, period)
  const told = twoPeriodsTold(analysis)
  const a1c = periodA1c(period)
  const lines = [
    ...analysis.sources.flatMap((log) => terminal.logLines(log, columnsTold(log), setAsideTold(log))),
    '',
    terminal.extentLine(period),
    ...lowsLines(words, analysis),
    highsLine(words, analysis),
    ...(notCounted.length === 0
      ? []
      : [words.lows.notCountedSentence(withoutRows(notCountedTold(notCounted)))]),
    terminal.figuresLine(
      {
        mean: periodMeasure('meanMgDl', period),
        sd: periodMeasure('sdMgDl', period),
        cv: periodMeasure('cvPercent', period),
        inTarget: periodMeasure('percentInTarget', period),
      },
      namingOf(settings, period),
    ),
    // That markers hold it back stands in the line of figures.
    ...(a1c.heldBack?.why === 'markers'
      ? []
      : [terminal.a1cLine(a1c, period, words.sensor.indicatorNote(period.asLogged), settings.unit)]),
    words.trust.trustLine(doubts),
    ...doubts.stretches.map(words.stretches.stretchText),
    ...(told === null ? [] : ['', ...words.comparison.comparisonLines(told, namingOf(settings, period))]),
    '',
    ...written.map(words.commandLine.wroteText),
    terminal.CLOSING_LINE,
  ]
  return lines.filter((line) => line !== null)
}

/** The lows; of a sensor as episodes of 15 minutes or more, and the shares of its readings. */
function lowsLines(words: Words, analysis: Analysis): readonly (string | null)[] {
  const [period] = analysis.periods
  const { unit } = analysis.settings
  const sensor = sensorTold(analysis, period)
  if (sensor === null || sensor.lows.below70 === 0) {
    const lows = words.terminalSummary.lowsLine(period.lows, confirmedLows(analysis, period).size, unit)
    return sensor === null ? [lows] : [lows, ...shareLines(words, analysis, sensor)]
  }
  return [
    words.terminalSummary.lowsOfSensorLine(plainText(words.sensor.sensorLowsHeadline(sensor.lows, unit))),
    words.sensor.sensorLowReadings(sensor.lows, unit),
    ...shareLines(words, analysis, sensor),
  ]
}

function shareLines(words: Words, analysis: Analysis, { time }: SensorTold): readonly string[] {
  const [period] = analysis.periods
  const shares = sensorShares(words, analysis, period).flatMap(({ label, percent, n }) =>
    percent === null ? [] : [{ label, percent, n }],
  )
  return [words.sensor.sharesLine(shares), words.sensor.timeText(time, period.days)]
}

/** The readings above the meter's range; null where there are none. */
function highsLine(words: Words, analysis: Analysis): string | null {
  const highs = highsBeyond(analysis, analysis.periods[0])
  if (highs === null) return null
  const latest = highs.latest[highs.latest.length - 1]
  const moment = words.dates.readingMoment(analysis.readings, latest, 'with-year')
  return plainText(words.highs.highsHeadline(highs, moment))
}
