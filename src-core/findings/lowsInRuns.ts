import { bothBelow } from '../statistics/bothBelow'
import { closeRuns } from '../statistics/closeRuns'
import { MINUTES_PER_DAY } from '../units/wallClock'
import { countOf } from './finding'
import { likenessOfDays } from './likeness'
import type { Look, Question } from './look'
import { FEWEST_LOWS } from './lowsGather'
import { occasionsOf } from './occasions'

/** More occasions than these are months on end: what is usual then is no news of the last weeks. */
const MOST_OCCASIONS = 3_000

/**
 * Whether lows follow one another within a day more often than chance gives where days are as alike as this person's are.
 * Exact (`closeRuns`). Not asked where lows are so many that they are the rule.
 */
export function lowsInRuns(look: Look): Question | null {
  const occasions = occasionsOf(look)
  const lows = [...occasions.keys()].filter((i) => occasions[i].low)
  if (lows.length < 2 * FEWEST_LOWS || occasions.length > MOST_OCCASIONS) return null
  const minutes = occasions.map(({ index }) => look.readings.at[index] / 60)
  const seen = lows.filter((at, i) => i > 0 && minutes[at] - minutes[lows[i - 1]] <= MINUTES_PER_DAY).length
  const odds = oddsOfAnother(look, minutes, lows.length / occasions.length)
  const chance = closeRuns(minutes, lows.length, MINUTES_PER_DAY, seen, odds)
  if (chance === null) return null
  return {
    ps: [chance.p],
    answer: ([clear]) =>
      clear && seen >= FEWEST_LOWS
        ? {
            code: 'lows-in-runs',
            evidence: { ...countOf(seen, lows.length), byChance: chance.expected },
          }
        : null,
  }
}

/** How many times the odds of a low within 24 hours grow after a low, where days are alike and nothing else. */
function oddsOfAnother({ readings, indexes }: Look, minutes: readonly number[], share: number): number {
  if (share === 1) return 1
  const { sameDay, nextDay } = likenessOfDays(readings, indexes)
  // Of the tests within 24 hours after another about half are of the same day.
  const pair = (bothBelow(share, sameDay) + bothBelow(share, nextDay)) / 2
  let within = 0
  for (let i = 0, end = 0; i < minutes.length; i++) {
    while (end < minutes.length && minutes[end] - minutes[i] <= MINUTES_PER_DAY) end++
    within += end - 1 - i
  }
  const tests = within / minutes.length
  const oddsOf = (each: number) => (1 - each) ** -tests - 1
  return oddsOf(pair / share) / oddsOf(share)
}
