import { dayOfDate } from '../../units/wallClock'
import type { LaboratoryBeside } from '../../kit/laboratoryA1c'
import type { DisturbedBy } from '../../kit/interferences'
import type { ControlResult } from '../../kit/kit'
import type { ClockTold, DisturbanceTold } from '../../told/kit'
import type { VialTold } from '../../told/vials'
import type { InterferenceSource, Substance } from '../../reference/interference'
import type { Settings } from '../../model/settings'
import { dayText, durationText } from './dates'
import { a1cValueText, heldBackText } from './figures'
import { capitalised } from '../phrases'
import { A1C_IN_PREGNANCY } from './targets'
import {
  a1cMmolMolText,
  a1cText,
  count,
  differenceText,
  glucoseText,
  inWords,
  listed,
  NO_NUMBER,
} from './numbers'
import type { Years } from '../../told/years'

export const FOR_THE_VISIT = 'For the visit'
export const AS_TOLD = 'As the person reported it; it is not in the logs.'

/** '7.4 % (57 mmol/mol) on 20 May'. */
export function laboratoryText({ date, percent, mmolMol }: LaboratoryBeside, years: Years): string {
  return `${a1cText(percent)} % (${a1cMmolMolText(mmolMol)} mmol/mol) on ${dayText(date, years)}`
}

/** The readings before it, and what would explain a difference; never that one of the two is wrong. */
export function besideText(beside: LaboratoryBeside, { unit }: Pick<Settings, 'unit'>): string {
  const { before, position } = beside
  const days = before.to - before.from + 1
  if (before.heldBack === 'pregnancy') return `${capitalised(A1C_IN_PREGNANCY)}.`
  if (before.heldBack === 'markers') {
    return `In the ${days} days before: ${heldBackText({ why: 'markers', of: before })}.`
  }
  if (before.estimate === null || before.meanMgDl === null) {
    return (
      `The ${days} days before it hold ${count(before.n, 'reading')} on ${count(before.daysWithReadings, 'day')}: ` +
      'too few to compare with it.'
    )
  }
  const facts =
    `In the ${days} days before: ${before.n} readings on ${count(before.daysWithReadings, 'day')}, mean ` +
    `${glucoseText(before.meanMgDl, unit)} ${unit}, estimated A1C ${a1cValueText(before)} %.`
  if (position === null) return facts
  if (position === 'within') return `${facts} The laboratory’s value is within that range.`
  return [facts, DIFFERS[position], ...coveredSentences(beside), MAY_BE[position]].join(' ')
}

const DIFFERS = {
  above: 'The laboratory’s value is higher than that.',
  below: 'The laboratory’s value is lower than that.',
} as const

const MAY_BE = {
  above: 'Highs at untested hours, a meter reading low, or a condition that raises A1C may be behind it.',
  below:
    'Tests taken mainly when high, sugar on the finger, or a condition that lowers A1C may be behind it.',
} as const

/** The first reason why they may differ: days that nobody tested. Nothing where nearly all were. */
function coveredSentences({ wellCovered, daysByMonth }: LaboratoryBeside): readonly string[] {
  if (wellCovered) return []
  return [
    `Days without readings may explain it: in the three stretches of 30 days before the sample, ${listed(daysByMonth.map(String))} days ` +
      'have readings, and the last stretch weighs most.',
  ]
}

/** '+0.4': laboratory minus centre of the estimate. */
export function a1cDifferenceText(difference: number | null): string {
  return difference === null ? NO_NUMBER : differenceText(a1cText(0), a1cText(difference))
}

const SUBSTANCES: Readonly<Record<Substance, string>> = {
  icodextrin: 'icodextrin',
  'other-sugars': 'maltose, galactose or xylose',
  'vitamin-c': 'vitamin C',
  paracetamol: 'paracetamol (acetaminophen)',
  dopamine: 'dopamine',
  mannitol: 'mannitol',
}

