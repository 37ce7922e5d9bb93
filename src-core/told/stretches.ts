import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { metersOnPaper } from '../kit/metersOnPaper'
import type { EquipmentStretch } from '../technique/equipmentStretches'
import type { FaultDirection } from '../technique/notes/classes'
import type { ReasonCode } from '../technique/reasons/reasonTable'
import { type ReasonTold, reasonsTold } from './reasons'
import { type DayNumber, dayOf } from '../units/wallClock'

/** Readings of a stretch, with the meters they are of by their names on paper. */
export interface StretchTold extends EquipmentStretch {
  readonly meters: readonly string[]
  readonly from: DayNumber
  readonly to: DayNumber
  readonly cause: ReasonCode
  readonly errs: Errs
  readonly reasonsTold: readonly ReasonTold[]
  /** The temperatures that the notes tell, and those of use, °C; null of another fault. */
  readonly celsius: {
    readonly told: readonly [number, number]
    readonly ofUse: readonly [number, number]
  } | null
}

/** Which way the readings of a stretch err, as a failed control shows or as meters do in cold or heat. */
export type Errs = `control-${FaultDirection}` | `temperature-${FaultDirection}` | 'unknown'

function errsOf({ reasons: [{ code }], direction }: EquipmentStretch): Errs {
  if (direction === null) return 'unknown'
  if (code === 'failed-control') return `control-${direction}`
  return code === 'outside-working-temperature' ? `temperature-${direction}` : 'unknown'
}

function celsiusOf({ reasons }: EquipmentStretch): StretchTold['celsius'] {
  const told = reasons.flatMap(({ code, evidence }) =>
    code === 'outside-working-temperature' ? [evidence] : [],
  )
  if (told.length === 0) return null
  const celsius = told.map((evidence) => evidence.celsius)
  const [{ lowest, highest }] = told
  return { told: [Math.min(...celsius), Math.max(...celsius)], ofUse: [lowest, highest] }
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
        cause: stretch.reasons[0].code,
        errs: errsOf(stretch),
        reasonsTold: reasonsTold(stretch.reasons, readings, indexes[0]),
        celsius: celsiusOf(stretch),
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
