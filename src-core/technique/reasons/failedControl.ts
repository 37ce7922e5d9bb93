import type { Readings } from '../../log/readings'
import { toMgDl } from '../../units/glucose'
import { type DayNumber, dayOf } from '../../units/wallClock'
import type { ControlTold, EquipmentTold, StripsTold } from './evidence'
import { dayOfText, stripsInUse, stripsLastUntil } from './stripsInUse'
import type { ReasonDefinition } from './definition'

/** A control result outside the range printed with the strips. mg/dL. */
export interface FailedControl {
  readonly code: 'failed-control'
  readonly evidence: {
    readonly failedOn: DayNumber
    /** The last control before it that passed; null without one. */
    readonly passedOn: DayNumber | null
    /** On which side of the range it lay: the meter reads too high, or too low. */
    readonly side: 'too-high' | 'too-low'
    readonly resultMgDl: number
    readonly rangeLowMgDl: number
    readonly rangeHighMgDl: number
    /** The vial as the control names it; null where it names none. */
    readonly vial: string | null
    /** Place in the kit's list of controls of the first of those that failed one after the other, of this vial and meter. */
    readonly cause: number
  }
}

export const FAILED_CONTROL: ReasonDefinition<FailedControl> = {
  code: 'failed-control',
  standsAlone: true,
  mayFlagLow: true,
  faultOf: ({ cause, failedOn, side, resultMgDl }) => ({
    fault: String(cause),
    told: `${failedOn} ${side} ${resultMgDl}`,
    direction: side,
  }),
  adviceOf: ({ side }) => ({ fits: { code: 'failed-control', side }, next: 'test-control' }),
  finder: ({ readings, equipment }) => failedControls(readings, equipment),
}

/** How long an opened vial keeps where its leaflet names no shorter time: three months (common practice). */
const DAYS_OF_A_VIAL = 90

/**
 * The failed control that speaks against a reading, for one reading after the other; of several the nearest in time, and of
 * equally near ones the earlier. A control speaks of the vial and the meter it was made with: back to the last one that
 * passed and on to the next, and no further than one vial lasts.
 */
function failedControls(
  readings: Readings,
  equipment: EquipmentTold,
): (index: number) => FailedControl | null {
  if (equipment.controls.every(passed)) return () => null
  const stretchesOfMeter = new Map<number, readonly DaysOfDoubt[]>()
  return (index) => {
    const day = dayOf(readings.at[index])
    const meter = readings.meter[index]
    let stretches = stretchesOfMeter.get(meter)
    if (stretches === undefined) stretchesOfMeter.set(meter, (stretches = daysOfDoubtOf(equipment, meter)))
    let nearest: DaysOfDoubt | null = null
    for (const stretch of stretches) {
      if (day < stretch.from || day > stretch.to) continue
      if (nearest === null || distance(stretch, day) < distance(nearest, day)) nearest = stretch
    }
    return nearest?.reason ?? null
  }
}

/** Days, both included, on which a failed control casts doubt on a meter's readings; none where they end before they begin. */
interface DaysOfDoubt {
  readonly from: DayNumber
  readonly to: DayNumber
  readonly reason: FailedControl
}

function distance({ reason }: DaysOfDoubt, day: DayNumber): number {
  return Math.abs(reason.evidence.failedOn - day)
}

export function passed({ result, range: [low, high] }: Pick<ControlTold, 'result' | 'range'>): boolean {
  return low <= result && result <= high
}

/** A control of one meter, with the vials of the kit that it may have been made with. */
interface Control {
  readonly told: ControlTold
  readonly day: DayNumber
  /** Place in the kit's list: of one day's controls the later came later. */
  readonly place: number
  readonly vials: readonly StripsTold[]
}

function daysOfDoubtOf(equipment: EquipmentTold, meter: number): readonly DaysOfDoubt[] {
  const controls = equipment.controls
    .flatMap((told, place): readonly Control[] => {
      if (!equipment.isOfMeter(told.meter, meter) || isOfAnotherMeter(told, equipment, meter)) return []
      const day = dayOfText(told.date) as DayNumber
      return [{ told, day, place, vials: vialsOf(told, day, equipment, meter) }]
    })
    .sort((a, b) => a.day - b.day || a.place - b.place)
  return controls
    .filter(({ told }) => !passed(told))
    .flatMap((failed) =>
      (failed.vials.length === 0 ? [null] : failed.vials).map((vial) =>
        daysOfDoubt(
          failed,
          vial,
          controls.filter((other) => mayBeOf(vial, failed, other)),
          equipment,
          meter,
        ),
      ),
    )
}

