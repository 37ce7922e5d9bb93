import type { ReadLog } from './readLog'
import { FLAG } from './readings'
import { momentReader } from './resolveRows'
import { type Shift, shiftOn } from './shifts'

/** Insulin, a meal's carbohydrates or another event, as a log has it. For the diary; nothing is computed with it. */
export interface LogEntry {
  /** Wall-clock seconds; midnight of the day where the log gives no time. */
  readonly at: number
  readonly dayOnly: boolean
  readonly source: number
  readonly line: number
  /** The column's header, or the kind of entry. */
  readonly label: string
  readonly text: string
}

/** The entries of all logs that have a date, in order of time. Those of rows that stand twice are given once. */
export function resolveEntries(
  logs: readonly ReadLog[],
  zone: string,
  shifts: readonly Shift[],
): readonly LogEntry[] {
  const entries = logs.flatMap((log, source) => {
    const momentOf = momentReader(log, zone)
    const { table } = log
    return table.entries.flatMap(({ row, label, text, byKind }): LogEntry[] => {
      const reason = table.reasonOf(row)
      if (byKind ? reason !== 'not-glucose' : reason === 'duplicate' || reason === 'repeated-header')
        return []
      const moment = momentOf(row)
      if (moment === null) return []
      const at = moment.at + shiftOn(moment, shifts) * 60
      return [
        { at, dayOnly: (moment.flags & FLAG.dayOnly) !== 0, source, line: table.line[row], label, text },
      ]
    })
  })
  return entries.sort((a, b) => a.at - b.at || a.source - b.source || a.line - b.line)
}
