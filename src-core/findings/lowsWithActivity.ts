import { isLow } from '../log/readings'
import { fisherUpperTail } from '../statistics/exactTests'
import { dayOf } from '../units/wallClock'
import { tellsOfActivity } from './activityWords'
import { countOf } from './finding'
import type { Look, Question } from './look'
import { FEWEST_LOWS } from './lowsGather'

/** Fewer days with activity, or without, tell nothing (design choice). */
const FEWEST_DAYS_OF_A_KIND = 5

/**
 * Whether days with activity, and the days after, hold a low more often than the other days with tests (Fisher's exact test).
 * Activity is what notes and entries of the log tell; the note of a low itself may have been written because of it and tells
 * nothing here.
 */
export function lowsWithActivity({ readings, indexes, entries }: Look): Question | null {
  const days = new Set<number>()
  const lowDays = new Set<number>()
  const active = new Set<number>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    days.add(day)
    if (isLow(readings, index)) lowDays.add(day)
    else if (tellsOfActivity(readings.note(index))) active.add(day)
  }
  for (const { at, label, text } of entries) {
    if (tellsOfActivity(typeof label === 'number' ? text : `${label} ${text}`)) active.add(dayOf(at))
  }
  const isOfActivity = (day: number) => active.has(day) || active.has(day - 1)
  const with_ = [...days].filter(isOfActivity)
  const without = [...days].filter((day) => !isOfActivity(day))
  const fewest = Math.min(with_.length, without.length)
  if (fewest < FEWEST_DAYS_OF_A_KIND || lowDays.size < FEWEST_LOWS) return null
  const lowsOf = (of: readonly number[]) => of.filter((day) => lowDays.has(day)).length
  const [own, base] = [countOf(lowsOf(with_), with_.length), countOf(lowsOf(without), without.length)]
  return {
    ps: [fisherUpperTail(own.count, own.n - own.count, base.count, base.n - base.count)],
    answer: ([clear]) =>
      clear && own.count >= FEWEST_LOWS
        ? { code: 'lows-with-activity', evidence: { ...own, others: base } }
        : null,
  }
}
