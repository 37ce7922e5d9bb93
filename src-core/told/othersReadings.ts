import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { Readings } from '../log/readings'
import { tellsOfAnother } from '../day/othersWords'

/** So many of them are listed on paper (design choice). */
const MOST_LISTED = 8

/** Readings whose note says that they may be somebody else's, of which nothing was decided: they are counted. */
export interface OthersReadingsTold {
  readonly n: number
  /** Indexes of the first of them, in order of time. */
  readonly listed: readonly number[]
}

/** Indexes of the period's readings whose note says that they may be somebody else's, whatever was decided of them. */
export function othersReadings(
  { readings }: Pick<Analysis, 'readings'>,
  { start, end }: Pick<PeriodFigures, 'start' | 'end'>,
): readonly number[] {
  const isAnothers = noteTeller(readings)
  const found: number[] = []
  for (let index = start; index < end; index++) if (isAnothers(index)) found.push(index)
  return found
}

/** Whether the note of one reading says so. */
export function isAnothersReading(readings: Readings, index: number): boolean {
  return tellsOfAnother(readings.note(index))
}

export function othersReadingsTold(analysis: Analysis, period: PeriodFigures): OthersReadingsTold {
  const decided = new Set(analysis.technique.decided.map(({ index }) => index))
  const open = othersReadings(analysis, period).filter((index) => !decided.has(index))
  return { n: open.length, listed: open.slice(0, MOST_LISTED) }
}

/** Each note is read once. */
function noteTeller(readings: Readings): (index: number) => boolean {
  const told = new Map<string, boolean>()
  return (index) => {
    const note = readings.note(index)
    let tells = told.get(note)
    if (tells === undefined) told.set(note, (tells = tellsOfAnother(note)))
    return tells
  }
}
