import { drawnP, ENOUGH_REACHED } from '../statistics/drawnWays'
import type { RandomSource } from '../statistics/randomSource'
import { MINUTES_PER_DAY } from '../units/wallClock'
import { countOf } from './finding'
import type { Look, Question } from './look'
import { FEWEST_LOWS } from './lowsGather'
import { occasionsOf } from './occasions'

/** Near the limit so many that the verdict does not hang on the seed. */
const WAYS_DRAWN = 19_999
/** More occasions than these are months on end: what is usual then is no news of the last weeks. */
const MOST_OCCASIONS = 3_000

/**
 * Whether lows follow one another within a day more often than if every occasion of testing were as likely to be
 * one: up to 19,999 draws (`drawnP`).
 */
export function lowsInRuns(look: Look): Question | null {
  const occasions = occasionsOf(look)
  const lows = [...occasions.keys()].filter((i) => occasions[i].low)
  if (lows.length < 2 * FEWEST_LOWS || occasions.length > MOST_OCCASIONS) return null
  const minutes = occasions.map(({ index }) => look.readings.at[index] / 60)
  const close = (chosen: ArrayLike<number>) =>
    Array.from(chosen).filter((at, i) => i > 0 && minutes[at] - minutes[chosen[i - 1]] <= MINUTES_PER_DAY)
      .length
  const seen = close(lows)
  let drawn = 0
  let sum = 0
  const p = drawnP(
    WAYS_DRAWN,
    () => {
      const runs = close(chosenOf(occasions.length, lows.length, look.random))
      drawn++
      sum += runs
      return runs >= seen
    },
    ENOUGH_REACHED,
  )
  return {
    ps: [p],
    answer: ([clear]) =>
      clear && seen >= FEWEST_LOWS
        ? {
            code: 'lows-in-runs',
            evidence: { ...countOf(seen, lows.length), byChance: sum / drawn },
          }
        : null,
  }
}

/** `k` of the numbers below `n`, ascending, in `k` draws (Floyd's: Bentley and Floyd, Commun ACM 1987;30:754-757). */
function chosenOf(n: number, k: number, random: RandomSource): Uint32Array {
  const chosen = new Set<number>()
  for (let i = n - k; i < n; i++) {
    const drawn = random.nextBelow(i + 1)
    chosen.add(chosen.has(drawn) ? i : drawn)
  }
  return Uint32Array.from(chosen).sort()
}
