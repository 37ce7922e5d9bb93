import type { DaySpan } from '../../log/readings'
import type { GlucoseUnit } from '../../units/glucose'
import { gapText, spanText } from './dates'
import { count, inWords, listed } from './numbers'
import { capitalised } from '../phrases'
import { fixed } from '../../units/rounding'
import type { GapsTold } from '../../told/gaps'
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

/** '2 March to 30 May 2026 · 440 finger-sticks on 90 of 90 days, 4.9 a day · one meter · mg/dL'. */
export function extentLine(extent: Extent): string {
  return [
    spanText(extent.from, extent.to),
    `${count(extent.n, extent.kind === 'sensor' ? 'sensor reading' : 'finger-stick')} on ${extent.daysWithReadings} of ` +
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

/** Stretches without readings and an old log. */
export function gapsSentence({ ended, longest, further }: GapsTold, years: Years): string {
  const stretches = [
    ...longest.map(({ from, to }) => gapText(from, to, years)),
    ...(further > 0 ? [count(further, 'further stretch', 'further stretches')] : []),
  ]
  const none = stretches.length === 0 ? '' : `no readings ${listed(stretches)}`
  if (ended === null) return `${capitalised(none)}.`
  const ago = 'days' in ended ? count(ended.days, 'day') : `more than ${ended.moreThanYears} years`
  return `Ends ${ago} before printing${none === '' ? '' : `; ${none}`}.`
}

/** 'Home finger-stick readings, for discussion with the care team.' */
export function purposeLine(kind: 'finger-stick' | 'sensor'): string {
  return `Home ${kindText(kind)} readings, for discussion with the care team.`
}

/** 'page 1 of 5'. */
export function pageNumberText(page: number, pages: number): string {
  return `page ${page} of ${pages}`
}
