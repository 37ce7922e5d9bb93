// The table of readings that this program writes, and reads again as a log.

const HEADER = [
  'at',
  'mg_dl',
  'mmol_l',
  'limit',
  'meter',
  'meal',
  'note',
  'source',
  'line',
  'doubt',
  'reasons',
  'in_repeat_set',
  'logged_value',
  'logged_unit',
  'logged_at',
]

/** The first line of the file. */
export const READINGS_HEADER = HEADER.join(',')
