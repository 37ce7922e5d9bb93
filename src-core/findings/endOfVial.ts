import { isOfMeter } from '../kit/meters'
import { isAbove } from '../log/readings'
import { meanDifference } from '../statistics/dailyDifferences'
import { mean } from '../statistics/moments'
import { dayOfDate, dayOf } from '../units/wallClock'
import { metersOnPaper } from '../kit/metersOnPaper'
import { countByDays } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'

/** Fewer vials tell nothing of vials (design choice). */
const FEWEST_VIALS = 5
/** The end of a vial is the last third of the days in which it was used. */
const END = 1 / 3
const FEWEST_READINGS = 3

/**
 * Whether readings at the end of a vial of strips are higher than those from the same vial before: mean difference of log
 * glucose, each vial weighing the same, so that a level that moves over the weeks is no end of a vial.
 */
export function endOfVial(look: Look): Question | null {
  const vials = vialsOf(look)
  const { readings, settings } = look
  const logMean = (of: readonly number[]) =>
    mean(Float64Array.from(of, (index) => Math.log(readings.mgDl[index]))) ?? NaN
  const found = meanDifference(
    vials.map(({ end, before }) => logMean(end) - logMean(before)),
    vials.map((_, i) => i),
    FEWEST_VIALS,
  )
  if (found === null) return null
  const high = (index: number) => isAbove(readings, index, settings.targetHigh)
  return {
    ps: [found.mean > 0 ? found.p / 2 : 1 - found.p / 2],
    answer([clear]) {
      const own = countByDays(
        readings,
        vials.flatMap(({ end }) => end),
        high,
      )
      const others = countByDays(
        readings,
        vials.flatMap(({ before }) => before),
        high,
      )
      if (!clear || own.count * others.n <= others.count * own.n) return null
      return {
        code: 'highs-at-end-of-vial',
        evidence: { ...own, others, vials: vials.length, ...lowsBeside(readings, look.indexes) },
      }
    },
  }
}

/** Readings of each vial whose opening is told, and what ended it: its finish or the next one opened for the same meter. */
function vialsOf({ readings, indexes, kit }: Look) {
  const { strips = [] } = kit
  const names = metersOnPaper(readings.meters)
  const opened = strips
    .flatMap((vial) => (vial.opened === undefined ? [] : [{ ...vial, from: dayOfDate(vial.opened) }]))
    .sort((a, b) => a.from - b.from)
  return opened.flatMap((vial) => {
    const next = opened.find(({ from, meter }) => from > vial.from && meter === vial.meter)
    const until = vial.finished === undefined ? next && next.from - 1 : dayOfDate(vial.finished)
    if (until === undefined) return []
    const used = indexes.filter((index) => {
      const day = dayOf(readings.at[index])
      const meter = readings.meter[index]
      return day >= vial.from && day <= until && isOfMeter(vial.meter, readings.meters[meter], names[meter])
    })
    const endsFrom = until + 1 - END * (until + 1 - vial.from)
    const end = used.filter((index) => dayOf(readings.at[index]) >= endsFrom)
    const before = used.filter((index) => dayOf(readings.at[index]) < endsFrom)
    return Math.min(end.length, before.length) < FEWEST_READINGS ? [] : [{ end, before }]
  })
}
