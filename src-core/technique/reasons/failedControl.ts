import type { Readings } from '../../log/readings'
import { toMgDl } from '../../units/glucose'
import { type DayNumber, dayOf } from '../../units/wallClock'
import type { FailedControl } from '../technique'
import type { ControlTold, EquipmentTold } from './evidence'
import { dayOfText, stripsInUse } from './stripsInUse'

/** How far back doubt goes where no control passed and the vial's opening is not known: as long as an opened vial keeps
 *  (common practice). */
const DAYS_OF_A_VIAL = 90

/** Days of doubt that failed controls cast, for one reading after the other. */
export function failedControls(
  readings: Readings,
  equipment: EquipmentTold,
): (index: number) => FailedControl | null {
  const spans = equipment.controls
    .filter((control) => !passed(control))
    .map((control) => ({ control, ...daysOfDoubt(control, equipment) }))
    .filter(({ from, to }) => from <= to)
  return (index) => {
    if (spans.length === 0) return null
    const day = dayOf(readings.at[index])
    const meter = readings.meter[index]
    const span = spans.find(
      ({ control, from, to }) =>
        from <= day &&
        day <= to &&
        equipment.isOfMeter(control.meter, meter) &&
        vialMayBeInUse(control, equipment, meter, day),
    )
    return span === undefined ? null : span.reason
  }
}

function passed({ result, range: [low, high] }: ControlTold): boolean {
  return low <= result && result <= high
}

/** From the day after the last passed control of that vial to the day before the next one. */
function daysOfDoubt(failed: ControlTold, { controls, strips }: EquipmentTold) {
  const failedOn = dayOfText(failed.date) as DayNumber
  const place = controls.indexOf(failed)
  const passes = controls.flatMap((control, i) => {
    if (!passed(control) || control.meter !== failed.meter || control.vial !== failed.vial) return []
    const day = dayOfText(control.date) as DayNumber
    // Of one day's controls the later in the list came later.
    return [{ day, before: day < failedOn || (day === failedOn && i < place) }]
  })
  const earlier = passes.filter(({ before }) => before).map(({ day }) => day)
  const passedOn = earlier.length === 0 ? null : Math.max(...earlier)
  const next = Math.min(Infinity, ...passes.filter(({ before }) => !before).map(({ day }) => day))
  const opened = dayOfText(strips.find(({ vial }) => vial !== undefined && vial === failed.vial)?.opened)
  const from = passedOn === null ? (opened ?? failedOn - DAYS_OF_A_VIAL) : passedOn + 1
  const [low, high] = failed.range
  const reason: FailedControl = {
    code: 'failed-control',
    evidence: {
      failedOn,
      passedOn,
      resultMgDl: toMgDl(failed.result, failed.unit),
      rangeLowMgDl: toMgDl(low, failed.unit),
      rangeHighMgDl: toMgDl(high, failed.unit),
    },
  }
  return { from, to: next - 1, reason }
}

/** Whether the vial tested was in use that day, as far as is told. */
function vialMayBeInUse(
  { vial }: ControlTold,
  equipment: EquipmentTold,
  meter: number,
  day: DayNumber,
): boolean {
  if (vial === undefined || !equipment.strips.some((strips) => strips.vial === vial)) return true
  return stripsInUse(equipment, meter, day).some((strips) => strips.vial === vial)
}
