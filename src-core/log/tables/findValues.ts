import { MG_PER_DL_IN_ONE_MMOL_PER_L } from '../../units/glucose'
import { readGlucose } from '../glucoseCell'
import { mealMoment } from '../mealWords'
import { conceptsOf } from '../words/concepts'
import { isClockHeader } from '../words/headerRole'
import { plain } from '../words/plain'
import { type ColumnProfile, sameName } from './columnProfile'
import { findMoment, type MomentColumns } from './findMoment'
import type { TableColumn } from './tableColumn'

/** What is known of a table's columns of values. */
export type ValueColumns =
  /** One column of readings. */
  | { readonly kind: 'one'; readonly glucose: number; readonly others: readonly number[] }
  /** Several readings in a line: by meals or hours, or each with a time of its own. */
  | { readonly kind: 'several'; readonly glucose: readonly number[] }
  /** Nothing tells which it is; the likelier first. */
  | {
      readonly kind: 'open'
      readonly candidates: readonly number[]
      /** The columns among them that name a moment alone, beside some that say glucose. */
      readonly bare?: readonly number[]
      /** How many of the first may all hold readings; absent where only words can tell. */
      readonly together?: number
    }
  /** The table holds other measures. */
  | { readonly kind: 'none' }

/** So much better than the next must a column be to be taken without asking. */
const CLEAR = 1.6
/** Least evidence for a column to be read. */
const ENOUGH = 2.5
/** Home readings vary more than weights and pulses do: least coefficient of variation that speaks for glucose. */
const LEAST_SPREAD = 0.12

/** What else is known of the table whose values are looked for. */
export interface TableHints {
  /** Whether title or kinds say that it holds glucose. */
  readonly saysGlucose: boolean
  /** Whether a column of units names one of glucose. */
  readonly hasUnits: boolean
  /** Whether its rows have a time of day. */
  readonly hasTime: boolean
  readonly hasHeader: boolean
  /** Columns of date, time and kind. */
  readonly taken: readonly number[]
}

