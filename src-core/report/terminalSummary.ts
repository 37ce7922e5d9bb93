import type { Analysis } from '../analysis/analysis'
import { highsBeyond } from '../analysis/highsBeyond'
import { confirmedLows } from '../told/confirmedLows'
import { doubtsOf } from '../told/doubts'
import { periodA1c } from '../told/estimatedA1c'
import { notCountedTold } from '../told/lows'
import { columnsTold, setAsideTold } from '../told/logs'
import { namingOf, periodMeasure } from '../told/measures'
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
    terminal.lowsLine(period.lows, confirmedLows(analysis, period).size, settings.unit),
    highsLine(words, analysis),
    ...(notCounted.length === 0 ? [] : [words.lows.notCountedSentence(notCountedTold(notCounted))]),
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
    ...(told === null ? [] : ['', ...words.comparison.comparisonLines(told, settings.unit)]),
    '',
    ...written.map(words.commandLine.wroteText),
    terminal.CLOSING_LINE,
  ]
  return lines.filter((line) => line !== null)
}

/** The readings above the meter's range; null where there are none. */
function highsLine(words: Words, analysis: Analysis): string | null {
  const highs = highsBeyond(analysis, analysis.periods[0])
  if (highs === null) return null
  const latest = highs.latest[highs.latest.length - 1]
  const moment = words.dates.readingMoment(analysis.readings, latest, 'with-year')
  return plainText(words.highs.highsHeadline(highs.n, highs.days, moment))
}
