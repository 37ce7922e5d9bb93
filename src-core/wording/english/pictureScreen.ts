// The screen of the picture: lows, figures, pictures with their tables, and two periods side by side.

/** Behind a heading. */
export const inUnit = (unit: string) => `in ${unit}`
export const DRAWING = 'Drawing …'

export const LOWS = 'Lows'
export const LOWS_LABEL = 'Lows, one by one'
export const moreLows = (more: number) => `${more} more`
export const moreListed = (more: number) => `and ${more} more in the list of their readings`
export const LOOK_AT_LOWS = 'Look at their readings'
export const HI_LABEL = 'Readings HI'
export const HI = 'HI'
/** Heard behind a low. */
export const HEARD_DOUBTFUL = '(doubtful, still counted)'
export const HEARD_BRACKETED = '(on days in doubt, still counted)'

export const NUMBERS = 'The numbers'
export const FIGURES = 'Figures'
export const FIGURE = 'Figure'
export const AS_LOGGED = 'As logged'
export const STANDS_OUT = 'What stands out'
export const TRUST = 'How far the readings can be trusted'

/** A picture by its heading, what it is called, and what its table is called. */
export const DAY = {
  heading: 'By time of day',
  name: 'Picture of the day',
  table: 'The day in blocks of three hours',
} as const
export const DAYS = {
  heading: 'Day by day',
  name: 'Picture of the days',
  table: 'The days row by row',
} as const
export const SPREAD = {
  heading: 'How the readings spread',
  name: 'Picture of the spread',
  table: 'Readings by value',
} as const
export const tableCaption = (table: string, unit: string) => `${table}, ${unit}`
/** `name`: of a picture. */
export const inWordsText = (name: string) => `${name} in words`
export const inNumbersText = (name: string) => `${name} in numbers`
/** Over a column without a title. */
export const VERDICT = 'verdict'

export const TWO_PERIODS = 'Two periods'
export const SIDE_BY_SIDE = 'Two periods side by side'
export const PICTURE_OF_TWO = 'Picture of the two periods'
export const BLOCK_CHANGES = 'Change by part of the day'
export const blockChangesHeading = (unit: string) => `Change by part of the day: mean in ${unit} (readings)`

export const DAYS_OF_REPORT = 'Days of the report'
export const REPORT = 'Report'
export const BESIDE = 'Compared with'
export const FROM = 'from'
export const TO = 'to'
export const WITHOUT_BESIDE = 'Without a second period'
export const SET_BESIDE = 'Compare with another period'
export const DAYS_SHOWN = 'Shown.'
