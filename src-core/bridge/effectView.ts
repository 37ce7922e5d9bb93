import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { FLAG, hasFlag, type Readings } from '../log/readings'
import { heldBack, type HeldFigure } from '../statistics/heldBack'
import { summarise, type Summary } from '../statistics/summary'
import { fromMgDl, glucoseDecimals } from '../units/glucose'
import { fixed } from '../units/rounding'
import type { Words } from '../wording/words'

/** What leaving one reading out does to one figure, as printed. */
export interface EffectRow {
  readonly name: string
  readonly before: string
  readonly after: string
}

/** A bit that no reading has: it marks the one left out. */
const LEFT_OUT = 1 << 15

/**
 * What leaving this reading out does to the period's figures as logged. A low always counts: the row of lows never
 * changes. Empty of a reading that is in no figure of the period.
 */
export function effectView(
  words: Words,
  analysis: Analysis,
  period: PeriodFigures,
  index: number,
): readonly EffectRow[] {
  const { readings, settings } = analysis
  const { start, end, kind, asLogged } = period
  const counts = kind === 'sensor' || !hasFlag(readings, index, FLAG.sensor)
  if (index < start || index >= end || !counts) return []
  const others = kind === 'sensor' ? 0 : FLAG.sensor
  const without = summarise(marked(readings, index), start, end, settings, others | LEFT_OUT)
  const { unit } = settings
  const glucose = (mgDl: number | null) =>
    mgDl === null ? words.numbers.NO_NUMBER : fixed(fromMgDl(mgDl, unit), glucoseDecimals(unit) + 1)
  const percent = (share: number | null) => (share === null ? words.numbers.NO_NUMBER : fixed(share, 1))
  const row = (name: string, text: (summary: Summary) => string, held?: HeldFigure): EffectRow => {
    const printed = (summary: Summary) =>
      held && heldBack(held, summary, settings) === 'markers' ? words.numbers.NO_NUMBER : text(summary)
    return { name, before: printed(asLogged), after: printed(without) }
  }
  const names = words.figureNames
  const below = String(period.lows.readingsBelow70)
  return [
    { name: names.lowReadingsName(unit), before: below, after: below },
    row(names.nameWithUnit(names.MEAN, unit), ({ mean }) => glucose(mean), 'mean'),
    row(names.nameWithUnit(names.SD, unit), ({ sd }) => glucose(sd), 'spread'),
    row(names.nameWithUnit(names.CV, '%'), ({ cvPercent }) => percent(cvPercent), 'spread'),
    row(names.highReadingsName(unit), ({ percentAbove180 }) => percent(percentAbove180)),
  ]
}

function marked(readings: Readings, index: number): Readings {
  const flags = Uint16Array.from({ length: readings.n }, (_, i) => readings.flags[i])
  flags[index] |= LEFT_OUT
  return { ...readings, flags }
}
