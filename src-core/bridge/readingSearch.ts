import type { Analysis } from '../analysis/analysis'
import { hasClockTime, isLow } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import { calendarDate, clock, dayOf, isoDay } from '../units/wallClock'
import { metersOnPaper } from '../kit/metersOnPaper'
import type { Words } from '../wording/words'

/** Largest number that may be a value; above it a number is a year or stands in a note. */
const LARGEST_VALUE = 1_000
const MONTHS = 'jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec'
/** '9 March', '9 mar 2026', 'March 9'. */
const DATE = new RegExp(
  `(?<![\\d.,:-])(?:(\\d{1,2})\\.?\\s+(${MONTHS})[a-z]*|(${MONTHS})[a-z]*\\s+(\\d{1,2})(?![\\d.,:-]))`,
  'g',
)
const NUMBER = /^\d+(?:[.,]\d+)?$/

type Fits = (index: number) => boolean

/**
 * Which readings a search finds: those that fit every word of it. A day with its month is that day; a number is a value
 * or a whole word, never a piece of one; 'low' and 'doubtful' find such readings too; all else may be a piece of
 * date, time, meal, note or the meter's name, as on paper or as the log has it.
 */
export function searchedFor(words: Words, analysis: Analysis, text: string): Fits {
  const { readings } = analysis
  const lowerCase = text.toLowerCase()
  const dates = [...lowerCase.matchAll(DATE)].map(([, day, month, monthFirst, dayLast]): Fits => {
    const wanted = `${Number(day ?? dayLast)} ${month ?? monthFirst}`
    return (i) => dayAndMonth(dayOf(readings.at[i])) === wanted
  })
  const sought = lowerCase
    .replace(DATE, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
  const fits = [...dates, ...sought.map((word) => ofWord(words, analysis, word))]
  return (i) => fits.every((one) => one(i))
}

/** '9 mar'. */
function dayAndMonth(day: number): string {
  const date = calendarDate(day)
  return `${date.day} ${MONTHS.split('|')[date.month - 1]}`
}

function ofWord(words: Words, analysis: Analysis, word: string): Fits {
  const { readings, technique, settings } = analysis
  const onPaper = metersOnPaper(readings.meters)
  const value = (i: number) => words.numbers.readingText(readings, i, settings.unit).toLowerCase()
  const written = (i: number) =>
    [readings.meal(i), readings.note(i), readings.meters[readings.meter[i]], onPaper[readings.meter[i]]]
      .join(' ')
      .toLowerCase()
  const isWhole = (i: number) =>
    written(i)
      .split(/[^\p{L}\d.,]+/u)
      .includes(word)
  const number = NUMBER.test(word) ? Number(word.replace(',', '.')) : NaN
  if (number < LARGEST_VALUE) return (i) => Number(value(i)) === number || isWhole(i)
  if (word === 'low' || word === 'lows') return (i) => isLow(readings, i) || isWhole(i)
  if (word === 'doubtful') {
    const doubtful = new Set(technique.doubtful.map(({ index }) => index))
    return (i) => doubtful.has(i) || isWhole(i)
  }
  return (i) => {
    const day = dayOf(readings.at[i])
    const time = hasClockTime(readings, i) ? clock(readings.at[i]) : ''
    const typed = isTyped(readings, i) ? words.typed.TYPED_NAME : ''
    const said = [value(i), isoDay(day), words.dates.dayText(day, 'with-year').toLowerCase(), time, typed]
    return said.join(' ').includes(word) || written(i).includes(word)
  }
}
