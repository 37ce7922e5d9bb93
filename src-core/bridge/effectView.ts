import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { FLAG, hasFlag, type Readings } from '../log/readings'
import { summarise } from '../statistics/summary'
import { type MeasureKey, measureOf, namingOf, periodMeasure } from '../told/measures'
import type { Words } from '../wording/words'

/** What leaving one reading out does to one figure, as printed. */
export interface EffectRow {
  readonly name: string
  readonly before: string
  readonly after: string
}

const SHOWN: readonly MeasureKey[] = ['readingsBelow70', 'meanMgDl', 'sdMgDl', 'cvPercent', 'percentAbove180']
/** One reading moves a figure by little. */
const MORE_DECIMALS = 1

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
  const naming = namingOf(settings, period)
  return SHOWN.map((key) => {
    const before = periodMeasure(key, period)
    const after = key === 'readingsBelow70' ? before : measureOf(key, without, { base: asLogged })
    return {
      name: words.figures.withUnit(
        words.figures.measureLabel(key, naming),
        words.figures.unitText(before, unit),
      ),
      before: words.figures.valueText(before, unit, MORE_DECIMALS),
      after: words.figures.valueText(after, unit, MORE_DECIMALS),
    }
  })
}

function marked(readings: Readings, index: number): Readings {
  const flags = Uint16Array.from({ length: readings.n }, (_, i) => readings.flags[i])
  flags[index] |= LEFT_OUT
  return { ...readings, flags }
}
