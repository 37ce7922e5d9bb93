import { RECHECK_AFTER_MINUTES } from '../../reference/afterLow'

// What cannot wait: a latest reading that is low, or HI. `value`: as printed; `time`: '07:10'.

export const latestHigh = (value: string, time: string) =>
  `Your latest reading is ${value} (${time}). Repeat with washed, dried hands and follow your plan for highs.`
export const latestLow = (value: string, time: string) =>
  `Your latest reading is ${value} (${time}). If that has not been dealt with, treat it now, as your own plan says. Then wash your hands and recheck after ${RECHECK_AFTER_MINUTES} minutes.`
