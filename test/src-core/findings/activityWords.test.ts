import { expect, it } from 'vitest'
import { tellsOfActivity } from '../../../src-core/findings/activityWords'

it.each([
  'long walk along the breakwater',
  'Gym, 40 min',
  'went jogging',
  'Spaziergang',
  'Fahrradtour',
  'après la marche',
  'vélo',
  'paseo largo',
  'caminhada',
  'palestra',
  'gefietst',
  'Exercise 30 min',
])('‘%s’ tells of activity', (note) => {
  expect(tellsOfActivity(note)).toBe(true)
})

it.each([
  '',
  'no walk today',
  'ran out of strips',
  'kein Sport',
  'sans marche',
  'sports drink',
  'walking aid lost, not used',
  'cake',
])('‘%s’ does not', (note) => {
  expect(tellsOfActivity(note)).toBe(false)
})
