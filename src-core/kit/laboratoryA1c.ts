import { type Readings, rangeOfDays } from '../log/readings'
import type { Settings } from '../analysis/settings'
import { a1cMmolMolToPercent, a1cPercentToMmolMol } from '../statistics/estimatedA1c'
import { summarise, type Summary } from '../statistics/summary'
import { type DayNumber, dayOf } from '../units/wallClock'
import { dayOfDate } from './dayOfDate'
import type { Kit } from './kit'

/** Haemoglobin is renewed over about three months; the last one weighs most. */
export const DAYS_BEFORE_A1C = 90

/** A laboratory A1C beside the readings of the 90 days before it. */
export interface LaboratoryBeside {
  readonly date: DayNumber
  readonly percent: number
  readonly mmolMol: number
  /** Of the readings from 90 days before to the day before; its `n` may be 0. */
  readonly before: Summary
  /** On how many of these days there are readings. */
  readonly daysWithReadings: number
  /** Laboratory minus the centre of the estimate, percent points; null without readings. */
  readonly difference: number | null
  /** Where the laboratory's value lies from the published range; null without a range. */
  readonly position: 'below' | 'within' | 'above' | null
}

/** Every laboratory A1C of the kit, in order of time. `leaveOut`: flags of readings that figures pass over. */
export function besideLaboratory(
  { laboratoryA1c = [] }: Kit,
  readings: Readings,
  settings: Settings,
  leaveOut: number,
): readonly LaboratoryBeside[] {
  return laboratoryA1c
    .map(({ date: isoDate, percent: given, mmolMol }): LaboratoryBeside => {
      const date = dayOfDate(isoDate)
      const percent = given ?? a1cMmolMolToPercent(mmolMol as number)
      const { start, end } = rangeOfDays(readings, { from: date - DAYS_BEFORE_A1C, to: date - 1 })
      const before = summarise(readings, start, end, settings, leaveOut)
      const days = new Set<DayNumber>()
      for (let i = start; i < end; i++) {
        if ((readings.flags[i] & leaveOut) === 0) days.add(dayOf(readings.at[i]))
      }
      return {
        date,
        percent,
        mmolMol: mmolMol ?? a1cPercentToMmolMol(percent),
        before,
        daysWithReadings: days.size,
        difference: before.estimatedA1cPercent === null ? null : percent - before.estimatedA1cPercent,
        position: positionOf(percent, before.estimatedA1cRangePercent),
      }
    })
    .sort((a, b) => a.date - b.date)
}

/** A limit outside the published table is no limit. */
function positionOf(
  percent: number,
  range: Summary['estimatedA1cRangePercent'],
): LaboratoryBeside['position'] {
  if (range === null) return null
  const [low, high] = range
  if (low !== null && percent < low) return 'below'
  if (high !== null && percent > high) return 'above'
  return low === null && high === null ? null : 'within'
}
