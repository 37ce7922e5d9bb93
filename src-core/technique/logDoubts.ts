import { isLow, type Readings } from '../log/readings'
import { minutesBetween } from './chronology'
import { type Doubts, doubtsOf, type Evidence } from './doubtModel'
import { personalRanges, type Tests } from './modelFit'
import { isWitness } from './repeatSets'

/**
 * The doubts of a whole logbook, by index; NaN for readings that are no witness: of a sensor, without a time
 * of day, or taken under changed conditions. `order` is `chronologicalOrder(readings)`; `evidence`, by index,
 * is what is known from elsewhere.
 */
export function logDoubts(
  readings: Readings,
  order: Uint32Array,
  repeatWindowMinutes: number,
  evidence?: Evidence,
): Doubts {
  const chain = order.filter((index) => isWitness(readings, index))
  const minutes = new Float64Array(chain.length)
  for (let i = 1; i < chain.length; i++) {
    minutes[i] = minutes[i - 1] + Math.max(0, minutesBetween(readings, chain[i - 1], chain[i]))
  }
  const ranges = personalRanges(Float64Array.from(chain, (index) => readings.mgDl[index]))
  // Tests of the same moment have no order; either way round is as good, so the mean of both counts.
  const { places, hasTies } = placesInOrder(1)
  const upwards = doubtsInOrder(places)
  if (!hasTies) return upwards
  const downwards = doubtsInOrder(placesInOrder(-1).places)
  const meanOf = (a: Float64Array, b: Float64Array) => a.map((value, i) => (value + b[i]) / 2)
  return {
    doubt: meanOf(upwards.doubt, downwards.doubt),
    expectedLow: upwards.expectedLow.map((value, i) => Math.min(value, downwards.expectedLow[i])),
    expectedHigh: upwards.expectedHigh.map((value, i) => Math.max(value, downwards.expectedHigh[i])),
    // Two orders may differ in their last test of a set; a doubt by the usual laws is its own mean then.
    misfit: {
      wide: upwards.misfit.wide || downwards.misfit.wide,
      quick: upwards.misfit.quick || downwards.misfit.quick,
    },
    usualDoubt:
      upwards.usualDoubt === null && downwards.usualDoubt === null
        ? null
        : meanOf(upwards.usualDoubt ?? upwards.doubt, downwards.usualDoubt ?? downwards.doubt),
  }

  /** Places in the chain, those of one moment sorted by value. */
  function placesInOrder(sign: 1 | -1): { places: Uint32Array; hasTies: boolean } {
    const valueAt = (place: number) => readings.mgDl[chain[place]]
    const places = Uint32Array.from(chain, (_, i) => i)
    let hasTies = false
    for (let start = 0; start < places.length;) {
      let end = start + 1
      while (end < places.length && minutes[end] === minutes[start]) end++
      const tied = places.subarray(start, end).sort((a, b) => sign * (valueAt(a) - valueAt(b)))
      hasTies ||= valueAt(tied[0]) !== valueAt(tied[tied.length - 1])
      start = end
    }
    return { places, hasTies }
  }

  function doubtsInOrder(places: Uint32Array): Doubts {
    const indexes = places.map((place) => chain[place])
    const pick = (column: { readonly [index: number]: number }) =>
      Float64Array.from(indexes, (index) => column[index])
    const tests: Tests = {
      minutes,
      mgDl: pick(readings.mgDl),
      low: Uint8Array.from(indexes, (index) => Number(isLow(readings, index))),
    }
    const found = doubtsOf(
      tests,
      repeatWindowMinutes,
      evidence && { up: pick(evidence.up), down: pick(evidence.down) },
      ranges,
    )
    const spread = (values: Float64Array) => {
      const all = new Float64Array(readings.n).fill(NaN)
      indexes.forEach((index, i) => (all[index] = values[i]))
      return all
    }
    return {
      doubt: spread(found.doubt),
      expectedLow: spread(found.expectedLow),
      expectedHigh: spread(found.expectedHigh),
      misfit: found.misfit,
      usualDoubt: found.usualDoubt && spread(found.usualDoubt),
    }
  }
}