/** Finds the columns of readings by words and by what they hold. */
export function findValues(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  table: TableHints,
): ValueColumns {
  const named = columns.filter(({ named: byPerson, role }) => byPerson && role === 'glucose')
  if (named.length === 1) return { kind: 'one', glucose: named[0].index, others: [] }
  if (named.length > 1) return { kind: 'several', glucose: named.map(({ index }) => index) }
  const free = columns.filter(({ index }) => !table.taken.includes(index))
  const candidates = free
    .filter((column) => mayHoldReadings(column, profiles[column.index]))
    .map((column) => ({ column, score: scoreOf(column, profiles[column.index], table) }))
  const real = dropLaboratory(dropSensors(candidates.filter(({ column: { words } }) => words.glucose > 0)))
  const wide = diary(
    real.map(({ column }) => column),
    columns,
    profiles,
  )
  if (wide) {
    // A column of the same make with words of its own: its unit takes it in, without one it is asked about.
    const moments = [...(momentsOf(wide, columns, profiles)?.values() ?? [])]
    const theirs = moments.flatMap(({ date, time, minute, halfDay }) => [date, time, minute, halfDay])
    const [saying, bare] = [true, false].map((says) =>
      wide.filter((index) => saysGlucose(columns[index], profiles[index]) === says),
    )
    // Beside columns that say glucose, one that names a moment alone may be anything: the number of a bed, grams of a meal.
    const oneTime = table.hasTime && moments.length === 0 && !takeTurns(wide, profiles)
    const isOther = (index: number) =>
      oneTime ||
      saying.length > 1 ||
      saying.some((other) =>
        ` ${plain(columns[other].header)} `.includes(` ${plain(columns[index].header)} `),
      ) ||
      isUnlike(profiles[index], saying, profiles)
    if (saying.length > 0 && bare.some(isOther))
      return { kind: 'open', candidates: [...saying, ...bare], bare }
    const rest = candidates.filter(
      ({ column: { index } }) =>
        !wide.includes(index) && !theirs.includes(index) && profiles[index].filled > 0,
    )
    const alike = rest
      .filter(
        ({ column: { index, words } }) =>
          profiles[index].fitsGlucose && (words.unit || profiles[index].holdsUnits),
      )
      .map(({ column }) => column.index)
    const unknown = rest.filter(
      ({ column: { index, header } }) =>
        !alike.includes(index) &&
        (looksLikeGlucose(profiles[index]) || (header !== '' && mayBeGlucose(profiles[index]))),
    )
    // An hour among hours with numbers in it is left out of none.
    const hours = free.filter(
      ({ index, header, words }) =>
        isClockHeader(header) &&
        words.against === null &&
        profiles[index].numbers > 0 &&
        ![...wide, ...alike, ...theirs].includes(index),
    )
    // Rows that fill none of them and one other column with a number of their size have their reading there.
    const inTurn = free.filter(
      ({ index, words }) =>
        ![...wide, ...alike, ...theirs].includes(index) &&
        words.against === null &&
        profiles[index].holdsNumbers &&
        profiles[index].fitsGlucose &&
        takeTurns([...wide, index], profiles),
    )
    const left = [
      ...inTurn.map(({ index }) => index),
      ...unknown.map(({ column }) => column.index),
      ...hours.map(({ index }) => index),
    ]
    if (left.length > 0)
      return {
        kind: 'open',
        candidates: [...wide, ...new Set(left)],
        together: wide.length + inTurn.length,
      }
    // A meal or an hour of which the first rows hold nothing may hold a reading further down.
    const empty = free.filter(
      ({ index, header, words }) =>
        (words.moment || isClockHeader(header)) &&
        words.glucose > 0 &&
        words.against === null &&
        profiles[index].filled === 0 &&
        !wide.includes(index),
    )
    const all = new Set([...wide, ...alike, ...empty.map(({ index }) => index)])
    return { kind: 'several', glucose: [...all].sort((a, b) => a - b) }
  }
  const ranked = candidates
    .filter(({ column }) => real.some((one) => one.column === column) || column.words.glucose === 0)
    .sort(
      (a, b) =>
        b.score - a.score ||
        profiles[b.column.index].numbers - profiles[a.column.index].numbers ||
        a.column.index - b.column.index,
    )
  if (ranked.length === 0) return { kind: 'none' }
  const [best, next] = ranked
  const rivals = ranked.filter(({ score }) => best.score - score < CLEAR)
  const unnamed = candidates.find(
    ({ column }) =>
      column.header === '' &&
      column !== best.column &&
      table.hasHeader &&
      looksLikeGlucose(profiles[column.index]) &&
      holdsOthers(profiles[column.index], profiles[best.column.index]),
  )
  if (unnamed && best.column.header !== '')
    return { kind: 'open', candidates: [best.column.index, unnamed.column.index] }
  if (best.score >= ENOUGH) {
    // A word that nobody knows beside a unit may be another measure in it, unless many values look like glucose.
    if (isUnknownWord(best.column) && !looksLikeMany(profiles[best.column.index]))
      return { kind: 'open', candidates: rivals.map(({ column }) => column.index) }
    // A moment of the day alone does not tell it from a neighbour that may be glucose as well.
    const neighbours = ranked.filter(
      ({ column }) =>
        column !== best.column &&
        column.words.glucose < 2 &&
        (looksLikeGlucose(profiles[column.index]) || mayBeGlucose(profiles[column.index])),
    )
    const otherMoments = free.filter(
      ({ index, words }) =>
        index !== best.column.index && words.moment && words.against === null && profiles[index].numbers > 0,
    )
    if (best.column.words.moment && best.column.words.glucose === 1 && otherMoments.length > 0)
      return { kind: 'open', candidates: [best.column, ...otherMoments].map(({ index }) => index) }
    if (best.column.words.moment && best.column.words.glucose === 1 && neighbours.length > 0)
      return { kind: 'open', candidates: [best, ...neighbours].map(({ column }) => column.index) }
    const differing = rivals
      .slice(1)
      .filter(({ column }) => holdsOthers(profiles[column.index], profiles[best.column.index]))
    if (differing.length === 0) {
      return {
        kind: 'one',
        glucose: best.column.index,
        others: rivals.slice(1).map(({ column }) => column.index),
      }
    }
    const together = [best, ...differing].map(({ column }) => column).sort((a, b) => a.index - b.index)
    const indexes = together.map(({ index }) => index)
    // Every filled cell is a reading where the lines take turns, or where a line is a day and all say glucose.
    const sure = together.every(({ words }) => words.glucose === 3 || words.unit)
    const isDay = !table.hasTime && together.every(({ words }) => words.glucose === 3)
    if (sure && (takeTurns(indexes, profiles) || isDay)) return { kind: 'several', glucose: indexes }
    return { kind: 'open', candidates: [best, ...differing].map(({ column }) => column.index) }
  }
  // Without a word for it a column is read where it is the only one of numbers and varies as glucose does.
  const unknown = ranked.filter(({ score }) => score > -3)
  if (unknown.length === 0) return { kind: 'none' }
  const numeric = free.filter(
    ({ index, words }) =>
      words.against === null && profiles[index].holdsNumbers && !profiles[index].holdsDates,
  )
  const alone = next === undefined && numeric.length === 1
  // A header that nobody understands is asked about: numbers alone may be anything.
  if (alone && best.column.header === '' && looksLikeGlucose(profiles[best.column.index]))
    return { kind: 'one', glucose: best.column.index, others: [] }
  return { kind: 'open', candidates: unknown.map(({ column }) => column.index) }
}

