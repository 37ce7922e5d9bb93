import { medianOf } from '../day/week'
import { mealMoments } from '../log/mealWords'
import { countMarkers, hasClockTime } from '../log/readings'
import { meanDifference } from '../statistics/dailyDifferences'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { hasManyMarkers } from '../statistics/heldBack'
import { medianInterval } from '../statistics/intervals'
import { dayOf, secondOfDay } from '../units/wallClock'
import { WORTH_SAYING_MG_DL } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'
import { morningsOf } from './mornings'

/** Where no tag tells it, the last test from this hour on stands for bedtime (design choice). */
const BEDTIME_FROM_HOUR = 21

/** Whether mornings differ from the bedtime before: mean nightly difference of log glucose, each night weighing the same. */
export function overnight(look: Look): Question | null {
  const { readings } = look
  const bedtimes = bedtimesOf(look)
  const nights = [...morningsOf(look)].flatMap(([day, morning]) => {
    const bedtime = bedtimes.get(day - 1)
    return bedtime === undefined ? [] : [{ day, bedtime, morning }]
  })
  if (
    hasManyMarkers(
      countMarkers(
        readings,
        nights.flatMap(({ bedtime, morning }) => [bedtime, morning]),
      ),
    )
  )
    return null
  const days = nights.map(({ day }) => day)
  const found = meanDifference(
    nights.map(({ bedtime, morning }) => Math.log(readings.mgDl[morning] / readings.mgDl[bedtime])),
    days,
    FEWEST_DAYS,
  )
  if (found === null) return null
  const changes = nights.map(({ bedtime, morning }) => readings.mgDl[morning] - readings.mgDl[bedtime])
  return {
    ps: [found.p],
    answer([clear]) {
      const median = medianOf(changes)
      const ci95MgDl = medianInterval(changes, days)
      if (!clear || median === null || ci95MgDl === null) return null
      if (Math.abs(median) < WORTH_SAYING_MG_DL || Math.sign(median) !== Math.sign(found.mean)) return null
      const inDirection = changes.filter((change) => Math.sign(change) === Math.sign(median)).length
      return {
        code: 'overnight-change',
        evidence: {
          medianMgDl: median,
          ci95MgDl,
          nights: nights.length,
          inDirection,
          ...lowsBeside(readings, look.indexes),
        },
      }
    },
  }
}

/** The last bedtime reading of each day: by its tag where the log tells meals, else by the clock from 21 on. */
function bedtimesOf({ readings, indexes, tellsMeals }: Look): ReadonlyMap<number, number> {
  const momentOf = mealMoments()
  const bedtimes = new Map<number, number>()
  for (const index of indexes) {
    if (!hasClockTime(readings, index)) continue
    const isLate = secondOfDay(readings.at[index]) >= BEDTIME_FROM_HOUR * 3600
    const isBedtime = tellsMeals ? momentOf(readings.meal(index)) === 'bedtime' : isLate
    // A test after midnight belongs to the evening before.
    const isNight = secondOfDay(readings.at[index]) < 12 * 3600
    if (isBedtime) bedtimes.set(dayOf(readings.at[index]) - (isNight ? 1 : 0), index)
  }
  return bedtimes
}
