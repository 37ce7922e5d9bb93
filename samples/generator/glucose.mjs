// The invented person's true glucose, minute by minute, as the natural logarithm of mg/dL: a level, a rise
// towards dawn, better and worse days, a smooth random swing that forgets itself in about an hour, meals.

import { MINUTES_PER_DAY } from './calendar.mjs'

/** Time constant of each of the two filters that make the swing, minutes; together they forget in an hour. */
const SWING_MINUTES = 30
/** How much of one day's shift is left on the next. */
const DAY_TO_DAY_MEMORY = 0.6

/**
 * True glucose over whole days from minute `start`. `personOn(day)` tells who the person is on that day
 * (0-based): `level` mg/dL; `dawnRise`, `daySd`, `swingSd` on the log scale; `meals`, each with its name, the
 * minute of the day `at`, the log `rise` with its `riseSd`, and `carrySd`, the mismatch of meal and insulin
 * three hours later. Returns the curve and when each meal began: `mealAt[day][name]`.
 */
export function glucoseCurve(random, start, days, personOn) {
  const ln = new Float64Array((days + 1) * MINUTES_PER_DAY)
  const curve = { start, ln, mealAt: [] }
  addSwing(random, ln, personOn(0).swingSd)
  let before = 0
  for (let day = 0; day <= days; day++) {
    const person = personOn(Math.min(day, days - 1))
    const innovation = person.daySd * Math.sqrt(1 - DAY_TO_DAY_MEMORY ** 2)
    const after = DAY_TO_DAY_MEMORY * before + random.normal(0, innovation)
    addDay(ln, day, person, before, after)
    before = after
    if (day < days) curve.mealAt.push(addMeals(random, ln, day, start, person.meals))
  }
  return curve
}

/** True glucose at a minute, mg/dL. */
export function glucoseAt(curve, minute) {
  return Math.exp(curve.ln[minute - curve.start])
}

/**
 * Bends the curve so that it passes through `mgDl` at that minute: down after work or too much insulin for the
 * meal, up after a bite between meals.
 */
export function bendTo(curve, minute, mgDl) {
  const height = Math.log(mgDl / glucoseAt(curve, minute))
  addBump(curve, minute - 80, { rise: 80, hold: 25, fall: 120, height })
}

/** Sugar eaten at that minute: up to about 125 mg/dL within half an hour. */
export function treatLow(curve, minute) {
  const height = Math.log(125 / glucoseAt(curve, minute))
  addBump(curve, minute + 3, { rise: 26, hold: 30, fall: 90, height })
}

function addSwing(random, ln, sd) {
  const keep = Math.exp(-1 / SWING_MINUTES)
  const stationarySd = Math.sqrt((1 + keep ** 2) / (1 - keep ** 2) ** 3)
  let first = 0
  let second = 0
  const settle = 20 * SWING_MINUTES
  for (let k = -settle; k < ln.length; k++) {
    first = keep * first + random.normal(0, 1)
    second = keep * second + first
    if (k >= 0) ln[k] += (sd * second) / stationarySd
  }
}

function addDay(ln, day, person, shiftBefore, shiftAfter) {
  for (let k = 0; k < MINUTES_PER_DAY; k++) {
    const dawn = smoothStep((k - 210) / 210) - smoothStep((k - 480) / 210)
    const shift = shiftBefore + (shiftAfter - shiftBefore) * smoothStep(k / MINUTES_PER_DAY)
    ln[day * MINUTES_PER_DAY + k] += Math.log(person.level) + person.dawnRise * dawn + shift
  }
}

function addMeals(random, ln, day, start, meals) {
  const mealAt = {}
  for (const meal of meals) {
    const begin = day * MINUTES_PER_DAY + Math.round(meal.at + random.normal(0, 17))
    const rise = Math.max(0.03, random.normal(meal.rise, meal.riseSd))
    const peak = random.between(60, 90)
    const carry = random.normal(0, meal.carrySd)
    const carryPeak = random.between(170, 210)
    for (let k = 1; k < 540 && begin + k < ln.length; k++) {
      ln[begin + k] += rise * hump(k / peak, 2) + carry * hump(k / carryPeak, 4)
    }
    mealAt[meal.name] = start + begin
  }
  return mealAt
}

/** 0 at 0, 1 at 1, then back to 0; the sharper, the narrower. */
function hump(x, sharpness) {
  return (x * Math.exp(1 - x)) ** sharpness
}

function addBump({ ln, start }, from, { rise, hold, fall, height }) {
  for (let k = 0; k < rise + hold + fall; k++) {
    const at = from - start + k
    if (at < 0 || at >= ln.length) continue
    ln[at] += height * (smoothStep(k / rise) - smoothStep((k - rise - hold) / fall))
  }
}

/** 0 below 0, 1 above 1, smooth between. */
function smoothStep(x) {
  const y = Math.min(1, Math.max(0, x))
  return y * y * (3 - 2 * y)
}