function saysGlucose({ words }: TableColumn, profile: ColumnProfile): boolean {
  return words.glucose === 3 || words.unit || profile.holdsUnits
}

/** Sizes of readings at different moments differ by less; those of the two units by more. A design choice. */
const OTHER_SIZE = 4

/** Whether numbers do not lie as those of columns of glucose do: always the same, all whole beside tenths, of another size. */
function isUnlike(
  profile: ColumnProfile,
  others: readonly number[],
  profiles: readonly ColumnProfile[],
): boolean {
  if (profile.filled === 0) return false
  const filled = others.map((index) => profiles[index]).filter((other) => other.filled > 0)
  if (profile.isCounter || (profile.isConstant && profile.filled > 1)) return true
  return filled.some(
    (other) =>
      (profile.fractions === 0 &&
        profile.values.length > 1 &&
        other.fractions >= 0.5 * other.values.length) ||
      Math.max(profile.median / other.median, other.median / profile.median) > OTHER_SIZE,
  )
}

/** Whether no line fills more than one of the columns. */
export function takeTurns(indexes: readonly number[], profiles: readonly ColumnProfile[]): boolean {
  return profiles[indexes[0]].cells.every(
    (_, row) => indexes.filter((index) => profiles[index].cells[row] !== '').length <= 1,
  )
}

function mayHoldReadings({ role, words, named }: TableColumn, profile: ColumnProfile): boolean {
  if (named) return false
  if (words.against !== null || words.status) return false
  if (
    role !== 'glucose' &&
    role !== 'ignored' &&
    !(role === 'meal' && (words.glucose > 0 || mayBeGlucose(profile))) &&
    role !== 'kind' &&
    !(role === 'unit' && words.glucose > 0)
  )
    return false
  if (role === 'kind' && !profile.holdsNumbers) return false
  if (profile.holdsDates && profile.days + profile.moments > profile.numbers) return false
  if (profile.filled === 0) return role === 'glucose'
  if (role === 'glucose' && words.glucose === 3)
    return profile.numbers + profile.markers > 0 || profile.filled < 3
  return profile.numbers + profile.markers >= (words.moment ? 0.5 : 0.6) * profile.filled
}

/** So many values tell what they are by how they lie. A design choice. */
const ENOUGH_VALUES = 8

function isUnknownWord({ words }: TableColumn): boolean {
  return words.unit && words.glucose === 1 && !words.moment
}

function looksLikeMany(profile: ColumnProfile): boolean {
  return profile.values.length >= ENOUGH_VALUES && looksLikeGlucose(profile)
}

function scoreOf({ words, role }: TableColumn, profile: ColumnProfile, table: TableHints): number {
  let score = words.glucose === 3 ? 6.5 : words.glucose === 2 ? 3.5 : words.glucose === 1 ? 2 : 0
  if (words.unit && words.glucose < 3) score += 1
  if (table.hasUnits && words.glucose < 3) score += 1
  if (table.saysGlucose && words.glucose < 3) score += 2
  if (role === 'kind') score -= 3
  if (profile.filled === 0) return score - 3
  if (!profile.fitsGlucose) score -= words.glucose === 3 ? 1 : 5
  if (words.glucose < 3 && profile.isCounter) score -= 5
  if (profile.isConstant && profile.filled > 3) score -= words.glucose === 3 ? 1.5 : 3
  if (words.glucose < 3 && profile.values.length >= 6 && profile.spread < LEAST_SPREAD)
    score -= words.glucose === 2 ? 1.5 : 3
  if (words.sensor) score -= 2
  return score
}

