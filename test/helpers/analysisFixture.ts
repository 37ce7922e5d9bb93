import type { Decision } from '../../src-core/model/decision'
import type { Kit } from '../../src-core/kit/kit'
import { analyse } from '../../src-core/analysis/analyse'
import type { Analysis } from '../../src-core/analysis/analysis'
import { DEFAULT_SETTINGS, type Settings } from '../../src-core/model/settings'
import type { LogReport } from '../../src-core/log/logReport'
import { type DaySpan, FLAG, ReadingsBuilder } from '../../src-core/log/readings'
import { MEASURING_RANGE_MG_DL } from '../../src-core/reference/meter'
import { fromMgDl, type GlucoseUnit } from '../../src-core/units/glucose'
import { roundHalfAway } from '../../src-core/units/rounding'
import { dayOf, parseIsoDay, SECONDS_PER_DAY } from '../../src-core/units/wallClock'

/** One invented reading: `at` is 'YYYY-MM-DD HH:MM', or a day alone; the value a number, 'LO' or 'HI'. */
export interface FixtureReading {
  readonly at: string
  readonly value: number | 'LO' | 'HI'
  readonly meter?: string
  readonly meal?: string
  readonly note?: string
  readonly source?: number
  readonly sensor?: boolean
}

export interface FixtureOptions {
  /** Unit in which the log was written. */
  readonly unit?: GlucoseUnit
  readonly settings?: Partial<Settings>
  readonly period?: DaySpan
  readonly kit?: Kit
  readonly decisions?: readonly Decision[]
  readonly versus?: DaySpan
  readonly sources?: readonly Partial<LogReport>[]
}

/** The analysis of invented readings. Lines are numbered from 2, in the order given. */
export function analysisOf(rows: readonly FixtureReading[], options: FixtureOptions = {}): Analysis {
  const unit = options.unit ?? 'mg/dL'
  const builder = new ReadingsBuilder()
  rows.forEach((row, i) => {
    const [dayText, time] = row.at.split(' ')
    const day = parseIsoDay(dayText)
    if (day === null) throw new Error(`no such day: ${dayText}`)
    const [hours, minutes] = (time ?? '0:0').split(':').map(Number)
    builder.add({
      at: day * SECONDS_PER_DAY + hours * 3600 + minutes * 60,
      logged: loggedValue(row.value, unit),
      unit,
      flags:
        (time === undefined ? FLAG.dayOnly : 0) |
        (row.sensor ? FLAG.sensor : 0) |
        (row.value === 'LO' ? FLAG.belowRange : row.value === 'HI' ? FLAG.aboveRange : 0),
      source: row.source ?? 0,
      line: i + 2,
      offsetMinutes: 0,
      meter: row.meter ?? 'meter A',
      meal: row.meal ?? '',
      note: row.note ?? '',
    })
  })
  const readings = builder.build()
  const whole = { from: dayOf(readings.at[0]), to: dayOf(readings.at[readings.n - 1]) }
  return analyse({
    sources: (options.sources ?? [{}]).map((source, i) => ({ ...logReport(i, rows, unit), ...source })),
    readings,
    duplicatesAcrossLogs: 0,
    entries: [],
    kit: options.kit ?? {},
    decisions: options.decisions ?? [],
    settings: { ...DEFAULT_SETTINGS, unit, ...options.settings },
    periods: [options.period ?? whole, ...(options.versus ? [options.versus] : [])],
  })
}

function loggedValue(value: FixtureReading['value'], unit: GlucoseUnit): number {
  if (value === 'LO') return fromMgDl(MEASURING_RANGE_MG_DL.lowest, unit)
  if (value === 'HI') return fromMgDl(MEASURING_RANGE_MG_DL.highest, unit)
  return value
}

function logReport(source: number, rows: readonly FixtureReading[], unit: GlucoseUnit): LogReport {
  const n = rows.filter((row) => (row.source ?? 0) === source).length
  return {
    name: `patient-4711-export-${source + 1}.csv`,
    sha256: `${source + 1}f3a91c2d4e5b607`.repeat(4),
    bytes: 24_000,
    encoding: 'utf-8',
    delimiter: ',',
    headerLine: 1,
    columns: [],
    tables: [],
    notUsed: [],
    unit: { value: unit, basis: 'header' },
    dateOrder: { value: 'ymd', basis: 'form' },
    rows: { total: n, accepted: n, setAside: 0 },
    setAside: [],
    notes: [],
  }
}

/** Numbers from 0 to 1 that are the same at every run (a linear congruential generator). */
export function fixedChance(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296
    return state / 4_294_967_296
  }
}

export interface InventedLog {
  readonly days: number
  readonly firstDay?: string
  readonly unit?: GlucoseUnit
  readonly seed?: number
  /** Chance that a test is followed by a repeat, and that the first of both reads far too high. */
  readonly repeats?: number
  readonly wrong?: number
  /** Centre of the readings, mg/dL, and their spread on a log scale. */
  readonly centre?: number
  readonly spread?: number
}

/** An invented log of finger-sticks: about five tests a day, some of them repeated. */
export function inventedLog(options: InventedLog): readonly FixtureReading[] {
  const { days, firstDay = '2026-03-02', unit = 'mg/dL', seed = 1 } = options
  const { repeats = 0.06, wrong = 0.15, centre = 142, spread = 0.26 } = options
  const chance = fixedChance(seed)
  const normal = () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
  const first = parseIsoDay(firstDay) ?? 0
  const rows: FixtureReading[] = []
  const meals = ['before breakfast', 'after breakfast', 'before lunch', 'before dinner', 'bedtime']
  const hours = [7.2, 9.6, 12.4, 18.3, 22.1]
  for (let day = first; day < first + days; day++) {
    hours.forEach((hour, i) => {
      if (chance() < 0.06) return
      const minute = Math.min(1430, Math.max(0, Math.round((hour + 0.5 * normal()) * 60)))
      const mgDl = Math.max(31, centre * Math.exp(spread * normal()))
      const push = (value: number, at: number) =>
        rows.push({ at: momentOf(day, at), value: inUnit(value, unit), meal: meals[i] })
      if (chance() >= repeats) {
        push(mgDl, minute)
      } else {
        push(chance() < wrong ? mgDl * (1.5 + chance()) : mgDl * Math.exp(0.04 * normal()), minute)
        push(mgDl * Math.exp(0.04 * normal()), minute + 3)
      }
    })
  }
  return rows
}

function inUnit(mgDl: number, unit: GlucoseUnit): number {
  return roundHalfAway(fromMgDl(mgDl, unit), unit === 'mg/dL' ? 0 : 1)
}

function momentOf(day: number, minuteOfDay: number): string {
  const date = new Date(day * SECONDS_PER_DAY * 1000 + minuteOfDay * 60_000).toISOString()
  return `${date.slice(0, 10)} ${date.slice(11, 16)}`
}
