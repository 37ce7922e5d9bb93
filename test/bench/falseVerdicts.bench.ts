import { expect, it } from 'vitest'
import { aroundMeals, type Habit, printedVerdicts, twoHabits } from '../helpers/testingHabits'

// How often two months of one unchanged person are called different, by habit of testing; and a person who changed.

const SEEDS = 200

const later = (habit: readonly Habit[], minutes: number) =>
  habit.map((test) => ({ ...test, minute: test.minute + minutes }))

const CASES: readonly (readonly [string, readonly Habit[], readonly Habit[], number])[] = [
  ['the same habit', aroundMeals(0.9, 0.5), aroundMeals(0.9, 0.5), 0],
  ['before meals, then after', aroundMeals(1, 0), aroundMeals(0, 1), 0],
  ['before meals, then after, no tags', aroundMeals(1, 0, false), aroundMeals(0, 1, false), 0],
  ['mostly before, then mostly after', aroundMeals(0.8, 0.2), aroundMeals(0.2, 0.8), 0],
  ['the same without tags', aroundMeals(0.8, 0.2, false), aroundMeals(0.2, 0.8, false), 0],
  ['some more after', aroundMeals(0.7, 0.3), aroundMeals(0.5, 0.5), 0],
  ['some more after, no tags', aroundMeals(0.7, 0.3, false), aroundMeals(0.5, 0.5, false), 0],
  ['a few more after', aroundMeals(0.7, 0.35), aroundMeals(0.7, 0.55), 0],
  ['everything an hour later', aroundMeals(0.8, 0.4), later(aroundMeals(0.8, 0.4), 60), 0],
  ['25 lower, the same habit', aroundMeals(0.9, 0.5), aroundMeals(0.9, 0.5), -25],
  ['25 lower, after instead of before', aroundMeals(0.8, 0.2), aroundMeals(0.2, 0.8), -25],
]

it.each(CASES)('%s', (name, first, second, shift) => {
  const rows = new Map<string, number>()
  let logs = 0
  for (let seed = 1; seed <= SEEDS; seed++) {
    const said = printedVerdicts(twoHabits(seed, first, second, shift))
    if (said.length > 0) logs++
    for (const row of said) rows.set(row, (rows.get(row) ?? 0) + 1)
  }
  console.log(
    `${name}: a verdict in ${logs} of ${SEEDS}; ${[...rows].map(([row, n]) => `${row} ${n}`).join(', ')}`,
  )
  expect(logs).toBeLessThanOrEqual(SEEDS)
})
