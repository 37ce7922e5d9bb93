import type { Settings } from '../model/settings'
import { isLow, type Readings } from '../log/readings'
import type { FaultDirection } from './notes/classes'
import { areEnough, type ReasonOf, REASONS } from './reasons/reasonTable'
import type { DoubtfulReading, DoubtReason } from './technique'

/** A reason that speaks of strips or meter. */
export type EquipmentReason = ReasonOf<'failed-control' | 'strip-out-of-date' | 'outside-working-temperature'>

/** Readings that are doubtful for one fault of strips or meter and for nothing else. */
export interface EquipmentStretch {
  /** What speaks against them; of several that say the same one. */
  readonly reasons: readonly EquipmentReason[]
  /** Which way the fault makes them err; null where that cannot be foretold. */
  readonly direction: FaultDirection | null
  /** Indexes in the logbook's order. */
  readonly indexes: readonly number[]
  /** Whether there are so many that the stretch is told once, in place of a mark at every reading. */
  readonly toldOnce: boolean
}

/** Above this share of a period's readings marks on every one say no more than one sentence does (design choice). */
const MOST_MARKED_SHARE = 0.2

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
  const faults = new Map<string, { reasons: Map<string, EquipmentReason>; indexes: number[] }>()
  for (const reading of doubtful) {
    const reason = reading.reasons.find(isOfEquipment)
    if (reason === undefined || !isDoubtfulByEquipment(reading, readings, settings)) continue
    const { fault, told } = faultOf(reason)
    let members = faults.get(fault)
    if (members === undefined) faults.set(fault, (members = { reasons: new Map(), indexes: [] }))
    members.indexes.push(reading.index)
    if (!members.reasons.has(told)) members.reasons.set(told, reason)
  }
  return [...faults.values()].map(({ reasons: told, indexes }) => {
    const reasons = [...told.values()]
    const within = ({ start, end }: Stretched) => indexes.filter((index) => index >= start && index < end)
    return {
      reasons,
      direction: directionOf(reasons),
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

function isOfEquipment(reason: DoubtReason): reason is EquipmentReason {
  return REASONS[reason.code].ofEquipment
}

/** Names of the fault that readings share, and of what is told of it. */
function faultOf(reason: EquipmentReason): { readonly fault: string; readonly told: string } {
  switch (reason.code) {
    case 'failed-control': {
      const { cause, failedOn, side, resultMgDl } = reason.evidence
      return { fault: `${reason.code} ${cause}`, told: `${failedOn} ${side} ${resultMgDl}` }
    }
    case 'strip-out-of-date': {
      const { limit, goodUntil, lot } = reason.evidence
      const fault = `${reason.code} ${limit} ${goodUntil} ${lot}`
      return { fault, told: fault }
    }
    case 'outside-working-temperature': {
      return { fault: `${reason.code} ${sideOfTemperature(reason)}`, told: String(reason.evidence.celsius) }
    }
  }
}

function directionOf(reasons: readonly EquipmentReason[]): FaultDirection | null {
  const directions = new Set(
    reasons.map((reason) => {
      switch (reason.code) {
        case 'failed-control':
          return reason.evidence.side
        case 'strip-out-of-date':
          return null
        case 'outside-working-temperature':
          return sideOfTemperature(reason)
      }
    }),
  )
  return directions.size === 1 ? [...directions][0] : 'either'
}

/** Some meters read too low in the cold and too high in the heat (common knowledge; the leaflet of each tells its own). */
function sideOfTemperature({
  evidence: { celsius, lowest },
}: ReasonOf<'outside-working-temperature'>): 'too-low' | 'too-high' {
  return celsius < lowest ? 'too-low' : 'too-high'
}
