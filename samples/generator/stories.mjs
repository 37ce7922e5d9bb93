import { isoDay, MINUTES_PER_DAY } from './calendar.mjs'

/**
 * `count` stories on usual tests drawn by chance, none on a day that `stories` already use: what stands at
 * `tags` (drawn from), with the rest from `make()`.
 */
export function scattered(random, { from, days, count, tags, stories }, make) {
  const taken = new Set(stories.map((story) => story.day))
  const drawn = []
  while (drawn.length < count) {
    const day = isoDay(from + random.whole(0, days - 1) * MINUTES_PER_DAY)
    if (taken.has(day)) continue
    taken.add(day)
    drawn.push({ day, tag: random.pick(tags), ...make() })
  }
  return drawn
}
