import { count } from './numbers'

// Readings whose note says that they may be somebody else's.

export const TITLE = 'Perhaps somebody else’s'

/** A reading with its note; '' where notes are not printed. */
interface Noted {
  readonly moment: string
  readonly value: string
  readonly note: string
}

/** '2 readings have a note that says they may be somebody else’s: 3 April, 07:10: 240 ‘wife tested’; ...' */
export function othersText(n: number, listed: readonly Noted[], more: number): string {
  const each = listed.map(
    ({ moment, value, note }) => `${moment}: ${value}${note === '' ? '' : ` ‘${note}’`}`,
  )
  const all = more === 0 ? each : [...each, `and ${more} more`]
  return n === 1
    ? `1 reading has a note that says it may be somebody else’s: ${all.join('; ')}. It is counted until you decide.`
    : `${count(n, 'reading')} have notes that say they may be somebody else’s: ${all.join('; ')}. They are counted until you decide.`
}

/** Beside the reading in hand, where nothing was chosen beforehand. */
export function whyAsked(note: string, low: boolean): string {
  const counted = low
    ? 'It is counted until you decide, and stays among the lows whatever you decide.'
    : 'It is counted until you decide.'
  return (
    `Its note (‘${note}’) says that it may be somebody else’s reading. ${counted} ` +
    'If it is somebody else’s, leave it out; if it is yours, keep it.'
  )
}
export const HEADLINE = 'Whose reading is it?'
