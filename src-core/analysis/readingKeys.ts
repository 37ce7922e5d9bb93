import type { Decision, ReadingKey } from '../model/decision'
import { FLAG, hasFlag, loggedMomentText, loggedUnit, type Readings } from '../log/readings'

/** The number as logged, a marker with its limit: '120', '>500', '<20'. */
export function loggedValueText(readings: Readings, index: number): string {
  const value = String(readings.logged[index])
  if (hasFlag(readings, index, FLAG.aboveRange)) return `>${value}`
  return hasFlag(readings, index, FLAG.belowRange) ? `<${value}` : value
}

/** What a decision about this reading points to. `logs`: SHA-256 of each log by source. */
export function keyOf(readings: Readings, index: number, logs: readonly string[]): ReadingKey {
  return {
    at: loggedMomentText(readings, index),
    value: loggedValueText(readings, index),
    unit: loggedUnit(readings, index),
    meter: readings.meters[readings.meter[index]],
    log: logs[readings.source[index]],
  }
}

/** Decisions by reading, and those whose reading is not in the logbook. */
export interface PlacedDecisions {
  readonly byIndex: ReadonlyMap<number, Decision>
  readonly gone: readonly Decision[]
}

/**
 * Finds the readings that decisions speak of: by the log's own time, value and unit; where several match, one of the
 * same log first, then one of the same meter. No reading is taken twice.
 */
export function placeDecisions(
  decisions: readonly Decision[],
  readings: Readings,
  logs: readonly string[],
): PlacedDecisions {
  const byIndex = new Map<number, Decision>()
  if (decisions.length === 0) return { byIndex, gone: [] }
  const wanted = new Map<string, number[]>(decisions.map(({ reading }) => [placeText(reading), []]))
  for (let i = 0; i < readings.n; i++) {
    wanted
      .get(
        placeText({
          at: loggedMomentText(readings, i),
          value: loggedValueText(readings, i),
          unit: loggedUnit(readings, i),
        }),
      )
      ?.push(i)
  }
  const ofMeter = (index: number, { meter }: ReadingKey) => readings.meters[readings.meter[index]] === meter
  const ofLog = (index: number, { log }: ReadingKey) => logs[readings.source[index]] === log
  // The surest matches of all decisions first: none takes the reading that another one means.
  const rounds: readonly ((index: number, key: ReadingKey) => boolean)[] = [
    (index, key) => ofLog(index, key) && ofMeter(index, key),
    ofLog,
    ofMeter,
    () => true,
  ]
  let open = decisions
  for (const matches of rounds) {
    open = open.filter((decision) => {
      const { reading } = decision
      const found = wanted
        .get(placeText(reading))
        ?.find((index) => !byIndex.has(index) && matches(index, reading))
      if (found !== undefined) byIndex.set(found, decision)
      return found === undefined
    })
  }
  return { byIndex, gone: open }
}

function placeText({ at, value, unit }: Pick<ReadingKey, 'at' | 'value' | 'unit'>): string {
  return `${at} ${value} ${unit}`
}
