import { expect, it } from 'vitest'
import { parseIsoDay } from '../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../helpers/analysisFixture'
import {
  chanceOf,
  FLAT,
  logOf,
  momentOf,
  percent,
  type Process,
  PROCESSES,
  type Slot,
  STRONG,
  TYPICAL,
} from './processes'

// How often the questions that need more than the readings (notes of activity, vials, two meters, tests at night) find what was
// planted, and how often anything false is said of logs that hold all of that and nothing of the kind.

const LOGS = 200
const FALSE_LOGS = 300
const FIRST_DAY = parseIsoDay('2026-01-05') ?? NaN
const DAYS_OF_A_VIAL = 10
/** Flat days, with a test at night now and then. */
const SLOTS: readonly Slot[] = [{ hour: 3, log: 0, meal: 'night' }, ...FLAT]
const AT_NIGHT = 0.35
/** About a fifth of days hold a low of a typical person. */
const CENTRE = 135

/** What a log holds beside its readings, and what it plants there. */
interface Planted {
  /** Log added at a slot of the day, given whether it is one of activity, of a low, and its place in its vial. */
  readonly added?: (slot: Slot, day: DayOf, dayBefore: DayOf) => number
  /** What the first test one to four hours after a low is times as high by; the morning after one at night where it says so. */
  readonly rebound?: { readonly factor: number; readonly atNight: boolean }
  /** Chance that a test is of the second meter. */
  readonly second?: (slot: Slot) => number
}

interface DayOf {
  readonly active: boolean
  readonly bad: boolean
  readonly ofVial: number
}

function codesOf(process: Process, seed: number, days: number, planted: Planted = {}, centre = CENTRE) {
  const chance = chanceOf(seed + 7_000_000)
  const plan: readonly DayOf[] = Array.from({ length: days + 1 }, (_, day) => ({
    active: chance() < 0.25,
    bad: chance() < 0.15,
    ofVial: day % DAYS_OF_A_VIAL,
  }))
  const rows = logOf(process, seed, {
    days,
    slots: SLOTS,
    made: 0.95,
    centre,
    // The day before the first is the one after the last, so that every day has one.
    added: (day, slot) => planted.added?.(slot, plan[day], plan[day === 0 ? days : day - 1]) ?? 0,
    // Who wakes of a low tests.
  }).filter((row) => row.meal !== 'night' || plan[dayOfRow(row)]?.bad === true || chance() < AT_NIGHT)
  const secondOf = planted.second ?? (() => 0.3)
  const withMore = afterLows(rows, planted).map((row) => {
    const slot = SLOTS.find(({ meal }) => meal === row.meal) ?? SLOTS[0]
    const active = plan[dayOfRow(row)]?.active === true && row.meal === 'before lunch'
    return {
      ...row,
      note: active ? 'long walk' : '',
      meter: chance() < secondOf(slot) ? 'bag meter' : 'kitchen meter',
      meal: row.meal === 'night' ? '' : slot.meal,
    }
  })
  const strips = Array.from({ length: Math.ceil(days / DAYS_OF_A_VIAL) }, (_, vial) => ({
    opened: momentOf(FIRST_DAY + vial * DAYS_OF_A_VIAL, 0).slice(0, 10),
    finished: momentOf(FIRST_DAY + (vial + 1) * DAYS_OF_A_VIAL - 1, 0).slice(0, 10),
  }))
  return analysisOf(withMore, { kit: { strips } }).periods[0].findings.map(({ code }) => code)
}

/** The rows as a person's who is high after each low. */
function afterLows(rows: readonly FixtureReading[], { rebound }: Planted): readonly FixtureReading[] {
  if (rebound === undefined) return rows
  const hourOf = ({ at }: FixtureReading) => Date.parse(`${at.replace(' ', 'T')}Z`) / 3_600_000
  const isLow = ({ value }: FixtureReading) => Number(value) < 70
  return rows.map((row, i) => {
    const before = rows[i - 1]
    if (before === undefined || isLow(row) || !isLow(before)) return row
    if (rebound.atNight && before.meal !== 'night') return row
    const hours = hourOf(row) - hourOf(before)
    const value = Math.min(590, Math.round(Number(row.value) * rebound.factor))
    return hours > 1 && hours <= (rebound.atNight ? 6 : 4) ? { ...row, value } : row
  })
}

function dayOfRow({ at }: FixtureReading): number {
  return (parseIsoDay(at.slice(0, 10)) ?? NaN) - FIRST_DAY
}

const PLANTED: readonly (readonly [string, string, Planted])[] = [
  [
    'evenings of days with activity and the mornings after 30 % lower',
    'lows-with-activity',
    {
      added: ({ hour }, { active }, { active: before }) =>
        (active && hour > 18) || (before && hour < 8) ? Math.log(0.7) : 0,
    },
  ],
  [
    'evenings of days with activity and the mornings after 40 % lower',
    'lows-with-activity',
    {
      added: ({ hour }, { active }, { active: before }) =>
        (active && hour > 18) || (before && hour < 8) ? Math.log(0.6) : 0,
    },
  ],
  [
    'a low on every seventh night, the morning after any 40 % higher',
    'high-mornings-after-low-nights',
    {
      added: ({ hour }, { bad }) => (bad && hour === 3 ? Math.log(0.35) : 0),
      rebound: { factor: 1.4, atNight: true },
    },
  ],
  [
    'a low on every seventh morning, the next test after any low 40 % higher',
    'highs-after-lows',
    {
      added: ({ hour }, { bad }) => (bad && hour === 9.5 ? Math.log(0.35) : 0),
      rebound: { factor: 1.4, atNight: false },
    },
  ],
  [
    '20 % higher in the last third of a vial',
    'highs-at-end-of-vial',
    { added: (_, { ofVial }) => (ofVial >= 7 ? Math.log(1.2) : 0) },
  ],
  [
    '20 % higher in the morning than at bedtime',
    'overnight-change',
    { added: ({ hour }) => (hour === 7 ? Math.log(1.2) : 0) },
  ],
  [
    'a second meter for 60 % of the tests at noon, 15 % of the others',
    'meters-by-hour',
    { second: ({ hour }) => (hour > 10 && hour < 16 ? 0.6 : 0.15) },
  ],
]

it.each(PLANTED)('found: %s', (name, code, planted) => {
  for (const process of [TYPICAL, STRONG]) {
    const found = [30, 60, 90].map((days) => {
      let n = 0
      for (let seed = 1; seed <= LOGS; seed++) {
        if (codesOf(process, 160_000 + seed, days, planted).some((told) => told === code)) n++
      }
      return `${days} days ${percent(n, LOGS)}`
    })
    console.log(`${name}, ${process.name}: ${found.join(', ')}`)
  }
  expect(LOGS).toBeGreaterThan(0)
})

it.each(PROCESSES)('false with activity, vials, nights and two meters: $name', (process) => {
  const said = new Map<string, number>()
  let logs = 0
  const isTrue = (code: string) => process.weekend !== undefined && code === 'weekends-differ'
  for (let seed = 1; seed <= FALSE_LOGS; seed++) {
    const codes = codesOf(process, 140_000 + seed, 60, {}, 115)
    if (codes.some((code) => !isTrue(code))) logs++
    for (const code of codes) said.set(code, (said.get(code) ?? 0) + 1)
  }
  console.log(
    `${process.name}: something false in ${percent(logs, FALSE_LOGS)}; ` +
      [...said].map(([code, n]) => `${code} ${percent(n, FALSE_LOGS)}`).join(', '),
  )
  expect(logs).toBeLessThanOrEqual(FALSE_LOGS)
})