/** Where a column says finger-stick, one of the laboratory's or of venous blood is none of its readings. */
function dropLaboratory<C extends { readonly column: TableColumn }>(candidates: readonly C[]): readonly C[] {
  const names = candidates.map(({ column }) => plain(column.header))
  if (!names.some((name) => FINGER.test(name))) return candidates
  return candidates.filter((_, i) => FINGER.test(names[i]) || !LABORATORY.test(names[i]))
}
const FINGER =
  /finger|capillar|kapillar|capilar|doigt|dedo|dito|vinger|sormi|palec|ujj|parmak|δαχτυλ|палец|пальц|指/
const LABORATORY =
  /(^| )(lab|labor\p{L}*|plasma\p{L}*|venous|venos\p{L}*|venoso|veineux|veneus|serum|suero|siero|laskimo\p{L}*|zyln\p{L}*|zilni|венозн\p{L}*)( |$)|検査室|静脈|静脉|血浆|血漿/u

function dropSensors<T extends { readonly column: TableColumn }>(candidates: readonly T[]): readonly T[] {
  const strong = candidates.filter(({ column }) => column.words.glucose === 3)
  const fingerSticks = strong.filter(({ column }) => !column.words.sensor)
  return fingerSticks.length > 0 ? candidates.filter(({ column }) => !column.words.sensor) : candidates
}

/** Fewest columns named by moments for a table to be one line a day. */
const FEWEST_MOMENTS = 2

/** Whether a header is another's with more words that name no moment: 'Dose before lunch' beside 'Before lunch'. */
function saysMore(column: TableColumn, other: TableColumn): boolean {
  const [text, part] = [plain(column.header), plain(other.header)]
  if (column.words.glucose >= 2 || part === '' || text === part || !` ${text} `.includes(` ${part} `))
    return false
  const more = ` ${text} `.replace(` ${part} `, ' ').trim()
  return mealMoment(more) === null && !conceptsOf(more).has('partOfDay')
}

/** Columns that are each a meal, an hour or a test with a time of its own; null where it is no such table. */
function diary(
  candidates: readonly TableColumn[],
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
): readonly number[] | null {
  const filled = candidates.filter(({ index }) => profiles[index].filled > 0)
  const atMoments = candidates.filter((column) => column.words.moment || isClockHeader(column.header))
  const moments = atMoments.filter((column) => !atMoments.some((other) => saysMore(column, other)))
  if (
    moments.length >= FEWEST_MOMENTS &&
    moments.length >= candidates.filter(({ words }) => words.glucose !== 2).length
  ) {
    if (moments.every(({ index }) => profiles[index].filled === 0 || profiles[index].fitsGlucose))
      return moments.map(({ index }) => index)
  }
  // A test with a time of its own of which the first rows hold nothing may hold readings further down.
  const empty = candidates.filter(
    (column) =>
      column.words.glucose === 3 &&
      profiles[column.index].filled === 0 &&
      filled.length > 0 &&
      sameName(column.header, filled[0].header),
  )
  const all = [...filled, ...empty].map(({ index }) => index).sort((a, b) => a - b)
  if (all.length > filled.length && momentsOf(all, columns, profiles) !== null) return all
  const indexes = filled.map(({ index }) => index)
  if (filled.length >= FEWEST_MOMENTS && momentsOf(indexes, columns, profiles) !== null) return indexes
  return null
}

/** The columns of date and time that belong to each of several columns of values; null where not each has its own. */
export function momentsOf(
  values: readonly number[],
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
): ReadonlyMap<number, MomentColumns> | null {
  if (!areAlike(values.map((index) => columns[index]))) return null
  const before = momentsBeside(values, columns, profiles, -1)
  const behind = momentsBeside(values, columns, profiles, 1)
  const timed = (found: typeof before): boolean =>
    found !== null &&
    [...found].every(([index, moment]) => profiles[index].filled === 0 || hasTime(moment, profiles))
  return timed(before) || !timed(behind) ? (before ?? behind) : behind
}

