import type { Settings } from '../model/settings'
import { isLow, type Readings } from '../log/readings'
import type { FaultDirection } from './notes/classes'
import { areEnough, type DoubtReason, faultOf } from './reasons/reasonTable'
import type { DoubtfulReading } from './technique'

/** Readings that are doubtful for one fault of strips or meter and for nothing else. */
export interface EquipmentStretch {
  /** What speaks against them; of several that say the same one. */
  readonly reasons: readonly DoubtReason[]
  /** Which way the fault makes them err; null where that cannot be foretold. */
  readonly direction: FaultDirection | null
  /** Indexes in the logbook's order. */
  readonly indexes: readonly number[]
  /** Whether there are so many that the stretch is told once, in place of a mark at every reading. */
  readonly toldOnce: boolean
}

/** Above this share of a period's readings marks on every one say no more than one sentence does (design choice). */
const MOST_MARKED_SHARE = 0.2

interface Fault {
  /** By what is told of them. */
  readonly reasons: Map<string, DoubtReason>
  readonly directions: Set<FaultDirection | null>
  readonly indexes: number[]
}

/** Readings `[start, end)` of which `n` are in the figures. */
interface Stretched {
  readonly start: number
  readonly end: number
  readonly asLogged: { readonly n: number }
}

/**
 * The readings of the logbook that are doubtful by their strips or meter alone, those of one fault together. A stretch is
 * told once where it holds more than a fifth of the readings of any of the periods.
 */
export function equipmentStretches(
  doubtful: readonly DoubtfulReading[],
  readings: Readings,
  settings: Settings,
  periods: readonly Stretched[],
): readonly EquipmentStretch[] {
  const faults = new Map<string, Fault>()
  for (const reading of doubtful) {
    const reason = reading.reasons.find(isOfEquipment)
    const of = reason && faultOf(reason)
    if (!reason || !of || !isDoubtfulByEquipment(reading, readings, settings)) continue
    const name = `${reason.code} ${of.fault}`
    const fault: Fault = faults.get(name) ?? { reasons: new Map(), directions: new Set(), indexes: [] }
    faults.set(name, fault)
    fault.indexes.push(reading.index)
    if (fault.reasons.has(of.told)) continue
    fault.reasons.set(of.told, reason)
    fault.directions.add(of.direction)
  }
  return [...faults.values()].map(({ reasons, directions, indexes }) => {
    const within = ({ start, end }: Stretched) => indexes.filter((index) => index >= start && index < end)
    return {
      reasons: [...reasons.values()],
      direction: directions.size === 1 ? [...directions][0] : 'either',
      indexes,
      toldOnce: periods.some((period) => within(period).length > MOST_MARKED_SHARE * period.asLogged.n),
    }
  })
}

/**
 * The doubtful readings of the logbook that carry a mark of their own, and those of the stretches that are told once, which
 * carry none.
 */
export function marksOfDoubt(
  doubtful: readonly DoubtfulReading[],
  stretches: readonly EquipmentStretch[],
): { readonly marked: ReadonlySet<number>; readonly bracketed: ReadonlySet<number> } {
  const bracketed = new Set(stretches.flatMap(({ toldOnce, indexes }) => (toldOnce ? indexes : [])))
  const marked = doubtful.map(({ index }) => index).filter((index) => !bracketed.has(index))
  return { marked: new Set(marked), bracketed }
}

/** How many of these carry a mark of doubt, and how many lie within a bracket. */
export function countMarks(
  indexes: readonly number[],
  { marked, bracketed }: { readonly marked: ReadonlySet<number>; readonly bracketed: ReadonlySet<number> },
): { readonly marked: number; readonly bracketed: number } {
  const within = (set: ReadonlySet<number>) => indexes.filter((index) => set.has(index)).length
  return { marked: within(marked), bracketed: within(bracketed) }
}

/** Whether a reading is doubtful by its strips or meter alone: nothing else that is known of it would do. */
export function isDoubtfulByEquipment(
  { index, doubt, reasons }: DoubtfulReading,
  readings: Readings,
  settings: Settings,
): boolean {
  const others = reasons.filter((reason) => !isOfEquipment(reason))
  return others.length < reasons.length && !areEnough(others, doubt, isLow(readings, index), settings)
}

function isOfEquipment(reason: DoubtReason): boolean {
  return faultOf(reason) !== null
}
