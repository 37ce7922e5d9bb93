import { LIMITS } from '../reference/limits'
import { MEASURING_RANGE_MG_DL, POSSIBLE_MG_DL, UNIT_TELLTALE } from '../reference/meter'
import { type GlucoseUnit, otherUnit } from '../units/glucose'
import type { OddValues, UnitDecision } from './logReport'
import type { UnitAnswer } from './logSource'
import { MG_DL_IN_ONE_G_L } from './glucoseCell'
import { type RowTable, THOUSANDTHS, VALUE } from './rowTable'

// The unit of a table: what its header, its cells or its rows say, else what the sizes of its values say, else what a
// person answers. A size never overrules a word unasked, and a word never overrules a size: one value that no meter
// shows in the unit named is enough for a question, as 6.8 mg/dL would count as a very low one.

/** The unit of a log, and that of its rows that name none. */
export interface UnitPlan {
  readonly decision: UnitDecision
  readonly ofUnmarkedRows: GlucoseUnit
  /** Where the person overruled what the rows themselves say. */
  readonly ofMarkedRows?: GlucoseUnit
  /** Where the person said that both units are mixed: a value that cannot be of its unit is of the other. */
  readonly bySize?: Sizes
  /** Rows whose value is not of the size of the unit named, where the person decided what they are. */
  readonly odd?: OddValues
}

/** The unit could not be told; `why` says what speaks against a guess. */
export type UnitOpen = OpenRows &
  (
    | {
        readonly open:
          'foreign-unit' | 'values-fit-both' | 'two-magnitudes' | 'some-rows-without' | 'very-low-values'
        readonly odd: null
      }
    | { readonly open: 'odd-values'; readonly odd: OddValues }
  )

interface OpenRows {
  /** The rows concerned: first, and the one after the last. */
  readonly from: number
  readonly to: number
  /** Answers that make sense of the values, the likeliest first. */
  readonly answers: readonly UnitAnswer[]
  /** What the header or the cells say, where they all say the same. */
  readonly stated: GlucoseUnit | null
}

/** What the values of a table tell of the form in which each unit is written there. */
export interface Sizes {
  /** Whether all that can only be mg/dL are whole numbers: a fraction among them is then of mmol/L. */
  readonly mgDlIsWhole: boolean
  /** Whether so many lie above what meters show in mmol/L that a laboratory's rare fraction there proves nothing. */
  readonly manyAboveMmol: boolean
  /** Whether most values written in g/L have hundredths, as meters show them. */
  readonly gramsHaveHundredths: boolean
}

/** Highest value in mmol/L that is a possible reading. */
const POSSIBLE_MMOL = 55.5
/** So many fractions above what a meter shows in mmol/L are no laboratory's values any more. A design choice. */
const FEWEST_ABOVE_MMOL = 3
/** No log holds more very low readings than this share: its values are of another unit. A design choice. */
const MOST_VERY_LOW = 0.5
/** In g/L, so high a value without hundredths where most have them is one of mmol/L. A design choice. */
const HIGHEST_IN_TENTHS_MG_DL = 330
/** Values in mg/dL that a meter shows and that are no lows: what among mmol/L is surely one of mg/dL. */
const SURELY_MG_DL = { least: LIMITS.low.mgDl, most: MEASURING_RANGE_MG_DL.highest } as const

/** Whether a value cannot be of the unit that it is said to have, and can be of the other. */
export function isOfOtherUnit(value: number, decimals: number, stated: GlucoseUnit, sizes: Sizes): boolean {
  if (stated === 'mmol/L') {
    const isFraction = !Number.isInteger(value)
    const isOdd =
      value > UNIT_TELLTALE.highestMmol && (!isFraction || sizes.manyAboveMmol || value > POSSIBLE_MMOL)
    return isOdd && value <= POSSIBLE_MG_DL.most
  }
  if (decimals === THOUSANDTHS || value < POSSIBLE_MG_DL.least) return false
  return (
    value < UNIT_TELLTALE.lowestMgDl ||
    (sizes.mgDlIsWhole && value <= UNIT_TELLTALE.highestMmol && !Number.isInteger(value))
  )
}

