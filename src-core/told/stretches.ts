import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { metersOnPaper } from '../kit/metersOnPaper'
import type { EquipmentStretch } from '../technique/equipmentStretches'
import { type DayNumber, dayOf } from '../units/wallClock'

/** Readings of a stretch, with the meters they are of by their names on paper. */
export interface StretchTold extends EquipmentStretch {
  readonly meters: readonly string[]
  readonly from: DayNumber
  readonly to: DayNumber
}

/** The stretches of the readings `[start, end)` that one fault of strips or meter makes doubtful. */
export function stretchesIn(
  { readings, stretches }: Analysis,
  { start, end }: Pick<PeriodFigures, 'start' | 'end'>,
): readonly StretchTold[] {
  const onPaper = metersOnPaper(readings.meters)
  return stretches.flatMap((stretch) => {
    const indexes = stretch.indexes.filter((index) => index >= start && index < end)
    if (indexes.length === 0) return []
    return [
      {
        ...stretch,
        indexes,
        meters: [...new Set(indexes.map((index) => readings.meter[index]))].map((meter) => onPaper[meter]),
        from: dayOf(readings.at[indexes[0]]),
        to: dayOf(readings.at[indexes[indexes.length - 1]]),
      },
    ]
  })
}

/** Those that are told in place of marks at their readings. */
export function toldOnce(
  analysis: Analysis,
  within: Pick<PeriodFigures, 'start' | 'end'>,
): readonly StretchTold[] {
  return stretchesIn(analysis, within).filter((stretch) => stretch.toldOnce)
}

/** Those of them that hold lows of the period. */
export function bracketedLows(analysis: Analysis, period: PeriodFigures): readonly StretchTold[] {
  const lows = new Set(period.lows.each.map(({ index }) => index))
  return toldOnce(analysis, period).filter(({ indexes }) => indexes.some((index) => lows.has(index)))
}
