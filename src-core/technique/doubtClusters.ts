import { FLAG, hasClockTime, hasFlag, type Readings } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { fisherUpperTail } from '../statistics/exactTests'
import { dayOf, secondOfDay } from '../units/wallClock'
import type { EquipmentTold } from './reasons/evidence'
import { stripsInUse } from './reasons/stripsInUse'

/** Where doubtful readings gather more than the testing there explains. */
export type DoubtCluster = {
  readonly doubtful: number
  readonly ofDoubtful: number
  readonly readings: number
  readonly ofReadings: number
} & (
  | { readonly by: 'hours'; readonly fromHour: number }
  | { readonly by: 'meter'; readonly meter: number }
  | { readonly by: 'vial'; readonly vial: string }
)

/** Fewer make no cluster (design choice). */
const FEWEST = 4
/** Chance of any cluster at all where there is none; shared among the places looked at (Bonferroni). */
const FALSE_ALARM = 0.05

/**
 * Blocks of hours, meters and vials in which the doubtful readings gather (Fisher's exact test), the clearest first.
 * `doubtful` holds those doubtful by themselves: strips or a control that failed gather by their nature.
 */
export function doubtClusters(
  readings: Readings,
  doubtful: ReadonlySet<number>,
  equipment: EquipmentTold,
): readonly DoubtCluster[] {
  if (doubtful.size < FEWEST) return []
  const indexes = Array.from({ length: readings.n }, (_, index) => index).filter(
    (index) => !hasFlag(readings, index, FLAG.sensor),
  )
  const places = [
    ...hourPlaces(readings, indexes),
    ...meterPlaces(readings, indexes),
    ...vialPlaces(readings, indexes, equipment),
  ]
  return places
    .map(({ place, members }) => {
      const inside = members.filter((index) => doubtful.has(index)).length
      const counts = {
        doubtful: inside,
        ofDoubtful: doubtful.size,
        readings: members.length,
        ofReadings: indexes.length,
      }
      const others = doubtful.size - inside
      const soundElsewhere = indexes.length - members.length - others
      return {
        cluster: { ...counts, ...place },
        p: fisherUpperTail(inside, members.length - inside, others, soundElsewhere),
      }
    })
    .filter(({ cluster, p }) => cluster.doubtful >= FEWEST && p * places.length < FALSE_ALARM)
    .sort((a, b) => a.p - b.p)
    .map(({ cluster }) => cluster)
}

interface Place {
  readonly place:
    | { readonly by: 'hours'; readonly fromHour: number }
    | { readonly by: 'meter'; readonly meter: number }
    | { readonly by: 'vial'; readonly vial: string }
  readonly members: readonly number[]
}

function hourPlaces(readings: Readings, indexes: readonly number[]): readonly Place[] {
  const timed = indexes.filter((index) => hasClockTime(readings, index))
  const blockOf = (index: number) => Math.floor(secondOfDay(readings.at[index]) / (3600 * BLOCK_HOURS))
  return Array.from({ length: BLOCKS_PER_DAY }, (_, block) => ({
    place: { by: 'hours' as const, fromHour: block * BLOCK_HOURS },
    members: timed.filter((index) => blockOf(index) === block),
  })).filter(({ members }) => members.length > 0)
}

/** Nothing of a single meter, which took them all. */
function meterPlaces(readings: Readings, indexes: readonly number[]): readonly Place[] {
  const members = new Map<number, number[]>()
  for (const index of indexes) {
    const list = members.get(readings.meter[index])
    if (list === undefined) members.set(readings.meter[index], [index])
    else list.push(index)
  }
  return members.size < 2
    ? []
    : [...members].map(([meter, list]) => ({ place: { by: 'meter' as const, meter }, members: list }))
}

/** The vials of the kit, where a single one may have been in use. */
function vialPlaces(
  readings: Readings,
  indexes: readonly number[],
  equipment: EquipmentTold,
): readonly Place[] {
  const members = new Map<string, number[]>()
  for (const index of indexes) {
    const [vial, ...others] = stripsInUse(equipment, readings.meter[index], dayOf(readings.at[index]))
    const name = vial?.vial ?? vial?.lot
    if (name === undefined || others.length > 0) continue
    const list = members.get(name)
    if (list === undefined) members.set(name, [index])
    else list.push(index)
  }
  return members.size < 2
    ? []
    : [...members].map(([vial, list]) => ({ place: { by: 'vial' as const, vial }, members: list }))
}
