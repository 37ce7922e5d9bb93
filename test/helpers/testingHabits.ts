import type { Analysis } from '../../src-core/analysis/analysis'
import { parseIsoDay, SECONDS_PER_DAY } from '../../src-core/units/wallClock'
import { comparedPeriods } from '../../src-core/shown/comparedPeriods'
import { analysisOf, fixedChance, type FixtureReading } from './analysisFixture'
import { ENGLISH } from '../../src-core/wording/english'

/** One test of a day: its usual minute, and what the log says of the meal. */
export interface Habit {
  readonly minute: number
  readonly meal: string
  /** How often it is made, 0 to 1; left out, always. */
  readonly chance?: number
}

const MEALS = [
  { name: 'breakfast', minute: 7.5 * 60 },
  { name: 'lunch', minute: 12.5 * 60 },
  { name: 'dinner', minute: 18.75 * 60 },
] as const

/** Tests ten minutes before meals, or 100 minutes after them, each kind with its chance; and one at bedtime. */
export function aroundMeals(before: number, after: number, tagged = true): readonly Habit[] {
  const bedtime = { minute: 22.5 * 60, meal: tagged ? 'bedtime' : '' }
  return [
    ...MEALS.flatMap(({ name, minute }) => [
      { minute: minute - 10, meal: tagged ? `before ${name}` : '', chance: before },
      { minute: minute + 100, meal: tagged ? `after ${name}` : '', chance: after },
    ]),
    bedtime,
  ]
}

/**
 * A person whose glucose never changes its law: about 120 mg/dL, 60 more at 75 minutes after each meal, days that differ
 * by an SD of 15 and resemble the day before (0.4), readings that differ by 25 within a day. `shift` moves all of it from the
 * day `shiftFrom` on.
 */
export function fixedProcess(
  seed: number,
  habits: readonly (readonly [firstDay: string, days: number, habit: readonly Habit[], shift?: number])[],
): readonly FixtureReading[] {
  const chance = fixedChance(seed * 7919 + 1)
  const normal = () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
  for (let i = 0; i < 10; i++) chance()
  const rows: FixtureReading[] = []
  let ofDay = normal()
  for (const [firstDay, days, habit, shift = 0] of habits) {
    const first = parseIsoDay(firstDay) ?? NaN
    for (let day = first; day < first + days; day++) {
      ofDay = 0.4 * ofDay + Math.sqrt(1 - 0.4 ** 2) * normal()
      for (const { minute, meal, chance: made = 1 } of habit) {
        if (chance() >= made) continue
        const at = Math.round(minute + 15 * normal())
        const rise = MEALS.reduce((sum, { minute: eaten }) => {
          const since = (at - eaten) / 75
          return since <= 0 ? sum : sum + 60 * since * Math.exp(1 - since)
        }, 0)
        const value = Math.max(40, Math.round(120 + shift + rise + 15 * ofDay + 25 * normal()))
        const text = new Date((day * SECONDS_PER_DAY + at * 60) * 1000).toISOString()
        rows.push({ at: `${text.slice(0, 10)} ${text.slice(11, 16)}`, value, meal })
      }
    }
  }
  return rows
}

const FEBRUARY = { from: parseIsoDay('2026-02-01') ?? NaN, to: parseIsoDay('2026-02-28') ?? NaN }
const MARCH = { from: parseIsoDay('2026-03-01') ?? NaN, to: parseIsoDay('2026-03-28') ?? NaN }

/** Two periods of four weeks of such a person, each with its habit. */
export function twoHabits(
  seed: number,
  earlier: readonly Habit[],
  later: readonly Habit[],
  shift = 0,
): Analysis {
  const rows = fixedProcess(seed, [
    ['2026-02-01', 28, earlier],
    ['2026-03-01', 28, later, shift],
  ])
  return analysisOf(rows, { period: MARCH, versus: FEBRUARY })
}

/** Rows of the printed tables that call something higher or lower: 'Mean', '12–15', ... */
export function printedVerdicts(analysis: Analysis): readonly string[] {
  const compared = comparedPeriods(ENGLISH, analysis)
  if (compared === null) throw new Error('nothing was compared')
  return [...compared.measures.rows, ...(compared.blocks?.rows ?? [])]
    .filter((cells) => /^(Higher|Lower)\b/.test(cells[cells.length - 1]))
    .map(([label]) => label)
}
