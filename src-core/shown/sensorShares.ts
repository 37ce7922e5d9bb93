import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { SHARES } from '../statistics/dayTotals'
import type { Words } from '../wording/words'

/** One share of a sensor's readings, under its name. */
export interface SensorShare {
  readonly key: (typeof SHARES)[number]
  readonly label: string
  /** Null without readings. */
  readonly percent: number | null
  readonly n: number
}

/** Below, in and above the target, from the lowest on. */
export function sensorShares(
  { figures: text, sensor }: Words,
  { settings }: Analysis,
  { kind, asLogged }: PeriodFigures,
): readonly SensorShare[] {
  const { unit, targetLow, targetHigh } = settings
  return SHARES.map((key) => ({
    key,
    label:
      key === 'percentInTarget'
        ? sensor.inTargetLabel(kind, text.targetText(targetLow, targetHigh, unit))
        : sensor.SHARE_LABELS[key](unit),
    percent: asLogged[key],
    n: Math.round(((asLogged[key] ?? 0) * asLogged.n) / 100),
  }))
}
