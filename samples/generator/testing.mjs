// When the invented person tests, and what the meter then shows.

import { isoDay, MINUTES_PER_DAY, minuteOf } from './calendar.mjs'
import { bendTo, glucoseAt, treatLow } from './glucose.mjs'

/** SD of a meter's error as a share of the value, and below 100 mg/dL of 100 mg/dL. */
const METER_CV = 0.05
const LOW_MG_DL = 70

/** The usual tests of a day, in minutes from the start of a meal, or of the day. */
const USUAL_TESTS = [
  { tag: 'night', least: 120, most: 270 },
  { tag: 'before breakfast', meal: 'breakfast', least: -18, most: -4 },
  { tag: 'after breakfast', meal: 'breakfast', least: 75, most: 120 },
  { tag: 'before lunch', meal: 'lunch', least: -15, most: -3 },
  { tag: 'after lunch', meal: 'lunch', least: 80, most: 125 },
  { tag: 'before dinner', meal: 'dinner', least: -18, most: -4 },
  { tag: 'after dinner', meal: 'dinner', least: 80, most: 120 },
  { tag: 'bedtime', least: 1335, most: 1405 },
]

/** On what share of days each usual test takes place: about five a day. */
export const USUAL_SHARES = {
  night: 0.08,
  'before breakfast': 1,
  'after breakfast': 0.4,
  'before lunch': 0.7,
  'after lunch': 0.27,
  'before dinner': 0.9,
  'after dinner': 0.45,
  bedtime: 0.7,
}

/**
 * The tests of all days in order of time, each with `mgDl`, what the meter made of it (not yet rounded).
 *
 * `stories` take place for certain. With `time`, a story is a test of its own, at which true glucose has come
 * to `reach` mg/dL, in place of the usual one of its `tag` if it has one; without, it is that usual test. Each may tell `off`, the factor by which the
 * reading is wrong; `show`, a marker instead of a number; `meter`; `note`; `treat`, sugar was taken; and `then`,
 * further tests, each `after` so many minutes.
 *
 * `habits` are `shares` as above; `meters`, the factor of each; `meterFor(tag)`; `noteFor(tag, day)`, an
 * everyday note or ''; and
 * `repeatChance(mgDl)`, how likely a value is to be tested again at once. A low of no story is treated.
 */
export function testedReadings(random, curve, stories, habits) {
  const told = stories.filter((story) => story.time).flatMap((story) => toldTests(curve, story, habits))
  const usual = usualTests(random, curve, stories, habits)
  const free = usual.filter(
    (test) => test.certain || told.every((other) => Math.abs(other.at - test.at) > 25),
  )
  const waiting = [...told, ...free]
  const readings = []
  let busyUntil = 0
  while (waiting.length > 0) {
    waiting.sort((a, b) => a.at - b.at)
    const test = waiting.shift()
    if (!test.certain && test.at <= busyUntil) continue
    const mgDl = meterShows(random, curve, test, habits.meters)
    readings.push({ ...test, mgDl })
    if (test.treat) treatLow(curve, test.at)
    if (test.told || test.at <= busyUntil) continue
    if (mgDl < LOW_MG_DL) {
      treatLow(curve, test.at + 1)
      busyUntil = test.at + 30
      if (random.chance(0.8)) waiting.push(testAgain(test, random.whole(14, 18), ''))
    } else if (!test.certain && random.chance(habits.repeatChance(mgDl))) {
      waiting.push(testAgain(test, random.whole(2, 5), test.tag))
    }
  }
  return readings
}

function usualTests(random, curve, stories, habits) {
  const storyOf = new Map(stories.map((story) => [`${story.day} ${story.tag}`, story]))
  return curve.mealAt.flatMap((mealAt, day) => {
    const midnight = curve.start + day * MINUTES_PER_DAY
    return USUAL_TESTS.flatMap(({ tag, meal, least, most }) => {
      const at = (meal ? mealAt[meal] : midnight) + random.whole(least, most)
      const test = { at, tag, meter: habits.meterFor(tag), note: habits.noteFor(tag, day) }
      const takesPlace = random.chance(habits.shares[tag])
      const story = storyOf.get(`${isoDay(midnight)} ${tag}`)
      if (story?.time) return []
      if (story) return testsOf({ ...test, note: '', certain: true }, story)
      return takesPlace ? [test] : []
    })
  })
}

function toldTests(curve, story, habits) {
  const at = minuteOf(story.day, story.time)
  bendTo(curve, at, story.reach)
  return testsOf({ at, tag: '', meter: habits.meterFor(''), note: '', certain: true, told: true }, story)
}

/** A story's first test and the ones after it. */
function testsOf(start, { then = [], ...story }) {
  const first = { ...start, ...story }
  const { at, tag, meter, certain, told } = first
  return [
    first,
    ...then.map((later) => ({ tag, meter, note: '', certain, told, ...later, at: at + later.after })),
  ]
}

function testAgain({ at, meter }, after, tag) {
  return { at: at + after, tag, meter, note: '', certain: true }
}

function meterShows(random, curve, { at, meter, off = 1 }, meters) {
  const seen = glucoseAt(curve, at) * meters[meter] * off
  return seen + random.normal(0, METER_CV * Math.max(seen, 100))
}
