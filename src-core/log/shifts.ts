import { type DayNumber, dayOf, parseIsoDay } from '../units/wallClock'
import { FLAG } from './readings'

/** A stretch of days whose meter clock was wrong, and by how much its times are to be moved. */
export interface Shift {
  /** First and last day as logged, both included. */
  readonly from: DayNumber
  readonly to: DayNumber
  readonly minutes: number
  /** SHA-256 of the one log whose meter it was; left out, of all. */
  readonly log?: string
}

/** The stretches that hold for a log. */
export function shiftsOf(shifts: readonly Shift[], sha256: string): readonly Shift[] {
  return shifts.filter(({ log }) => log === undefined || log === sha256)
}

const FORM = /^(\d{4}-\d{2}-\d{2})\.\.(\d{4}-\d{2}-\d{2})=([+-])(\d{1,5}):([0-5]\d)$/

/** Reads '2026-03-29..2026-04-02=+12:00'; null where it is not of this form or names no such day. */
export function parseShift(text: string): Shift | null {
  const match = FORM.exec(text.trim())
  if (!match) return null
  const [from, to] = [parseIsoDay(match[1]), parseIsoDay(match[2])]
  if (from === null || to === null || from > to) return null
  const minutes = (match[3] === '-' ? -1 : 1) * (Number(match[4]) * 60 + Number(match[5]))
  return { from, to, minutes }
}

/** Minutes by which a moment is to be moved: the first stretch that holds it counts; a day alone stays. */
export function shiftOn(
  moment: { readonly at: number; readonly flags: number },
  shifts: readonly Shift[],
): number {
  if (shifts.length === 0 || moment.flags & FLAG.dayOnly) return 0
  const day = dayOf(moment.at)
  return shifts.find(({ from, to }) => day >= from && day <= to)?.minutes ?? 0
}
