// Titles and marks of the tables that stand beside pictures, and of lists of readings.

export const DAYS_TITLES = ['days', 'readings', 'median', 'lows'] as const
export const SPREAD_TITLES = ['from, up to', 'readings', 'low'] as const
export const AROUND_TITLES = ['when', 'reading', 'marks'] as const

/** What is marked of one reading. */
export const MARKS = {
  this: 'this one',
  low: 'low',
  doubtful: 'doubtful',
  bracketed: 'on days in doubt',
  kept: 'kept by you',
} as const

/** Beside the note of a reading that a person typed. */
export const TYPED = 'typed'

/** Where a reading stands: 'line 27 of log 1'. */
export const lineText = (line: number, log: string) => `line ${line} of ${log}`