/** Whether a value written in g/L cannot be of it and can be of mmol/L. */
export function isMmolAmongGrams(table: RowTable, row: number, haveHundredths: boolean): boolean {
  const decimals = table.gramDecimals.get(row)
  const value = table.value[row]
  if (decimals === undefined || value > UNIT_TELLTALE.highestMmol * MG_DL_IN_ONE_G_L) return false
  return (
    value > MEASURING_RANGE_MG_DL.highest ||
    (haveHundredths && decimals < HUNDREDTHS && value >= HIGHEST_IN_TENTHS_MG_DL)
  )
}
const HUNDREDTHS = 2

/** A row's number and its unit under a plan: what its row or its header says, or what a person answered. */
export function valueUnder(plan: UnitPlan, table: RowTable, row: number): readonly [number, GlucoseUnit] {
  const value = table.value[row]
  const stated = plan.ofMarkedRows ?? table.unitOf(row) ?? plan.ofUnmarkedRows
  if (!plan.bySize || table.valueKind[row] !== VALUE.number) return [value, stated]
  if (isMmolAmongGrams(table, row, plan.bySize.gramsHaveHundredths))
    return [asWrittenInGrams(value), 'mmol/L']
  if (!isOfOtherUnit(value, table.decimals[row], stated, plan.bySize)) return [value, stated]
  return [value, otherUnit(stated)]
}

/** The number that stood in the cell of a value that was taken for g/L. */
export function asWrittenInGrams(mgDl: number): number {
  return Number((mgDl / MG_DL_IN_ONE_G_L).toPrecision(12))
}

type PlainOpen = Exclude<UnitOpen, { open: 'odd-values' }>
const UNITS: readonly UnitAnswer[] = ['mg/dL', 'mmol/L']

interface UnitHints {
  /** The table's rows: first, and the one after the last. */
  readonly from: number
  readonly to: number
  readonly header: GlucoseUnit | null
  readonly hasUnitColumn: boolean
  /** Whether header or cells name a unit of glucose that is neither mg/dL nor mmol/L. */
  readonly foreign: boolean
  /** Whether what the rows say was a person's or this program's own: it is not asked about again. */
  readonly trusted: boolean
  readonly answer: UnitAnswer | null
  /** Chosen in place of all else. */
  readonly instead: GlucoseUnit | null
}

/** Decides the unit of a table's rows from what was chosen instead, the header, the rows' own units, the values, or the answer; in this order. */
export function decideUnit(table: RowTable, hints: UnitHints): UnitPlan | UnitOpen {
  const { header, answer, instead } = hints
  if (instead !== null) {
    return {
      decision: { value: instead, basis: 'answer' },
      ofUnmarkedRows: instead,
      ofMarkedRows: instead,
    }
  }
  const survey = surveyUnits(table, hints.from, hints.to)
  const single: GlucoseUnit | null = survey.mmol === 0 ? 'mg/dL' : survey.mgDl === 0 ? 'mmol/L' : null
  const isMarked = survey.mgDl + survey.mmol > 0
  const stated = isMarked ? single : header
  const asked = (open: PlainOpen['open'], answers = UNITS): UnitOpen => {
    return { open, from: hints.from, to: hints.to, answers, stated: null, odd: null }
  }
  const plan = (
    value: GlucoseUnit | 'mixed',
    basis: UnitDecision['basis'],
    unmarked: GlucoseUnit,
  ): UnitPlan => ({ decision: { value, basis }, ofUnmarkedRows: unmarked })

  if (hints.foreign && answer === null) return asked('foreign-unit')
  const one = answer === 'mixed' ? null : answer
  const unmarked = isMarked ? (header ?? single ?? one) : header
  if (isMarked && survey.unmarked > 0 && unmarked === null) return asked('some-rows-without')
  if (unmarked === null && !isMarked) return decideByValues(survey, answer, asked, plan)

  const sizes = { ...sizesOf(survey), gramsHaveHundredths: haveHundredths(table, hints) }
  const saidBy = !isMarked ? 'header' : single === null ? 'row' : 'log'
  const odd = hints.trusted ? null : oddValues(table, hints, { unmarked: unmarked ?? 'mg/dL', saidBy }, sizes)
  const differs = isMarked && (single === null || (survey.unmarked > 0 && unmarked !== single))
  const basis = isMarked ? (hints.hasUnitColumn ? 'column' : 'cell') : 'header'
  const asSaid = plan(differs ? 'mixed' : (stated ?? 'mg/dL'), basis, unmarked ?? single ?? 'mg/dL')
  if (odd === null) return asSaid
  if (answer === null) {
    const { from, to } = hints
    return { open: 'odd-values', from, to, answers: answersTo(survey, stated, odd), stated, odd: odd.values }
  }
  if (answer === 'mixed') {
    return { ...asSaid, decision: { value: 'mixed', basis: 'answer' }, bySize: sizes, odd: odd.values }
  }
  // Where the rows name both units, no answer of one of them overrules each: they stand as they are.
  if (isMarked && single === null) return { ...asSaid, odd: odd.values }
  return { ...plan(answer, 'answer', answer), ...(isMarked && { ofMarkedRows: answer }), odd: odd.values }
}

