import type { DaySpan } from '../../log/readings'
import type { GlucoseUnit } from '../../units/glucose'
import type { DayNumber } from '../../units/wallClock'
import { gapText, spanText } from './dates'
import { count, inWords, listed } from './numbers'
import { capitalised } from '../phrases'
import { fixed } from '../../units/rounding'
import type { Years } from '../../told/years'

export const TITLE = 'Visit report'
export const NAME_LINE = 'Name / date of birth'
export const SAFETY_LINE =
  'Do not change doses from these pages. Feeling or reading low: treat first, test afterwards.'

/** What the readings are called. */
export function kindText(kind: 'finger-stick' | 'sensor'): string {
  return kind === 'sensor' ? 'sensor' : 'finger-stick'
}

export interface Extent extends DaySpan {
  readonly n: number
  readonly days: number
  readonly daysWithReadings: number
  readonly readingsPerDay: number
  readonly kind: 'finger-stick' | 'sensor'
  readonly meters: number
  readonly unit: GlucoseUnit
}

/** '2 March to 30 May 2026 · 440 finger-stick readings on 90 of 90 days, 4.9 a day · one meter · mg/dL'. */
export function extentLine(extent: Extent): string {
  return [
    spanText(extent.from, extent.to),
    `${count(extent.n, `${kindText(extent.kind)} reading`)} on ${extent.daysWithReadings} of ` +
      `${count(extent.days, 'day')}, ${fixed(extent.readingsPerDay, 1)} a day`,
    metersText(extent.meters),
    extent.unit,
  ].join(' · ')
}

/** Of readings typed by hand no meter is known. */
function metersText(meters: number): string {
  if (meters === 0) return 'typed by hand'
  return meters === 1 ? 'one meter' : `${inWords(meters)} meters`
}

/** '14 days'; 'more than 3 years', where days say nothing. */
function agoText(days: number): string {
  const years = Math.floor(days / DAYS_IN_A_YEAR)
  return years < 2 ? count(days, 'day') : `more than ${years} years`
}

const DAYS_IN_A_YEAR = 365.25

/** Stretches without readings and an old log, or null where there is nothing to say. */
export function gapsSentence(
  gaps: readonly DaySpan[],
  moreGaps: number,
  daysSinceLast: number,
  years: Years,
): string | null {
  const parts: string[] = []
  if (daysSinceLast > 0) parts.push(`log ends ${agoText(daysSinceLast)} before printing`)
  if (gaps.length > 0) {
    const spans = gaps.map((gap) => gapText(gap.from, gap.to, years))
    const more = moreGaps > 0 ? [count(moreGaps, 'further stretch', 'further stretches')] : []
    parts.push(`no readings ${listed([...spans, ...more])}`)
  }
  return parts.length > 0 ? `${capitalised(parts.join('; '))}.` : null
}

export interface Origin {
  readonly period: DaySpan
  readonly label: string | null
  readonly madeAt: DayNumber
  readonly programVersion: string
  readonly fingerprints: string
}

/** 'Home finger-stick readings, for discussion with the care team.' */
export function purposeLine(kind: 'finger-stick' | 'sensor'): string {
  return `Home ${kindText(kind)} readings, for discussion with the care team.`
}

/** 'page 1 of 5'. */
export function pageNumberText(page: number, pages: number): string {
  return `page ${page} of ${pages}`
}
