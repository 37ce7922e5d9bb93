import { UNIT_TELLTALE } from '../reference/meter'
import type { GlucoseUnit } from '../units/glucose'
import type { UnitDecision } from './logReport'
import { type RowTable, VALUE } from './rowTable'

/** The unit of a log, and that of its rows that name none. */
export interface UnitPlan {
  readonly decision: UnitDecision
  readonly ofUnmarkedRows: GlucoseUnit
  /** Where the person overruled what the rows themselves say. */
  readonly ofMarkedRows?: GlucoseUnit
}

/** The unit could not be told; `why` says what speaks against a guess. */
export interface UnitOpen {
  readonly open:
    | 'foreign-unit'
    | 'values-fit-both'
    | 'two-magnitudes'
    | 'header-contradicts-values'
    | 'cells-contradict-values'
    | 'some-rows-without'
  readonly headerUnit: GlucoseUnit | null
}

/** Fewest values whose size may contradict what the header says. */
const FEWEST_TO_CONTRADICT = 3

/** Decides the unit of a table's rows from the header, the rows' own units, the values, or the answer; in this order. */
export function decideUnit(
  table: RowTable,
  hints: {
    /** The table's rows: first, and the one after the last. */
    readonly from: number
    readonly to: number
    readonly header: GlucoseUnit | null
    readonly hasUnitColumn: boolean
    /** Whether header or cells name a unit of glucose that is neither mg/dL nor mmol/L. */
    readonly foreign: boolean
    readonly answer: GlucoseUnit | null
  },
): UnitPlan | UnitOpen {
  const rows = surveyUnits(table, hints.from, hints.to)
  const { header, answer } = hints
  if (hints.foreign && answer === null) return { open: 'foreign-unit', headerUnit: null }
  const plan = (
    value: GlucoseUnit | 'mixed',
    basis: UnitDecision['basis'],
    unmarked: GlucoseUnit,
  ): UnitPlan => ({
    decision: { value, basis },
    ofUnmarkedRows: unmarked,
  })
  const marked = rows.mgDl + rows.mmol
  const stated = rows.mmol === 0 ? 'mg/dL' : 'mmol/L'
  if (marked > 0 && (rows.mgDl === 0 || rows.mmol === 0) && contradicts(rows.marked, stated)) {
    if (answer === null) return { open: 'cells-contradict-values', headerUnit: header }
    return { ...plan(answer, 'answer', answer), ofMarkedRows: answer }
  }
  if (marked > 0) {
    const basis = hints.hasUnitColumn ? 'column' : 'cell'
    const single: GlucoseUnit | null = rows.mmol === 0 ? 'mg/dL' : rows.mgDl === 0 ? 'mmol/L' : null
    const unmarked = header ?? single ?? answer
    if (rows.unmarked.length > 0 && unmarked === null) return { open: 'some-rows-without', headerUnit: null }
    const differs = single === null || (rows.unmarked.length > 0 && unmarked !== single)
    return plan(differs ? 'mixed' : single, basis, unmarked ?? single ?? 'mg/dL')
  }
  const values = rows.unmarked
  if (header !== null) {
    if (!contradicts(values, header)) return plan(header, 'header', header)
    return answer ? plan(answer, 'answer', answer) : { open: 'header-contradicts-values', headerUnit: header }
  }
  const small = values.some((value) => value < UNIT_TELLTALE.lowestMgDl)
  const large = values.some((value) => value > UNIT_TELLTALE.highestMmol)
  if (answer) return plan(answer, 'answer', answer)
  if (small && !large) return plan('mmol/L', 'values', 'mmol/L')
  if (large && !small) return plan('mg/dL', 'values', 'mg/dL')
  return { open: small && large ? 'two-magnitudes' : 'values-fit-both', headerUnit: null }
}

/** Whether several values cannot be of the unit that the header names: no meter shows such numbers. */
function contradicts(values: readonly number[], header: GlucoseUnit): boolean {
  const foreign = values.filter((value) =>
    header === 'mg/dL' ? value < UNIT_TELLTALE.lowestMgDl : value > UNIT_TELLTALE.highestMmol,
  )
  return foreign.length >= FEWEST_TO_CONTRADICT
}

function surveyUnits(
  table: RowTable,
  from: number,
  to: number,
): {
  mgDl: number
  mmol: number
  marked: number[]
  unmarked: number[]
} {
  let mgDl = 0
  let mmol = 0
  const marked: number[] = []
  const unmarked: number[] = []
  for (let i = from; i < to; i++) {
    if (table.valueKind[i] !== VALUE.number || table.reasonOf(i) !== null) continue
    const unit = table.unitOf(i)
    const value = table.value[i]
    if (unit !== null) marked.push(value)
    if (unit === 'mg/dL') mgDl++
    else if (unit === 'mmol/L') mmol++
    else if (value >= 1 && value <= 1000) unmarked.push(value)
  }
  return { mgDl, mmol, marked, unmarked }
}
