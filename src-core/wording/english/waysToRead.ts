import { type Readings, loggedUnit } from '../../log/readings'
import type { WayChosen } from '../../log/waysToRead'
import { LIMITS } from '../../reference/limits'
import type { HeldCell, moveEffect, wayEffect as toldEffect } from '../../told/ways'
import { clock, dayOf, type WallSeconds } from '../../units/wallClock'
import { dayText, readingMoment, spanText } from './dates'
import { columnLabel, DATE_ORDER_LABEL, HALF_DAYS_LABEL } from './importMessages'
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
        ? columnLabel(chosen)
        : `${columnLabel(chosen)} (${columnLabel({ ...chosen, header: '' })})`
  }
}

/** 'line 4: 2 March 2026, 07:10, 6.4 mmol/L, note ‘shaky’'. */
export function wayRow(readings: Readings, index: number, held: HeldCell | null): string {
  const moment = readingMoment(readings, index, 'with-year')
  const cell = held === null ? '' : `, ${ROLE_NAME[held.role]} ‘${held.cell}’`
  return `line ${readings.line[index]}: ${moment}, ${valueOf(readings, index)}${cell}`
}

function valueOf(readings: Readings, index: number): string {
  return `${readings.logged[index]} ${loggedUnit(readings, index)}`
}

/** '440 readings, 3 of them below 70 mg/dL, 2 March to 30 May 2026; 12 rows set aside; 31 other entries'. */
export function wayEffect(effect: ReturnType<typeof toldEffect>): string {
  const { readings, lows, unit, from, to, setAside, entries } = effect
  const below = `${lows === 0 ? 'none' : lows} below ${limitText(LIMITS.low, unit)} ${unit}`
  const others = entries === 0 ? '' : `; ${count(entries, 'other entry', 'other entries')}`
  return `${count(readings, 'reading')}, ${below}, ${spanText(from, to)}; ${count(setAside, 'row')} set aside${others}`
}

/** 'line 4: 2 March 2026, 07:10 becomes 19:10, 112 mg/dL'; `from`: as logged. */
export function movedRow(readings: Readings, index: number, from: WallSeconds): string {
  const day = dayText(dayOf(from), 'with-year')
  const to = readings.at[index]
  const becomes = dayOf(from) === dayOf(to) ? clock(to) : readingMoment(readings, index, 'with-year')
  return `line ${readings.line[index]}: ${day}, ${clock(from)} becomes ${becomes}, ${valueOf(readings, index)}`
}

/** What moving a stretch does to the log. */
export function movedEffect({ moved, lost, won }: ReturnType<typeof moveEffect>): string {
  const readings = `${count(moved, 'reading')} would move`
  if (lost > 0)
    return `${readings}; ${count(lost, 'reading')} would be set aside (in the future, or recorded twice)`
  if (won > 0)
    return `${readings}; ${count(won, 'row')} set aside now would be ${won === 1 ? 'a reading' : 'readings'}`
  return readings
}

/** Said where nothing else can be chosen. */
export const NOTHING_ELSE: Readonly<Record<WayChosen['of'], string>> = {
  unit: 'In the other unit no value of this log could be a reading.',
  dates: 'The dates of this log can be read in no other way.',
  clock: 'The log says AM or PM, or its hours go past 12.',
  column: 'No other column of this log would change what is read.',
}

export const ONLY_BEGINNING = 'The log is long: only its beginning was counted.'
