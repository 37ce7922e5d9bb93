import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Lows } from '../../../src-core/day/lows'
import { lowAfterwards } from '../../../src-core/findings/lowsAfterHighs'
import { FLAG } from '../../../src-core/log/readings'
import type { RepeatSet } from '../../../src-core/technique/technique'
import { at, readingsOf, row } from '../analysis/readingsOf'

const START = at('2026-03-01 07:00')

it('a low afterwards is the first within five hours that is no repeat of the reading', () => {
  const tests = fc.array(
    fc.record({
      minute: fc.nat(900),
      low: fc.boolean(),
      offset: fc.constantFrom(null, null, 0, 60),
      set: fc.constantFrom(null, null, 0, 1),
    }),
    { minLength: 1, maxLength: 30 },
  )
  fc.assert(
    fc.property(tests, (of) => {
      const readings = readingsOf(
        [...of]
          .sort((a, b) => a.minute - b.minute)
          .map(({ minute, low, offset }) =>
            row(START + 60 * minute, low ? 60 : 200, {
              flags: offset === null ? 0 : FLAG.offset,
              offsetMinutes: offset ?? 0,
            }),
          ),
      )
      const indexes = Array.from({ length: readings.n }, (_, i) => i)
      // Sets are stretches of the log.
      const sets = [indexes.slice(2, 5), indexes.slice(7, 12)]
      const lows = indexes.filter((i) => readings.mgDl[i] < 70)
      const technique = { repeatSets: sets.map((members) => ({ members }) as unknown as RepeatSet) }
      for (const index of indexes) {
        const own = sets.find((members) => members.includes(index)) ?? []
        const minutesTo = (low: number) => {
          const both = readings.flags[index] & readings.flags[low] & FLAG.offset
          const clocks = both ? readings.offsetMinutes[low] - readings.offsetMinutes[index] : 0
          return (readings.at[low] - readings.at[index]) / 60 - clocks
        }
        const after = lows
          .filter((low) => !own.includes(low) && minutesTo(low) > 0 && minutesTo(low) <= 300)
          .map(minutesTo)
        const found = lowAfterwards(
          readings,
          technique,
          { each: lows.map((i) => ({ index: i })) } as unknown as Lows,
          index,
        )
        expect(found === null ? null : minutesTo(found)).toBe(after.length === 0 ? null : Math.min(...after))
      }
    }),
    { seed: 3, numRuns: 500 },
  )
})
