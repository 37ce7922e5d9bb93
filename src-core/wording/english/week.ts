import type { KindOfDay, NextMonth, WeekTold } from '../../told/week'
import { glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { hourText } from './dates'
import { hoursText } from './day'
import { limitsOfText, valueText } from './figures'
import { count, glucoseText, inWords, listed, signedGlucoseText } from './numbers'
import { capitalised } from '../phrases'

export const WEEK_TITLE = 'From day to day'
export const NEXT_MONTH_TITLE = 'What next month could answer'

/** Weekdays against weekends. */
export function weekendSentence(
  { weekdays, weekend }: NonNullable<WeekTold['weekend']>,
  unit: GlucoseUnit,
): string {
  const text = ({ median, n }: KindOfDay) =>
    `${valueText(median, unit)} (${count(n, 'reading')}${median.interval === null ? '' : `, could be ${limitsOfText(median, unit)}`})`
  return `Weekdays: median ${text(weekdays)}; weekends: ${text(weekend)}.`
}

/** How the weekly median changed in all. */
export function trendSentence(
  { change, clear, fromMgDl, toMgDl, weeks }: NonNullable<WeekTold['trend']>,
  unit: GlucoseUnit,
): string {
  const [low, high] = change.map((mgDl) => signedGlucoseText(mgDl, unit))
  const [from, to] = [glucoseText(fromMgDl, unit), glucoseText(toMgDl, unit)]
  return (
    `${clear ? `The weekly median went from about ${from} to about ${to}` : 'No clear change in the weekly median'} over ${count(weeks, 'week')}; ` +
    `the change could be ${low} to ${high} ${unit} in all. Testing at other hours would also show as a change.`
  )
}

/** On how many days there was enough to see. */
export function enoughSentence({ readingsADay, days, of }: WeekTold['enough']): string {
  return `${capitalised(inWords(readingsADay))} or more readings on ${days} of ${count(of, 'day')}.`
}

/** Hours of the clock without any test; null where there are none. */
export function neverTestedSentence(runs: WeekTold['neverTested']): string | null {
  return runs.length === 0 ? null : `Never tested: ${listed(runs.map(([from, to]) => hoursText(from, to)))}.`
}

/** What a month of testing could tell, from this person's own spread. */
export function nextMonthText({ nights, oneNightIn, fasting }: NextMonth): string {
  const ofNights = `No low on ${nights} tested nights still allows lows on one night in ${inWords(oneNightIn)}. Discuss with the team.`
  if (fasting === null) return ofNights
  const {
    unit,
    sdMgDl: sd,
    basis,
    mornings,
    hours,
    shown,
    notShown,
    morningsAMonth,
    months,
    smallest,
  } = fasting
  const inUnit = (value: number) => fixed(value, glucoseDecimals(unit))
  const possible = shown.map(({ change, tests }, i) =>
    i === 0
      ? `a change of ${change} needs about ${count(tests, 'fasting test')} a month`
      : `${change} about ${tests}`,
  )
  const from =
    basis === 'tags'
      ? `${mornings} mornings`
      : `the first tests between ${hourText(hours.from)} and ${hourText(hours.to)} on ${mornings} mornings`
  const known = `${inUnit(sd)} ${unit} (${from})`
  return [
    possible.length === 0
      ? `The fasting SD is ${known}.`
      : `With a fasting SD of ${known}, ${possible.join(', ')}, to be seen in 4 of 5 cases.`,
    ...(notShown.length === 0
      ? []
      : [
          `${notShown.length === 1 ? 'A change' : 'Changes'} of ${listed(notShown.map(String))} cannot be shown in a month of ` +
            `${morningsAMonth} mornings; in ${inWords(months)} months a change of ${inUnit(smallest)} can, in 4 of 5 cases.`,
        ]),
    ofNights,
  ].join(' ')
}