/** The unit of a table of which no word names one. */
function decideByValues(
  { small, large, surelyMgDl, between, veryLow, unmarked }: Survey,
  answer: UnitAnswer | null,
  asked: (open: PlainOpen['open'], answers?: readonly UnitAnswer[]) => UnitOpen,
  plan: (value: GlucoseUnit | 'mixed', basis: UnitDecision['basis'], unmarked: GlucoseUnit) => UnitPlan,
): UnitPlan | UnitOpen {
  if (answer === 'mixed') {
    if (small > 0 && large > 0 && between === 0) {
      const sizes: Sizes = { mgDlIsWhole: true, manyAboveMmol: true, gramsHaveHundredths: false }
      return { ...plan('mixed', 'answer', 'mg/dL'), bySize: sizes }
    }
  } else if (answer) return plan(answer, 'answer', answer)
  if (small > 0 && large === 0) {
    // Very low nearly always: another unit, such as grams per litre.
    if (veryLow > MOST_VERY_LOW * unmarked) return asked('very-low-values')
    return plan('mmol/L', 'values', 'mmol/L')
  }
  if (large > 0 && small === 0) return plan('mg/dL', 'values', 'mg/dL')
  if (small === 0) return asked('values-fit-both')
  // In mg/dL the small ones would be lows that are none, in mmol/L the large ones are set aside and told.
  const whole: readonly UnitAnswer[] = small <= large ? UNITS : ['mmol/L', 'mg/dL']
  if (between > 0) return asked('two-magnitudes', whole)
  return asked(
    'two-magnitudes',
    mostAre(surelyMgDl, large) ? ['mixed', ...whole] : [whole[0], 'mixed', whole[1]],
  )
}

/** The answers that leave no value without a possible unit, the likeliest first. */
function answersTo(
  { small, large }: Survey,
  stated: GlucoseUnit | null,
  odd: OddFound,
): readonly UnitAnswer[] {
  if (stated === null) return ['mixed', 'mg/dL']
  const other = otherUnit(stated)
  const fitsOther = other === 'mmol/L' ? large === 0 : small === 0
  if (fitsOther) return [other, stated]
  // A slip such as 66.6 for 6.6 would be a low in mg/dL; in mmol/L it is impossible, set aside and told.
  const isSlip = stated === 'mmol/L' && !mostAre(odd.surelyMgDl, odd.values.count)
  return isSlip ? [stated, 'mixed'] : ['mixed', stated]
}

function mostAre(some: number, all: number): boolean {
  return some > 0.5 * all
}

function isSurelyMgDl(value: number): boolean {
  return Number.isInteger(value) && value >= SURELY_MG_DL.least && value <= SURELY_MG_DL.most
}

function haveHundredths(table: RowTable, { from, to }: UnitHints): boolean {
  let grams = 0
  let hundredths = 0
  for (let row = from; row < to && table.gramDecimals.size > 0; row++) {
    const decimals = table.gramDecimals.get(row)
    if (decimals === undefined) continue
    grams++
    if (decimals >= HUNDREDTHS) hundredths++
  }
  return mostAre(hundredths, grams)
}

