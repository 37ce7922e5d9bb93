import type { Analysis, PeriodFigures } from '../../analysis/analysis'
import { metersOnPaper } from '../../kit/metersOnPaper'
import { stretchText, type StretchTold, stretchWithin, toldOnceText } from './stretches'

/** The stretches of the readings `[start, end)` that one fault of strips or meter makes doubtful. */
export function stretchesIn(
  { readings, stretches }: Analysis,
  within: Pick<PeriodFigures, 'start' | 'end'>,
): readonly StretchTold[] {
  const onPaper = metersOnPaper(readings.meters)
  return stretches
    .map((stretch) => stretchWithin(stretch, readings, onPaper, within))
    .filter((stretch) => stretch !== null)
}

/** The faults of strips and meters that make readings of the period doubtful, a sentence or more each. */
export function knownCauses(analysis: Analysis, period: PeriodFigures): readonly string[] {
  return stretchesIn(analysis, period).map((stretch) =>
    stretch.toldOnce ? toldOnceText(stretch) : stretchText(stretch),
  )
}

/** The period's stretches that are told in place of marks, in words. */
export function toldOnce(analysis: Analysis, period: PeriodFigures): readonly string[] {
  return stretchesIn(analysis, period)
    .filter((stretch) => stretch.toldOnce)
    .map(toldOnceText)
}

/** The stretches told once that hold lows of the period. */
export function bracketedLows(analysis: Analysis, period: PeriodFigures): readonly StretchTold[] {
  const lows = new Set(period.lows.each.map(({ index }) => index))
  return stretchesIn(analysis, period).filter(
    ({ toldOnce, indexes }) => toldOnce && indexes.some((index) => lows.has(index)),
  )
}
