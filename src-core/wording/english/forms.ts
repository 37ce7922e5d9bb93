import type { ControlResult, Medicine, Strips } from '../../kit/kit'
import type { WrongValue } from '../../kit/kitFault'
import type { GlucoseUnit } from '../../units/glucose'
import { controlOutcome } from './kit'
import { count } from './numbers'

/** What a form of the window says at a field: what is wrong, and what to write. */
export const FORM_WORDS = {
  needed: 'This is needed.',
  number: 'Write a number, such as 120 or 6.7.',
  thousands: 'Write it without a thousands mark (1000, not 1,000), or with fewer decimals.',
  reading: 'Write a number, such as 120 or 6.7, or LO or HI as the meter showed it.',
  beyondMeters:
    'Meters show 20 to 600 mg/dL, which is 1.1 to 33.3 mmol/L; beyond that they show LO or HI. Check the unit.',
  year: 'Check the year.',
  day: 'Write a date that exists, such as 2026-03-02.',
  time: 'Write a time of day, such as 07:30.',
  toCome: 'This is in the future. Check the day and the time.',
  upsideDown: 'This has to be later, or higher, than the field before it.',
  empty: 'Fill in at least one of the fields.',
  bothTemperatures: 'Write both temperatures, or neither.',
} as const

export function notOfUnit(unit: GlucoseUnit): string {
  return unit === 'mg/dL'
    ? 'This cannot be in mg/dL, which has whole numbers such as 120. Check the unit and the number.'
    : 'This cannot be in mmol/L, which has numbers such as 6.7. Check the unit and the number.'
}

const DOES_NOT_FIT = 'This does not fit here. Check it.'

const OF_KIT: Readonly<Record<Exclude<WrongValue['key'], 'one-of' | 'kind' | 'outside'>, string>> = {
  date: FORM_WORDS.day,
  noSuchDay: FORM_WORDS.day,
  year: FORM_WORDS.year,
  moment: 'Write a day and a time, such as 2026-03-02 07:30.',
  upsideDown: FORM_WORDS.upsideDown,
  notOfUnit: 'Result and range look like the other unit. Choose that unit, or write them again.',
  oneA1c: DOES_NOT_FIT,
  missing: FORM_WORDS.needed,
}

/** What is wrong with a field of the kit. */
export function formFault(wrong: WrongValue): string {
  if (wrong.key === 'one-of') return DOES_NOT_FIT
  if (wrong.key === 'kind') return wrong.expected === 'int' ? 'Write a whole number.' : DOES_NOT_FIT
  if (wrong.key !== 'outside') return OF_KIT[wrong.key]
  const { what, bound, limit, included } = wrong
  if (bound === 'least') return `Write a number ${included ? 'of at least' : 'above'} ${limit}.`
  switch (what) {
    case 'list':
      return `There are ${limit} already. Remove one first.`
    case 'text':
      return `Write at most ${limit} characters.`
    case 'number':
      return `Write a number ${included ? 'of at most' : 'below'} ${limit}.`
  }
}

/** 'Vial 2 · lot 7741 · meter A · opened 2026-03-02 · expires 2026-12-31'. */
export function stripsText({ vial, lot, meter, expires, opened, finished, daysOnceOpen }: Strips): string {
  return [
    vial,
    lot && `lot ${lot}`,
    meter,
    opened && `opened ${opened}`,
    finished && `finished ${finished}`,
    expires && `expires ${expires}`,
    daysOnceOpen && `good for ${count(daysOnceOpen, 'day')} once open`,
  ]
    .filter((part) => part)
    .join(' · ')
}

/** 'Vitamin C · 1000 mg a day · from 2026-03-02'. */
export function medicineText({ name, milligramsADay, from, to }: Medicine): string {
  return [
    name,
    milligramsADay !== undefined && `${milligramsADay} mg a day`,
    from && `from ${from}`,
    to && `to ${to}`,
  ]
    .filter((part) => part)
    .join(' · ')
}

/** '2026-03-02 · 118 mg/dL, inside its range (96 to 144)'. */
export function controlText(control: ControlResult, inside: boolean): string {
  return `${control.date} · ${control.result} ${control.unit}, ${controlOutcome(control, inside)}`
}

/** '2026-03-02 08:15: 12 minutes ahead'. */
export function clockText(moment: string, minutesFast: number): string {
  const when = moment.replace('T', ' ')
  if (minutesFast === 0) return `${when}: right`
  return `${when}: ${count(Math.abs(minutesFast), 'minute')} ${minutesFast > 0 ? 'ahead' : 'behind'}`
}
