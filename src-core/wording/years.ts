import type { DayNumber } from '../units/wallClock'

/** Whether dates carry their year: needed once the days printed lie in a span that holds a date twice. */
export type Years = 'with-year' | 'without-year'

const DAYS_THAT_REPEAT_A_DATE = 365

/** How to write dates from `first` to `last`. */
export function yearsFor(first: DayNumber, last: DayNumber): Years {
  return last - first >= DAYS_THAT_REPEAT_A_DATE ? 'with-year' : 'without-year'
}
