import { type Noted, notedText } from './noted'
import { count } from './numbers'

// Readings whose note says that they may be somebody else's.

export const TITLE = 'Perhaps somebody else’s'

/** '2 readings have a note that says they may be somebody else’s: 3 April, 07:10: 240 ‘wife tested’; ...' */
export function othersText(n: number, listed: readonly Noted[]): string {
  const each = notedText(listed, n)
  return n === 1
    ? `1 reading has a note that says it may be somebody else’s: ${each}. It is counted until you decide.`
    : `${count(n, 'reading')} have notes that say they may be somebody else’s: ${each}. They are counted until you decide.`
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