/** `controls`: those of the vial, in order of time. */
function daysOfDoubt(
  failed: Control,
  vial: StripsTold | null,
  controls: readonly Control[],
  equipment: EquipmentTold,
  meter: number,
): DaysOfDoubt {
  const lasts = Math.min(vial?.daysOnceOpen ?? DAYS_OF_A_VIAL, DAYS_OF_A_VIAL)
  const place = controls.indexOf(failed)
  const before = controls.slice(0, place)
  const passedOn = before.findLast(({ told }) => passed(told))?.day ?? null
  const nextPass = controls.slice(place).find(({ told }) => passed(told))?.day ?? Infinity
  // What failed one after the other, within the days of one vial, is one cause.
  let first = failed
  for (const other of before.reverse()) {
    if (passed(other.told) || first.day - other.day > lasts) break
    first = other
  }
  const { from, to } = daysOfVial(vial, lasts, failed.day, passedOn, equipment, meter)
  return {
    // The day of a control that passed is sound, unless one failed later that day.
    from: passedOn === null ? from : Math.max(from, Math.min(passedOn + 1, failed.day)),
    to: Math.min(to, nextPass - 1),
    reason: reasonOf(failed, passedOn, first.place),
  }
}

function reasonOf(
  { told: { result, range, unit, vial }, day }: Control,
  passedOn: DayNumber | null,
  cause: number,
): FailedControl {
  const [low, high] = range
  return {
    code: 'failed-control',
    evidence: {
      failedOn: day,
      passedOn,
      side: result > high ? 'too-high' : 'too-low',
      resultMgDl: toMgDl(result, unit),
      rangeLowMgDl: toMgDl(low, unit),
      rangeHighMgDl: toMgDl(high, unit),
      vial: vial ?? null,
      cause,
    },
  }
}

/**
 * The days on which a vial that was tested on a day may have been in use. Where nobody says when it was opened, that may
 * have been any day up to the control: no reading further from it than a vial lasts can be of it.
 */
function daysOfVial(
  vial: StripsTold | null,
  lasts: number,
  testedOn: DayNumber,
  passedOn: DayNumber | null,
  equipment: EquipmentTold,
  meter: number,
): { readonly from: DayNumber; readonly to: DayNumber } {
  const opened = dayOfText(vial?.opened)
  // It was open on the day of the pass at the latest. One tested later than it lasts tells nothing of its opening.
  const end = (opened ?? passedOn ?? testedOn) + lasts
  // A vial that is tested is in use, whichever was opened since.
  const inUseUntil =
    vial === null
      ? Infinity
      : (dayOfText(vial.finished) ?? Math.max(testedOn, stripsLastUntil(equipment, vial, meter)))
  return {
    from: Math.max(testedOn - lasts, opened ?? -Infinity),
    to: Math.min(end < testedOn ? testedOn + lasts : end, inUseUntil),
  }
}

/** Those named by the control, of these the ones in use that day; where it names none, all in use that day. */
function vialsOf(
  control: ControlTold,
  day: DayNumber,
  equipment: EquipmentTold,
  meter: number,
): readonly StripsTold[] {
  const inUse = stripsInUse(equipment, meter, day)
  if (control.vial === undefined) return inUse
  const named = equipment.strips.filter(
    (strips) => equipment.isOfMeter(strips.meter, meter) && isNamed(strips, control.vial),
  )
  const namedInUse = named.filter((strips) => inUse.includes(strips))
  return namedInUse.length > 0 ? namedInUse : named
}

/** Whether the kit tells the vial tested, and that it is another meter's. */
function isOfAnotherMeter(control: ControlTold, equipment: EquipmentTold, meter: number): boolean {
  const named = equipment.strips.filter((strips) => isNamed(strips, control.vial))
  return named.length > 0 && !named.some((strips) => equipment.isOfMeter(strips.meter, meter))
}

/** Whether another control of the meter may be of the vial that failed: one that the kit tells, else one of the same name. */
function mayBeOf(vial: StripsTold | null, failed: Control, other: Control): boolean {
  if (vial !== null) return other.vials.includes(vial)
  return other.vials.length === 0 && isSameName(failed.told.vial, other.told.vial)
}

/** A vial goes by the person's name for it, or by its lot. */
function isNamed({ vial, lot }: StripsTold, name: string | undefined): boolean {
  return name !== undefined && (isSameName(vial, name) || isSameName(lot, name))
}

/** Capitals make no other vial, as they make no other meter. */
function isSameName(one: string | undefined, other: string | undefined): boolean {
  return one?.toLowerCase() === other?.toLowerCase()
}
