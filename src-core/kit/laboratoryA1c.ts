import { type DaySpan, type Readings, rangeOfDays } from '../log/readings'
import type { Settings } from '../model/settings'
import { a1cMmolMolToPercent, a1cPercentToMmolMol, type A1cRange } from '../statistics/estimatedA1c'
import { A1C_DAYS, type LatestA1c, latestA1c } from '../statistics/latestA1c'
import { dayOfDate, type DayNumber, dayOf } from '../units/wallClock'
import type { Kit } from './kit'

/** The last of the three months before a sample weighs most. */
const DAYS_BEFORE_A1C = A1C_DAYS
const DAYS_OF_A_MONTH = 30
/** A design choice. */
const NEARLY_ALL_DAYS = 0.9

/** A laboratory A1C beside the readings of the 90 days before it. */
export interface LaboratoryBeside {
  readonly date: DayNumber
  readonly percent: number
  readonly mmolMol: number
  /** Of the readings from 90 days before to the day before; its `n` may be 0. */
  readonly before: LatestA1c
  /** Whether so few of these days are without readings that they explain no difference. */
  readonly wellCovered: boolean
  /** On how many of each 30 of these days there are readings, oldest first. */
  readonly daysByMonth: readonly number[]
  /** Laboratory minus the centre of the estimate, percent points; null without an estimate. */
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
      const span = { from: date - DAYS_BEFORE_A1C, to: date - 1 }
      const before = latestA1c(readings, span, leaveOut, settings)
      return {
        date,
        percent,
        mmolMol: mmolMol ?? a1cPercentToMmolMol(percent),
        before,
        wellCovered: before.daysWithReadings >= NEARLY_ALL_DAYS * DAYS_BEFORE_A1C,
        daysByMonth: daysByMonth(readings, span, leaveOut),
        difference: before.estimate === null ? null : percent - before.estimate.percent,
        position: before.estimate === null ? null : positionOf(percent, before.estimate.rangePercent),
      }
    })
    .sort((a, b) => a.date - b.date)
}

function daysByMonth(readings: Readings, span: DaySpan, leaveOut: number): readonly number[] {
  const { start, end } = rangeOfDays(readings, span)
  const days = new Set<DayNumber>()
  for (let i = start; i < end; i++) if ((readings.flags[i] & leaveOut) === 0) days.add(dayOf(readings.at[i]))
  const months = new Array<number>(DAYS_BEFORE_A1C / DAYS_OF_A_MONTH).fill(0)
  for (const day of days) months[Math.floor((day - span.from) / DAYS_OF_A_MONTH)]++
  return months
}

/** A limit outside the published table is no limit. */
function positionOf(percent: number, [low, high]: A1cRange): LaboratoryBeside['position'] {
  if (low !== null && percent < low) return 'below'
  if (high !== null && percent > high) return 'above'
  return low === null && high === null ? null : 'within'
}
