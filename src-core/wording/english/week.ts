import { type FastingSpread, MORNING_HOURS } from '../../day/fasting'
import { ENOUGH_READINGS_A_DAY, type Week } from '../../day/week'
import { changeToSee, readingsToSee } from '../../statistics/sampleSize'
import { wilsonInterval } from '../../statistics/wilson'
import { glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { hourRuns, hoursText } from './day'
import { medianKnownTo, medianText } from './figures'
import { count, differenceText, glucoseText, inWords, listed } from './numbers'
import { capitalised } from '../phrases'

/** Below this many readings of a kind of day no median is compared. */
const FEWEST_COMPARED = 10

/** Weekdays against weekends; null where either was hardly tested. */
export function weekendSentence({ weekdays, weekend }: Week, unit: GlucoseUnit): string | null {
  if (weekdays.median === null || weekend.median === null) return null
  if (Math.min(weekdays.n, weekend.n) < FEWEST_COMPARED) return null
  return (
    `Weekdays: median ${medianText(weekdays, unit)} of ${count(weekdays.n, 'reading')}${medianKnownTo(weekdays, unit)}; ` +
    `weekends: ${medianText(weekend, unit)} of ${weekend.n}${medianKnownTo(weekend, unit)}.`
  )
}

/** How the weekly median changed in all; null where there are too few weeks. */
export function trendSentence({ trend }: Week, unit: GlucoseUnit): string | null {
  if (trend === null) return null
  const signed = (mgDl: number) => differenceText(glucoseText(0, unit), glucoseText(mgDl, unit))
  const [low, high] = trend.ci95.map((perWeek) => perWeek * trend.weeks)
  const clear = low > 0 || high < 0
  const from = glucoseText(trend.fromMgDl, unit)
  const to = glucoseText(trend.toMgDl, unit)
  return (
    `${clear && from !== to ? `The weekly median went from about ${from} to about ${to}` : 'No clear change of the weekly median'} over ${count(trend.weeks, 'week')}; ` +
    `the change could be ${signed(low)} to ${signed(high)} ${unit} in all. Other hours of testing would also show as a change.`
  )
}

/** On how many days there was enough to see. */
export function enoughSentence(week: Week, days: number): string {
  return `${capitalised(inWords(ENOUGH_READINGS_A_DAY))} or more readings on ${week.daysWithEnough} of ${count(days, 'day')}.`
}

/** Hours of the clock without any test; null where there are none. */
export function neverTestedSentence({ hoursNeverTested }: Week): string | null {
  if (hoursNeverTested.length === 0) return null
  return `Never tested: ${listed(hourRuns(hoursNeverTested).map(([from, to]) => hoursText(from, to)))}.`
}

/** Changes of which next month's tests could tell, in the printed unit. */
const CHANGES: Readonly<Record<GlucoseUnit, readonly number[]>> = {
  'mg/dL': [10, 15, 20],
  'mmol/L': [0.5, 0.8, 1.1],
}
const NIGHTS = 30
/** A month has so many mornings, and so many fasting tests at most; three months three times as many. */
const MORNINGS = 30
const MONTHS_TO_SHOW = 3

/** What a month of testing could tell, from this person's own spread. */
export function nextMonthText(spread: FastingSpread | null, unit: GlucoseUnit): string {
  const zeroOfNights = wilsonInterval(0, NIGHTS)?.[1] ?? 1
  const nights =
    `${spread === null ? 'No' : 'no'} low on ${NIGHTS} tested nights still allows lows on one night in ` +
    `${inWords(Math.round(1 / zeroOfNights))}. Discuss with the team.`
  if (spread === null) return nights
  // From the printed SD, so that the sentence can be checked.
  const sd = glucoseText(spread.sd, unit)
  const needs = CHANGES[unit].map((change) => ({
    change,
    tests: Math.max(1, Math.round(readingsToSee(change, Number(sd)))),
  }))
  const possible = needs
    .filter(({ tests }) => tests <= MORNINGS)
    .map(({ change, tests }, i) =>
      i === 0
        ? `a change of ${change} needs about ${count(tests, 'fasting test')} a month`
        : `${change} about ${tests}`,
    )
  const tooMany = needs.filter(({ tests }) => tests > MORNINGS).map(({ change }) => String(change))
  // Rounded up: a smaller one would not do.
  const digits = 10 ** glucoseDecimals(unit)
  const smallest = Math.ceil(digits * changeToSee(MONTHS_TO_SHOW * MORNINGS, Number(sd))) / digits
  const shown = fixed(smallest, glucoseDecimals(unit))
  const beyond =
    `${tooMany.length === 1 ? 'a change' : 'changes'} of ${listed(tooMany)} cannot be shown in a month of ${MORNINGS} mornings; ` +
    `in ${inWords(MONTHS_TO_SHOW)} months a change of ${shown} can`
  const needed = tooMany.length === 0 ? possible : [...possible, beyond]
  const basis =
    spread.basis === 'tags'
      ? `${spread.mornings} mornings`
      : `the first tests between ${MORNING_HOURS.from} and ${MORNING_HOURS.to} o’clock of ${spread.mornings} mornings`
  return `With a fasting SD of ${sd} ${unit} (${basis}), ${needed.join(', ')}, to be seen in 4 of 5 cases; ${nights}`
}
