// The screen of the readings: the list, its filters, one reading with what is known of it, and what is decided.

const HEADINGS = {
  all: 'Readings',
  doubtful: 'Doubtful readings',
  lows: 'Lows',
  decided: 'Readings',
} as const
/** `others`: how many readings may be somebody else’s. */
export const listHeading = (show: keyof typeof HEADINGS, others: number) =>
  show === 'doubtful' && others > 0 ? 'Readings to decide' : HEADINGS[show]
export const LIST = 'Readings'
/** Where a list is empty. */
export const NONE_LISTED = {
  all: 'No reading fits. Change the search or the filters.',
  doubtful: 'No reading was found doubtful. That does not prove them right.',
  lows: 'No low fits the search and the filters.',
  decided: 'Nothing has been decided yet. What you keep or leave out is listed here.',
} as const
export const allLookedAt = (others: number) =>
  others === 0 ? 'You have looked at all the doubtful readings.' : 'You have looked at all of them.'
export const lastOne = (open: number) =>
  `The last one. ${open} ${open === 1 ? 'has' : 'have'} no decision yet.`
export const nextToDecide = (others: number) =>
  others === 0 ? 'Next doubtful reading' : 'Next reading to decide'
export const NEXT_READING = 'Next reading'

export const WHICH = 'Which readings'
export const SHOW = 'Show'
export const showName = (
  show: 'all' | 'doubtful' | 'lows' | 'decided',
  counts: { readonly readings: number; readonly doubtful: number; readonly others: number },
): string => {
  switch (show) {
    case 'all':
      return `All (${counts.readings})`
    case 'doubtful':
      return counts.others === 0
        ? `Doubtful (${counts.doubtful})`
        : `To decide (${counts.doubtful + counts.others})`
    case 'lows':
      return 'Lows'
    case 'decided':
      return 'Decided'
  }
}
/** `narrowed`: how many filters are set. */
export const searchAndFilter = (narrowed: number) =>
  `Search and filter${narrowed > 0 ? ` (${narrowed})` : ''}`
export const SEARCH = 'Search'
export const SEARCH_EXAMPLE = '120, 9 March, low, a note'
export const MEAL = 'Meal'
export const METER = 'Meter'
export const HOURS = 'Hours'
export const ANY = 'any'

export const COLUMNS = { when: 'When', value: 'Reading', beside: 'Meal, note', decided: 'Decided' } as const
export const DECIDED = { keep: 'kept by you', 'leave-out': 'left out' } as const
/** Heard beside a value. */
export const HEARD = { low: 'low', doubtful: 'doubtful', bracketed: 'on days in doubt' } as const

export const HEARD_LOW = 'Low:'
/** `unit`: '' behind LO and HI. */
export const valueAt = (value: string, unit: string, moment: string) => `${value} ${unit} on ${moment}`
export const HOURS_AROUND = 'The hours around this reading'
export const aroundCaption = (unit: string) => `Readings around this one, ${unit}`
export const NOT_MARKED = 'The program does not mark this reading. That does not prove it right.'
export const WHY_DOUBTED = 'Why'
export const FITS_BEST = 'Fits best:'
export const ALSO_POSSIBLE = 'Also possible:'
export const NEXT_TIME = 'Next time:'

export const OUTSIDE = 'Outside the days of this report: it is in none of the figures.'
export const EFFECT = 'What leaving it out does'
export const EFFECT_TITLES = { figure: 'Figure', effect: 'With it → without it' } as const
export const effectText = (before: string, after: string) => `${before} → ${after}`

export const YOUR_DECISION = 'Your decision'
export const REASON_FIRST = 'Say why first: a low is left out of averages only with a reason.'
export const WHY = 'Why?'
export const WHERE_PRINTED = 'printed beside the reading'
export const REASON_CHANGED = 'Reason changed.'
export const KEEP = 'Keep'
export function decidedNow(choice: 'keep' | 'leave-out', value: string, low: boolean): string {
  const said = choice === 'keep' ? `Kept ${value}.` : `Left ${value} out of averages.`
  return low ? `${said} It stays among the lows.` : said
}
/** What stands as decided; `why`: '' where nothing is known. */
export const decisionText = (decided: string, why: string) => `${decided}${why === '' ? '' : `: ${why}`}.`
export const TAKE_BACK = 'Take back'
export const takenBack = (value: string) => `Taken back: ${value} is undecided again.`

export const TYPED_BY_HAND = 'Typed by hand.'
export const CHANGE_TYPED = 'Change or remove it'
export const TYPE_ANOTHER = 'Type what it should be …'
export function whatTypingDoes(value: string, low: boolean): string {
  const lows = low ? ', and stays among the lows' : ''
  return `What you type is added and marked as typed. ${value} stays as the meter logged it, left out of averages${lows}.`
}
export const SHOULD_BE = 'What it should be'
export const ADD_AS_TYPED = 'Add as typed'
export const ADDED_AS_TYPED = 'Added as typed.'
