import { LIMITS } from '../../reference/limits'
import { hasClockTime, isLow, loggedUnit, type Readings } from '../../log/readings'
import type { AsRead, Moved, WayChosen, Ways } from '../../log/waysToRead'
import { clock, dayOf, SECONDS_PER_MINUTE } from '../../units/wallClock'
import { dayText, spanText } from './dates'
import { columnLabel, DATE_ORDER_LABEL, HALF_DAYS_LABEL, shownHeader } from './importMessages'
import { ROLE_NAME } from './logs'
import { count, limitText } from './numbers'

/** What is chosen: 'month first', 'Wert (column 3)'; several columns may have one header. */
export function wayLabel(chosen: WayChosen): string {
  switch (chosen.of) {
    case 'unit':
      return chosen.unit
    case 'dates':
      return DATE_ORDER_LABEL[chosen.order]
    case 'clock':
      return HALF_DAYS_LABEL[chosen.hours]
    case 'column':
      return chosen.header === ''
        ? columnLabel(chosen.index, '')
        : `${shownHeader(chosen.header)} (${columnLabel(chosen.index, '')})`
  }
}

/** 'line 4: 2 March 2026, 07:10, 6.4 mmol/L'; the choice of a meal's, a note's or a meter's column shows what it would hold. */
export function wayRow({ readings }: AsRead, index: number, chosen: WayChosen): string {
  const told = [momentOf(readings, index), valueOf(readings, index), ofRole(readings, index, chosen)]
  return `line ${readings.line[index]}: ${told.filter((part) => part !== '').join(', ')}`
}

function momentOf(readings: Readings, index: number): string {
  const at = readings.at[index]
  const day = dayText(dayOf(at), 'with-year')
  return hasClockTime(readings, index) ? `${day}, ${clock(at)}` : day
}

function valueOf(readings: Readings, index: number): string {
  return `${readings.logged[index]} ${loggedUnit(readings, index)}`
}

const LONGEST_CELL = 40

function ofRole(readings: Readings, index: number, chosen: WayChosen): string {
  if (chosen.of !== 'column') return ''
  const cell =
    chosen.role === 'meal'
      ? readings.meal(index)
      : chosen.role === 'note'
        ? readings.note(index)
        : chosen.role === 'meter'
          ? readings.meters[readings.meter[index]]
          : ''
  return cell === '' ? '' : `${ROLE_NAME[chosen.role] ?? chosen.role} ‘${cell.slice(0, LONGEST_CELL)}’`
}

/** '440 readings, 3 of them below 70 mg/dL, 2 March to 30 May 2026; 12 rows set aside; 31 other entries'. */
export function wayEffect({ report, readings, entries }: AsRead): string {
  const unit = loggedUnit(readings, 0)
  let lows = 0
  for (let i = 0; i < readings.n; i++) if (isLow(readings, i)) lows++
  const days = spanText(dayOf(readings.at[0]), dayOf(readings.at[readings.n - 1]))
  return [
    `${count(readings.n, 'reading')}, ${lows === 0 ? 'none' : lows} below ${limitText(LIMITS.low, unit)} ${unit}, ${days}`,
    `${count(report.rows.setAside, 'row')} set aside`,
    ...(entries.length > 0 ? [count(entries.length, 'other entry', 'other entries')] : []),
  ].join('; ')
}

/** 'line 4: 2 March 2026, 07:10 becomes 19:10, 112 mg/dL'. */
export function movedRow({ after: { readings } }: Moved, index: number): string {
  const to = readings.at[index]
  const from = to - readings.shiftMinutes[index] * SECONDS_PER_MINUTE
  const becomes = dayOf(from) === dayOf(to) ? clock(to) : momentOf(readings, index)
  const day = dayText(dayOf(from), 'with-year')
  return `line ${readings.line[index]}: ${day}, ${clock(from)} becomes ${becomes}, ${valueOf(readings, index)}`
}

/** What moving a stretch does to the log. */
export function movedEffect({ readingsBefore, after, moved }: Moved): string {
  const lost = readingsBefore - after.readings.n
  const set =
    lost > 0
      ? `; ${count(lost, 'reading')} would be set aside (in the future, or held twice)`
      : lost < 0
        ? `; ${count(-lost, 'row')} set aside now would be ${lost === -1 ? 'a reading' : 'readings'}`
        : ''
  return `${count(moved.length, 'reading')} would move${set}`
}

/** Said where nothing else can be chosen. */
export function nothingElse(ways: Ways, of: WayChosen['of']): string {
  const others = ways.ways.filter(({ isNow }) => !isNow).length
  if (others > 0) return ''
  switch (of) {
    case 'unit':
      return 'In the other unit no value of this log could be a reading.'
    case 'dates':
      return 'The dates of this log can be read in no other way.'
    case 'clock':
      return 'The log tells its half of the day, or shows hours past noon.'
    case 'column':
      return 'No other column of this log would change what is read.'
  }
}

export const ONLY_BEGINNING = 'Counted over the beginning of the log, which is long.'
