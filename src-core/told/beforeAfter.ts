import type { Analysis } from '../analysis/analysis'
import { isOfMeter } from '../kit/meters'
import { metersOnPaper } from '../kit/metersOnPaper'
import { isWithin15 } from '../technique/meterPairs'
import { firstDaysOfMeters, NEW_AFTER_DAYS } from '../technique/newMeters'
import { type DayNumber, dayOf, dayOfDate } from '../units/wallClock'

/** So many days are told, the latest (design choice). */
const MOST_TOLD = 4

/** What was new on a day. */
export type NewThing =
  | { readonly code: 'taught'; readonly about: string | null }
  | { readonly code: 'strips'; readonly vial: string | null; readonly lot: string | null }
  /** Index into the logbook's meters. */
  | { readonly code: 'meter'; readonly meter: number }

/** So many of how many. */
export interface Share {
  readonly count: number
  readonly n: number
}
export interface BothSides {
  readonly before: Share
  readonly since: Share
}

/** A day on which something was new, with what was counted before it and from it on; never a verdict. */
export interface BeforeAfterTold {
  readonly since: DayNumber
  readonly news: readonly NewThing[]
  /** Repeat sets that disagree; null where one side has none. */
  readonly sets: BothSides | null
  /** Pairs of two meters that lie further apart than 15 mg/dL or 15 %, of a new meter alone; null likewise. */
  readonly pairs: BothSides | null
}

/** A day on which something was new, for all meters or those of one name. */
interface Event {
  readonly since: DayNumber
  readonly meter: string | undefined
  readonly news: readonly NewThing[]
}

/**
 * The sets of the whole logbook that disagree before and since each dated teaching, each vial that was opened and each new
 * meter, in order of their days; what was new on one day stands together. Nothing where no set disagrees on either side.
 */
export function beforeAfterTold(analysis: Analysis): readonly BeforeAfterTold[] {
  const { readings, technique } = analysis
  const onPaper = metersOnPaper(readings.meters)
  const sets = technique.repeatSets.map(({ members, agree }) => ({
    day: dayOf(readings.at[members[0]]),
    counts: !agree,
    meters: [...new Set(members.map((index) => readings.meter[index]))],
  }))
  const pairs = technique.meterPairs.flatMap((pair) =>
    pair.pairs.map((both) => ({
      day: dayOf(readings.at[Math.min(...both)]),
      counts: !isWithin15(readings.mgDl[both[0]], readings.mgDl[both[1]]),
    })),
  )
  return eventsOf(analysis)
    .map(({ since, meter, news }): BeforeAfterTold => {
      const isOf = (index: number) => isOfMeter(meter, readings.meters[index], onPaper[index])
      return {
        since,
        news,
        sets: bothSides(
          sets.filter(({ meters }) => meters.every(isOf)),
          since,
        ),
        pairs: news.some(({ code }) => code === 'meter') ? bothSides(pairs, since) : null,
      }
    })
    .filter((told) => told.sets !== null || told.pairs !== null)
    .slice(-MOST_TOLD)
}

function eventsOf({ kit, readings }: Analysis): readonly Event[] {
  const firstDays = firstDaysOfMeters(readings)
  const firstOfAll = Math.min(...firstDays.values())
  const events: readonly Event[] = [
    ...(kit.teachings ?? []).map(({ date, about }) => ({
      since: dayOfDate(date),
      meter: undefined,
      news: [{ code: 'taught', about: about ?? null } as const],
    })),
    ...(kit.strips ?? []).flatMap(({ opened, vial, lot, meter }) =>
      opened === undefined
        ? []
        : [
            {
              since: dayOfDate(opened),
              meter,
              news: [{ code: 'strips', vial: vial ?? null, lot: lot ?? null } as const],
            },
          ],
    ),
    ...[...firstDays]
      .filter(([, day]) => day - firstOfAll >= NEW_AFTER_DAYS)
      .map(([meter, since]) => ({ since, meter: undefined, news: [{ code: 'meter', meter } as const] })),
  ]
  const together = new Map<string, Event>()
  for (const event of events) {
    const key = `${event.since} ${event.meter ?? ''}`
    const other = together.get(key)
    together.set(key, other ? { ...other, news: [...other.news, ...event.news] } : event)
  }
  return [...together.values()].sort((a, b) => a.since - b.since)
}

/** Null where one side has none, or nothing counts on either. */
function bothSides(
  all: readonly { readonly day: DayNumber; readonly counts: boolean }[],
  since: DayNumber,
): BothSides | null {
  const share = (some: typeof all): Share => ({
    count: some.filter(({ counts }) => counts).length,
    n: some.length,
  })
  const sides = {
    before: share(all.filter(({ day }) => day < since)),
    since: share(all.filter(({ day }) => day >= since)),
  }
  const { before, since: after } = sides
  return before.n === 0 || after.n === 0 || before.count + after.count === 0 ? null : sides
}
