import type { Settings } from '../model/settings'
import { hasClockTime, isAbove, isBelow, isLow, type Readings } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { minutesBetween } from '../technique/chronology'
import { dayOf, secondOfDay } from '../units/wallClock'
import { tellsOfSymptoms } from './symptomWords'

/** A test so soon after a low is its recheck. */
const RECHECK_MINUTES = 60
/** Tests at hours at which fewer days were tested are outside the person's usual times (design choice). */
const USUAL_SHARE_OF_DAYS = 0.1
/** Tests so many sixths of an hour apart stand at the same time of day: about an hour (design choice). */
const SAME_TIME_SIXTHS = 6
/** Without so many days nobody knows what is usual (design choice). */
const FEWEST_DAYS = 14
/** Fewer readings than these give no second figure (as for the printed SD). */
const FEWEST_LEFT = 15
const SIXTHS_OF_A_DAY = 144

/** Figures of the readings that no symptom, low or unusual hour prompted. mg/dL, percent. */
export interface Unprompted {
  /** How many tests something seems to have prompted. */
  readonly prompted: number
  readonly n: number
  readonly meanMgDl: number
  readonly percentInTarget: number
  readonly percentBelow70: number
}

/**
 * The readings without those that seem to have been taken because something was felt: whose note tells of symptoms, within an
 * hour after a low, or at a time of day at which fewer than one day in ten was tested. Lows among them too: a second look
 * beside the figures, in which every low counts. Null where nothing was prompted, or too little is left.
 */
export function unprompted(
  readings: Readings,
  indexes: readonly number[],
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
): Unprompted | null {
  const isPrompted = promptedTests(readings, indexes)
  const left = indexes.filter((index) => !isPrompted.has(index))
  if (isPrompted.size === 0 || left.length < FEWEST_LEFT) return null
  const percent = (held: (index: number) => boolean) => (100 * left.filter(held).length) / left.length
  return {
    prompted: isPrompted.size,
    n: left.length,
    percentInTarget: percent(
      (index) =>
        !isBelow(readings, index, settings.targetLow) && !isAbove(readings, index, settings.targetHigh),
    ),
    percentBelow70: percent((index) => isBelow(readings, index, LIMITS.low)),
    meanMgDl: left.reduce((sum, index) => sum + readings.mgDl[index], 0) / left.length,
  }
}

function promptedTests(readings: Readings, indexes: readonly number[]): ReadonlySet<number> {
  const prompted = new Set<number>()
  let low: number | null = null
  const isUnusual = unusualTimes(readings, indexes)
  for (const index of indexes) {
    const isTimed = hasClockTime(readings, index)
    if (tellsOfSymptoms(readings.note(index))) prompted.add(index)
    if (isTimed && isUnusual(index)) prompted.add(index)
    if (isTimed && low !== null && minutesBetween(readings, low, index) <= RECHECK_MINUTES)
      prompted.add(index)
    if (isTimed && isLow(readings, index)) low = index
  }
  return prompted
}

/** Whether a test stands at a time of day at which few days were tested. */
function unusualTimes(readings: Readings, indexes: readonly number[]): (index: number) => boolean {
  const sixthOf = (index: number) => Math.floor(secondOfDay(readings.at[index]) / 600)
  const days = new Set(indexes.map((index) => dayOf(readings.at[index])))
  if (days.size < FEWEST_DAYS) return () => false
  /** Days with a test near each sixth of an hour. */
  const tested = new Float64Array(SIXTHS_OF_A_DAY)
  let ofDay = new Set<number>()
  let day = NaN
  const close = () => {
    for (const sixth of ofDay) tested[sixth]++
  }
  for (const index of indexes) {
    if (!hasClockTime(readings, index)) continue
    if (dayOf(readings.at[index]) !== day) {
      close()
      ofDay = new Set()
      day = dayOf(readings.at[index])
    }
    for (let sixth = -SAME_TIME_SIXTHS; sixth <= SAME_TIME_SIXTHS; sixth++) {
      ofDay.add((sixthOf(index) + sixth + SIXTHS_OF_A_DAY) % SIXTHS_OF_A_DAY)
    }
  }
  close()
  return (index) => tested[sixthOf(index)] < USUAL_SHARE_OF_DAYS * days.size
}
