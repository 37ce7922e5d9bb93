import type { Readings } from '../log/readings'
import { type DayNumber, dayOf } from '../units/wallClock'

/** Whether dates carry their year: needed once the days printed lie in a span that holds a date twice. */
export type Years = 'with-year' | 'without-year'

const DAYS_THAT_REPEAT_A_DATE = 365

/** How to write dates from `first` to `last`. */
export function yearsFor(first: DayNumber, last: DayNumber): Years {
  return last - first >= DAYS_THAT_REPEAT_A_DATE ? 'with-year' : 'without-year'
}

/** How to write the dates of a logbook. */
export function yearsOf({ n, at }: Readings): Years {
  return n > 0 ? yearsFor(dayOf(at[0]), dayOf(at[n - 1])) : 'with-year'
}