/** Whether columns are headed alike, or each by a moment of the day, or all are glucose by their words or a person's. */
function areAlike(columns: readonly TableColumn[]): boolean {
  return (
    columns.every(({ header }) => sameName(header, columns[0].header)) ||
    columns.every(({ header, words }) => words.moment || isClockHeader(header)) ||
    columns.every(({ named, words }) => named || words.glucose === 3)
  )
}

function hasTime({ date, time }: MomentColumns, profiles: readonly ColumnProfile[]): boolean {
  return time !== null || (date !== null && profiles[date].holdsMoments)
}

/** The same in the columns on one side of each value: -1 before it, 1 behind it; all or none must have a time. */
function momentsBeside(
  values: readonly number[],
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  side: -1 | 1,
): ReadonlyMap<number, MomentColumns> | null {
  const sorted = [...values].sort((a, b) => a - b)
  const found = new Map<number, MomentColumns>()
  for (const [at, index] of sorted.entries()) {
    const [from, to] =
      side < 0 ? [at === 0 ? -1 : sorted[at - 1], index] : [index, sorted.at(at + 1) ?? columns.length]
    const block = columns
      .slice(from + 1, to)
      .filter(({ index, words }) => words.against === null || profiles[index].holdsDates)
    const moment =
      profiles[index].filled === 0 ? emptyMoment(block, profiles) : findMoment(block, columns, profiles, true)
    if (moment === null || (moment.date === null && moment.time === null)) return null
    found.set(index, moment)
  }
  const ofFilled = [...found].filter(([index]) => profiles[index].filled > 0)
  const timed = ofFilled.filter(([, moment]) => hasTime(moment, profiles)).length
  return timed === 0 || timed === ofFilled.length ? found : null
}

/** The time, or else the day, of a test that the rows looked at leave out, by the names of its columns alone. */
function emptyMoment(
  block: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
): MomentColumns | null {
  const find = (...roles: readonly TableColumn['role'][]): number | null =>
    block.find(({ index, role }) => roles.includes(role) && profiles[index].filled === 0)?.index ?? null
  const time = find('time')
  const date = find('date', 'timestamp')
  if (time === null && date === null) return null
  return { date, time, minute: null, halfDay: null, dotClock: false, rivalTime: null, rival: null }
}

/** Rounding in either unit moves the ratio of two units by less than this. */
const RATIO_TOLERANCE = 0.05

/** Whether any row has a reading in one column that is not the other's, in its unit or the other. */
export function holdsOthers(profile: ColumnProfile, other: ColumnProfile): boolean {
  return profile.cells.some((cell, i) => {
    const here = readGlucose(cell)
    const there = readGlucose(other.cells[i] ?? '')
    if (here.kind === 'marker') return there.kind !== 'marker' || there.side !== here.side
    if (here.kind !== 'number') return false
    if (there.kind !== 'number') return true
    const ratio = Math.max(here.value, there.value) / Math.min(here.value, there.value)
    return here.value !== there.value && Math.abs(ratio / MG_PER_DL_IN_ONE_MMOL_PER_L - 1) >= RATIO_TOLERANCE
  })
}

/** Whether nothing about a column of numbers speaks against glucose. */
function mayBeGlucose(profile: ColumnProfile): boolean {
  const { values, holdsNumbers, fitsGlucose: fits, isCounter, isConstant, spread } = profile
  if (!holdsNumbers || !fits || isCounter || isConstant) return false
  return values.length < ENOUGH_VALUES || spread >= LEAST_SPREAD
}

/** Whether numbers without a word for them vary and lie as home readings of glucose do. A design choice. */
export function looksLikeGlucose(profile: ColumnProfile): boolean {
  const { values, median, fractions } = profile
  if (!profile.fitsGlucose || profile.isCounter || profile.isConstant) return false
  const isMgDl = median >= 70 && median <= 350
  const isMmol = median >= 3.5 && median <= 20 && fractions >= 0.5 * values.length
  if (!isMgDl && !isMmol) return false
  return values.length < 4 ? profile.markers > 0 || isMgDl || isMmol : profile.spread >= LEAST_SPREAD
}