const SOURCES: Readonly<Record<InterferenceSource, string>> = {
  'fda-2009': 'FDA public health notification, 13 August 2009',
  'tang-2000': 'Tang et al., Am J Clin Pathol 2000;113:75',
}

/** What a substance of the list does to some meters; never to stop it. */
export function interferenceSentence({ medicine, interference, hidLowsUntil }: DisturbanceTold): string {
  const substance = SUBSTANCES[interference.substance]
  if (hidLowsUntil !== null) {
    return (
      `${medicine.name}: with ${substance} some strips read dangerously high and can hide a low. This may be so of the readings up to ` +
      `${dayText(hidLowsUntil, 'with-year')} and for some time after.`
    )
  }
  switch (interference.kind) {
    case 'reads-dangerously-high':
      return (
        `${medicine.name}: some strips read dangerously high with ${substance} and can hide a low. ` +
        `Confirm today that this strip is safe.`
      )
    case 'reads-high':
      return `${medicine.name}: many strips read too high with a lot of ${substance}. Do not stop it without asking.`
    case 'reads-off':
      return `${medicine.name}: some meters read wrong with ${substance}. Do not stop it without asking.`
  }
}

/** 'Source: FDA public health notification, 13 August 2009.' */
export function interferenceSource({ source }: DisturbedBy['interference']): string {
  return `Source: ${SOURCES[source]}.`
}

/** '1000 mg a day, since 3 March'; '' where nothing more is known. */
export function medicineDetail({ milligramsADay, from, to }: DisturbedBy['medicine'], years: Years): string {
  const day = (date: string) => dayText(dayOfDate(date), years)
  const when =
    from && to ? `${day(from)} to ${day(to)}` : from ? `since ${day(from)}` : to ? `until ${day(to)}` : ''
  return [milligramsADay === undefined ? '' : `${milligramsADay} mg a day`, when]
    .filter((part) => part !== '')
    .join(', ')
}

export function canCauseLowsText(canCauseLows: boolean): string {
  return `Insulin or tablets that can cause lows: ${canCauseLows ? 'yes' : 'no'}.`
}

/** 'inside its range (96 to 144)', in the unit in which it was told. */
export function controlOutcome({ range: [low, high] }: ControlResult, inside: boolean): string {
  return `${inside ? 'inside' : 'outside'} its range (${low} to ${high})`
}

/** What the dates of a vial mean; '' where nothing is wrong or known. */
export function stripsRemark({ usedAfter, openTooLong }: VialTold, years: Years): string {
  return listed([
    ...(usedAfter === null ? [] : [`used after it expired on ${dayText(usedAfter, years)}`]),
    ...(openTooLong === null
      ? []
      : [`open for ${openTooLong.days} days (the leaflet allows ${openTooLong.allowed})`]),
  ])
}

/** 'Meter A showed the true time on 30 May'. */
export function clockText(
  meter: string,
  { shown, true: trueTime, is, minutes }: ClockTold,
  years: Years,
): string {
  const day = dayText(dayOfDate(trueTime.slice(0, 10)), years)
  if (is === 'right') return `${capitalised(meter)} showed the true time on ${day}`
  return `${capitalised(meter)} showed ${shown.slice(11)} at ${trueTime.slice(11)} on ${day}: ${durationText(minutes)} ${is}. Times here are the meter’s own.`
}

export function unknownMeterText(names: readonly string[]): string {
  return `No log has ${listed(names.map((name) => `‘${name}’`))}: so what was entered about it affects no reading here.`
}

/** 'one more under ‘For the visit’'. */
export function furtherQuestionsText(more: number): string {
  return `${inWords(more)} more under ‘For the visit’`
}

/** For the pen; null where one line asks for the meter, or for all. */
export const clockQuestion = (meter: string | null) =>
  `${meter === null ? 'Meter clock now' : `Clock of ${meter} now`}: ________   True time: ________`
