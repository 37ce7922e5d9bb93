import { expect, it } from 'vitest'
import { analysisOf, type FixtureReading } from '../helpers/analysisFixture'
import { chanceOf, percent } from './processes'

// How often a technique trial without any effect is said to show one, and one with an effect shows it: the meter scatters by its
// own CV, sets of repeats outside the trial are few or many, glucose drifts while the trial lasts.

const TRIALS = 400

interface Person {
  readonly name: string
  /** CV of the meter as a part, and sets of two repeats outside the trial. */
  readonly cv: number
  readonly sets: number
  /** Log of what glucose changes by in the half hour of the trial. */
  readonly drift: number
}

const PEOPLE: readonly Person[] = [
  { name: 'CV 5 %, 12 sets', cv: 0.05, sets: 12, drift: 0 },
  { name: 'CV 5 %, 5 sets', cv: 0.05, sets: 5, drift: 0 },
  { name: 'CV 8 %, 12 sets', cv: 0.08, sets: 12, drift: 0 },
  { name: 'CV 5 %, 12 sets, drift of 10 %', cv: 0.05, sets: 12, drift: 0.1 },
]

const STEPS = [
  'washed hands',
  'washed hands',
  'washed hands',
  'wet finger',
  'squeezed',
  'juice on finger',
  'washed hands',
  'washed hands',
]

/** `effect`: log by which juice on the finger raises its test. */
function trialOf({ cv, sets, drift }: Person, seed: number, effect: number) {
  const chance = chanceOf(seed)
  const rows: FixtureReading[] = []
  const push = (day: number, minute: number, log: number, note = '') => {
    const date = new Date(Date.UTC(2026, 2, day)).toISOString().slice(0, 10)
    const time = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`
    rows.push({ at: `${date} ${time}`, value: Math.round(Math.exp(log + cv * chance.normal())), note })
  }
  for (let day = 1; day <= sets; day++) {
    const log = Math.log(130) + 0.2 * chance.normal()
    push(day, 720, log)
    push(day, 722, log)
  }
  const log = Math.log(130)
  STEPS.forEach((note, i) =>
    push(
      sets + 1,
      600 + 3 * i,
      log + (drift * i) / STEPS.length + (note === 'juice on finger' ? effect : 0),
      note,
    ),
  )
  return analysisOf(rows).technique.trials[0]
}

it.each(PEOPLE)('trials: $name', (person) => {
  const shown = (effect: number) => {
    let any = 0
    let juice = 0
    let trials = 0
    for (let seed = 1; seed <= TRIALS; seed++) {
      const trial = trialOf(person, 30_000 + seed, effect)
      if (trial === undefined) continue
      trials++
      if (trial.steps.some((step) => step.effect)) any++
      if (trial.steps.some((step) => step.effect && step.faults.includes('sugar-on-finger'))) juice++
    }
    return { any, juice, trials }
  }
  const none = shown(0)
  const some = shown(Math.log(1.3))
  console.log(
    `${person.name}: an effect where there is none in ${percent(none.any, none.trials)} of ${none.trials} trials; ` +
      `juice of 30 % shown in ${percent(some.juice, some.trials)}`,
  )
  expect(none.trials).toBeGreaterThan(0)
})