function sizesOf({ fractionsOfMgDl, fractionsAboveMmol }: Survey): Omit<Sizes, 'gramsHaveHundredths'> {
  return { mgDlIsWhole: fractionsOfMgDl === 0, manyAboveMmol: fractionsAboveMmol >= FEWEST_ABOVE_MMOL }
}

interface OddFound {
  readonly values: OddValues
  /** How many of them are surely mg/dL. */
  readonly surelyMgDl: number
}

function oddValues(
  table: RowTable,
  { from, to }: UnitHints,
  { unmarked, saidBy }: { readonly unmarked: GlucoseUnit; readonly saidBy: OddValues['saidBy'] },
  sizes: Sizes,
): OddFound | null {
  let surelyMgDl = 0
  let first = -1
  let count = 0
  let of = 0
  for (let i = from; i < to; i++) {
    if (table.valueKind[i] !== VALUE.number || table.fates.reasonOf(i) !== null) continue
    of++
    const isOdd =
      isMmolAmongGrams(table, i, sizes.gramsHaveHundredths) ||
      isOfOtherUnit(table.value[i], table.decimals[i], table.unitOf(i) ?? unmarked, sizes)
    if (!isOdd) continue
    if (count++ === 0) first = i
    if (isSurelyMgDl(table.value[i])) surelyMgDl++
  }
  if (count === 0) return null
  const grams = table.gramDecimals.has(first) ? { haveHundredths: sizes.gramsHaveHundredths } : null
  return { values: { first, count, of, stated: table.unitOf(first) ?? unmarked, saidBy, grams }, surelyMgDl }
}

interface Survey {
  /** Rows that name mg/dL, mmol/L, and neither. */
  mgDl: number
  mmol: number
  unmarked: number
  /** Values below what meters show in mg/dL, above what they show in mmol/L, and whole ones that fit both. */
  small: number
  large: number
  /** Of the large ones, those that a meter shows in mg/dL and that are no lows. */
  surelyMgDl: number
  between: number
  /** Values below the limit of very low ones in mmol/L. */
  veryLow: number
  /** Fractions among the values that can only be mg/dL, and above what meters show in mmol/L. */
  fractionsOfMgDl: number
  fractionsAboveMmol: number
}

function surveyUnits(table: RowTable, from: number, to: number): Survey {
  const survey: Survey = {
    mgDl: 0,
    mmol: 0,
    unmarked: 0,
    small: 0,
    large: 0,
    surelyMgDl: 0,
    between: 0,
    veryLow: 0,
    fractionsOfMgDl: 0,
    fractionsAboveMmol: 0,
  }
  /** Markers that name their unit: where there are no numbers, they tell it. */
  const markers = { mgDl: 0, mmol: 0 }
  for (let i = from; i < to; i++) {
    if (table.fates.reasonOf(i) !== null) continue
    const unit = table.unitOf(i)
    if (table.valueKind[i] === VALUE.above || table.valueKind[i] === VALUE.below) {
      if (unit !== null) markers[unit === 'mg/dL' ? 'mgDl' : 'mmol']++
    }
    if (table.valueKind[i] !== VALUE.number) continue
    const value = table.value[i]
    const isPossible = value >= POSSIBLE_MG_DL.least && value <= POSSIBLE_MG_DL.most
    if (unit === 'mg/dL') survey.mgDl++
    else if (unit === 'mmol/L') survey.mmol++
    else if (isPossible) survey.unmarked++
    // '1,200' among other forms is no small value but one with a separator.
    if (!isPossible || (table.decimals[i] === THOUSANDTHS && !table.hasThousandths(i))) continue
    if (value < LIMITS.veryLow.mmol) survey.veryLow++
    if (value < UNIT_TELLTALE.lowestMgDl) survey.small++
    else if (value > UNIT_TELLTALE.highestMmol) {
      survey.large++
      if (isSurelyMgDl(value)) survey.surelyMgDl++
      if (Number.isInteger(value)) continue
      survey.fractionsAboveMmol++
      if (unit !== 'mmol/L' || value > POSSIBLE_MMOL) survey.fractionsOfMgDl++
    } else if (Number.isInteger(value)) survey.between++
  }
  return survey.mgDl + survey.mmol + survey.unmarked > 0 ? survey : { ...survey, ...markers }
}
