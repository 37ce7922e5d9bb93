import { DAY, type RowTable } from '../rowTable'

const NOON = 12 * 3600
const ONE_OCLOCK = 13 * 3600
/** Days on which the times must run on past noon for the halves of the day to be missing. A design choice. */
const FEWEST_DAYS = 2

/**
 * Whether a table's clock times leave out the half of the day: none is later than 12:59, and on several days they
 * start again from a smaller hour while the rows of the other days run on in order. Rows from `from` to before `to`.
 */
export function lacksHalfDays(rows: RowTable, from: number, to: number): boolean {
  let restarts = 0
  let days = 0
  for (const times of timesByDay(rows, from, to)) {
    if (times === null) return false
    days++
    const falls = times.filter((time, i) => i > 0 && time < times[i - 1]).length
    // One fall a day is noon passed by; more is no order at all.
    if (falls > 1) return false
    if (falls === 1 && inOrderWithHalves(times)) restarts++
    else if (falls === 1) return false
  }
  return restarts >= FEWEST_DAYS && restarts >= 0.3 * days
}

/** Puts the second half of each day, from where its times start again, behind noon. */
export function addHalfDays(rows: RowTable, from: number, to: number): void {
  let day = NaN
  let last = -1
  let isAfternoon = false
  for (let row = from; row < to; row++) {
    const second = rows.secondOf(row)
    if (typeof second !== 'number') continue
    if (rows.day[row] !== day) {
      day = rows.day[row]
      isAfternoon = false
      last = -1
    }
    if (second < last || (second >= NOON && second < ONE_OCLOCK)) isAfternoon = true
    last = second
    if (isAfternoon && second < NOON) rows.addSeconds(row, NOON)
  }
}

function inOrderWithHalves(times: readonly number[]): boolean {
  const fall = times.findIndex((time, i) => i > 0 && time < times[i - 1])
  const after = times.slice(fall)
  return after.every((time, i) => i === 0 || time >= after[i - 1])
}

/** The times of each run of rows of one day; null where one is past 12:59 or before 1:00. */
function* timesByDay(rows: RowTable, from: number, to: number): Generator<readonly number[] | null> {
  let day = NaN
  let times: number[] = []
  for (let row = from; row < to; row++) {
    const second = rows.secondOf(row)
    const hasDay = rows.dayKind[row] === DAY.known || rows.dayKind[row] === DAY.numbers
    if (!hasDay || typeof second !== 'number' || rows.fates.reasonOf(row) !== null) continue
    if (second >= ONE_OCLOCK || second < 3600 || rows.offsetOf(row) !== null) {
      yield null
      return
    }
    if (rows.day[row] !== day) {
      if (times.length > 0) yield times
      times = []
      day = rows.day[row]
    }
    times.push(second)
  }
  if (times.length > 0) yield times
}
