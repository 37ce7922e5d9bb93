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
  const failed = equipment.controls.filter((control) => !passed(control))
  const spansOfMeter = new Map<number, readonly DaysOfDoubt[]>()
  return (index) => {
    if (failed.length === 0) return null
    const day = dayOf(readings.at[index])
    const meter = readings.meter[index]
    let spans = spansOfMeter.get(meter)
    if (spans === undefined) {
      spans = failed
        .filter((control) => equipment.isOfMeter(control.meter, meter))
        .map((control) => daysOfDoubt(control, equipment, meter))
      spansOfMeter.set(meter, spans)
    }
    const span = spans.find(
      ({ control, from, to }) => from <= day && day <= to && vialMayBeInUse(control, equipment, meter, day),
    )
    return span?.reason ?? null
  }
}

/** The days on which a failed control casts doubt on a meter's readings; none where they end before they begin. */
interface DaysOfDoubt {
  readonly control: ControlTold
  readonly from: DayNumber
  readonly to: DayNumber
  readonly reason: FailedControl
}

function passed({ result, range: [low, high] }: ControlTold): boolean {
  return low <= result && result <= high
}

/** From the day after the last passed control of that vial with the meter to the day before the next one. */
function daysOfDoubt(
  failed: ControlTold,
  { controls, strips, isOfMeter }: EquipmentTold,
  meter: number,
): DaysOfDoubt {
  const failedOn = dayOfText(failed.date) as DayNumber
  const place = controls.indexOf(failed)
  const passes = controls.flatMap((control, i) => {
    if (!passed(control) || !isOfMeter(control.meter, meter) || !isSameVial(control.vial, failed.vial))
      return []
    const day = dayOfText(control.date) as DayNumber
    // Of one day's controls the later in the list came later.
    return [{ day, before: day < failedOn || (day === failedOn && i < place) }]
  })
  const earlier = passes.filter(({ before }) => before).map(({ day }) => day)
  const passedOn = earlier.length === 0 ? null : Math.max(...earlier)
  const next = Math.min(Infinity, ...passes.filter(({ before }) => !before).map(({ day }) => day))
  const opened = dayOfText(
    strips.find(({ vial }) => vial !== undefined && isSameVial(vial, failed.vial))?.opened,
  )
  const from = passedOn === null ? (opened ?? failedOn - DAYS_OF_A_VIAL) : Math.min(passedOn + 1, failedOn)
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
  return { control: failed, from, to: next - 1, reason }
}

/** Whether the vial tested was in use that day, as far as is told. */
function vialMayBeInUse(
  { vial }: ControlTold,
  equipment: EquipmentTold,
  meter: number,
  day: DayNumber,
): boolean {
  if (vial === undefined || !equipment.strips.some((strips) => isSameVial(strips.vial, vial))) return true
  return stripsInUse(equipment, meter, day).some((strips) => isSameVial(strips.vial, vial))
}

/** Capitals make no other vial, as they make no other meter. */
function isSameVial(one: string | undefined, other: string | undefined): boolean {
  return one?.toLowerCase() === other?.toLowerCase()
}
