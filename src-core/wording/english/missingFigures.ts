// Why a figure is missing, as it stands beside it in the numbers as JSON.

export const NO_READING = 'no reading'
export const NO_READINGS_BEFORE = 'no readings in the 90 days before'
export const BELOW_TWO_READINGS = 'fewer than two readings'
export const BELOW_TWO_PAIRS = 'fewer than two pairs'
export const OUTSIDE_TABLE = 'a limit falls outside the published table, which runs from 5 to 12 %'
export const TOO_FEW_NEAR = 'fewer than five effective readings near this time of day'
export const EVERY_READING_TAGGED = 'every reading has a tag that tells its moment'
export const NO_BLOCK = 'no three-hour block holds five readings'
export const NO_TEST_NEARBY = 'no other test near it'
export const TOO_FEW_FOR_LINE = 'fewer than twenty pairs, or all in one place'
export const NOTHING_PROMPTED = 'no test seems to have been prompted, or too few others are left'
export const NO_AGREEING_SET = 'no repeat set of one meter that agrees'
export const NO_CLOSING_TEST = 'no washed test follows the last changed one, so drift cannot be ruled out'
export const TESTED_OTHERWISE = 'the block was tested at different times or meals'

export const tooFewDays = (fewest: number) => `fewer than ${fewest} days with readings`
export const tooFewDaysInOne = (fewest: number) =>
  `one of the periods has fewer than ${fewest} days with readings`
export const tooFewWeeks = (fewest: number, daysOfEach: number) =>
  `fewer than ${fewest} weeks with ${daysOfEach} days or more`
export const tooFewBlocks = (fewest: number) =>
  `fewer than ${fewest} three-hour blocks hold five readings in both periods`
export const tooFewTags = (fewestPercent: number) =>
  `fewer than ${fewestPercent} % of the readings of one of the periods carry a meal's tag`
export const tooFewCells = (fewest: number) =>
  `fewer than ${fewest} cells of block and meal hold five readings in both periods`
/** `longest`: days of a period that has no latest part of its own. */
export const noLatestDays = (longest: number) =>
  `a period of ${longest} days or fewer, or too few days with readings, or many HI or LO`

// Why there is no estimated A1C of the latest `days`.
export const TOO_MANY_MARKERS = 'more than a tenth of the readings are HI or LO'
export const IN_PREGNANCY = 'in pregnancy an A1C does not reflect the glucose behind it'
export const tooFewLatestReadings = (fewest: number, days: number) =>
  `fewer than ${fewest} readings in the latest ${days} days`
export const tooFewLatestDays = (fewest: number, days: number) =>
  `fewer than ${fewest} days with readings in the latest ${days} days`
