import type { ColumnPlan, ValueSlot } from './columns'
import { type CellMoment, type CellTime, halfOfDay, joinMoment, readMoment, readTimeCell } from './dateCell'
import { mealMoment } from './mealWords'
import { conceptsOf } from './words/concepts'
import { plainDigits } from './words/plain'
import { remembered } from './words/remembered'

/** Signs and words that repeat what stands above. */
const DITTO =
  /^(?:["\u201c\u201d\u201e\u2033\u3003']{1,2}|,,|-\s?["\u201d\u2033]\s?-|dto\.?|do\.|id\.|idem|ídem|ditto|同上|〃)$/i
const LONGEST_DITTO = 8

type MomentOf = (cells: readonly string[], dayAbove: CellMoment | null) => CellMoment | 'unreadable' | null

/** Column and row form of one moment; consecutive rows of one day share the reading of its text. */
export function momentReader(slot: ValueSlot, plan: ColumnPlan): MomentOf {
  let lastText = ''
  let lastMoment: CellMoment | 'unreadable' | null = null
  const timeOf = timeReader(slot)
  return (cells, dayAbove) => {
    if (slot.date !== null) {
      const text = cells[slot.date] ?? ''
      // A ditto mark says the date of the row above.
      if (
        text !== lastText &&
        !(text.length <= LONGEST_DITTO && lastMoment !== null && DITTO.test(text.trim()))
      ) {
        lastText = text
        lastMoment = text.trim() === '' ? null : (readMoment(plainDigits(text)) ?? 'unreadable')
      }
    } else lastMoment = slot.day ?? dayAbove
    const day = lastMoment === null && plan.dayAbove ? dayAbove : lastMoment
    if (day === 'unreadable') return day
    if (slot.clock !== null) return joinMoment(day?.day ?? { kind: 'missing' }, slot.clock)
    if (slot.time === null) return day
    const time = timeOf(cells)
    if (time === null || time === 'in-words') {
      if (slot.date !== null && day?.time != null && !isMidnight(day)) return day
      return day === null ? null : { day: day.day, time: null, ...(time !== null && { inWords: true }) }
    }
    return joinMoment(day?.day ?? { kind: 'missing' }, time)
  }
}

/** Days of a database come with a midnight that is no time where times have a column of their own. */
function isMidnight({ time }: CellMoment): boolean {
  return typeof time === 'object' && time?.second === 0 && time.offsetMinutes === null && !time.utc
}

/** The day of a moment; instants keep what tells their day. */
export function withoutTime(moment: CellMoment | 'unreadable' | null): CellMoment | 'unreadable' | null {
  return moment === null || moment === 'unreadable' || moment.day.kind === 'instant'
    ? moment
    : { day: moment.day, time: null }
}

/** The moment in UTC, where its cells give no zone of their own. */
export function inUtc(moment: CellMoment | 'unreadable' | null): CellMoment | 'unreadable' | null {
  if (moment === null || moment === 'unreadable') return moment
  const { day, time } = moment
  if (typeof time !== 'object' || time === null || time.offsetMinutes !== null) return moment
  return { day, time: { ...time, utc: true } }
}

/** The moment with the weekday that another cell of the row names, where the order of its date is open. */
export function withWeekday(
  moment: CellMoment | 'unreadable' | null,
  weekdays: number,
): CellMoment | 'unreadable' | null {
  if (weekdays === 0 || moment === null || moment === 'unreadable') return moment
  const { day } = moment
  return day.kind === 'numbers' && day.weekdays === undefined
    ? { ...moment, day: { ...day, weekdays } }
    : moment
}

/** The time of a row: read, not readable, a part of the day in words, or none. */
type Time = CellTime | 'unreadable' | 'in-words' | null

function timeReader(slot: ValueSlot): (cells: readonly string[]) => Time {
  const { time, minute, halfDay } = slot
  const cell = (cells: readonly string[], index: number | null) =>
    index === null ? '' : (cells[index] ?? '')
  if (minute !== null || halfDay !== null)
    return (cells) => timeIn(cell(cells, time), cell(cells, minute), cell(cells, halfDay), slot)
  const ofOneCell = remembered((text) => timeIn(text, '', '', slot))
  return (cells) => ofOneCell(cell(cells, time))
}

function timeIn(clock: string, minute: string, halfDayCell: string, slot: ValueSlot): Time {
  let text = plainDigits(clock.trim())
  if (text === '') return null
  if (slot.minute !== null) text = `${text}:${minute.trim().padStart(2, '0')}`
  const halfDay = halfDayCell.trim()
  const half = halfOfDay(halfDay.replace(/^["'\u201c]|["'\u201d]$/g, ''))
  if (half !== null) text = `${text} ${half}`
  // Up to noon the half of the day is all that tells a morning from an evening.
  else if (slot.halfDay !== null && /^(?:0?\d|1[0-2])(?!\d)/.test(text) && !/[ap]\.?\s?m/i.test(text))
    return 'unreadable'
  if (slot.dotClock) text = text.replace(/^(\d{1,2})[.,-](\d{2})(?!\d)/, '$1:$2')
  const time = readTimeCell(text)
  // Among clock times 'noon' is one; among words for parts of the day it is another of them.
  if (slot.timeInWords ? !/\d/.test(text) : time === 'unreadable' && isTimeInWords(text)) return 'in-words'
  return time
}

/** 'morning', 'mittags': a part of the day, no time of it. */
function isTimeInWords(text: string): boolean {
  return !/\d/.test(text) && (conceptsOf(text).has('partOfDay') || mealMoment(text) !== null)
}
