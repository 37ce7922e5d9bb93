import type { Analysis } from '../../../src-core/analysis/analysis'
import type { GlucoseUnit } from '../../../src-core/units/glucose'
import { mgDlToMmol } from '../../../src-core/units/glucose'
import { analysisOf, fixedChance, type FixtureReading } from '../../helpers/analysisFixture'

export interface CrowdedLog {
  readonly readings: number
  readonly lows: number
  readonly unit?: GlucoseUnit
  /** Adds three HI and two LO; the LO count among the lows. */
  readonly markers?: boolean
  /** Tests a day; few of them stretch a log over years, so that dates carry their year. */
  readonly perDay?: number
  /** All lows within an hour of this hour of the day, instead of anywhere. */
  readonly lowsAtHour?: number
  /** Share of tests that come right after another and read twice as high. */
  readonly contradicted?: number
  readonly seed?: number
}

const HOURS = [6.8, 9.5, 12.3, 15.1, 18.4, 22.2]

/** An invented log with exactly so many readings, of which exactly so many are low. */
export function crowdedLog(log: CrowdedLog): readonly FixtureReading[] {
  const { readings, lows, unit = 'mg/dL', markers = false, perDay = 6, contradicted = 0.02, seed = 7 } = log
  const chance = fixedChance(seed)
  const value = (mgDl: number) => (unit === 'mg/dL' ? Math.round(mgDl) : Number(mgDlToMmol(mgDl).toFixed(1)))
  const isLow = evenly(lows, readings)
  const rows: FixtureReading[] = []
  let again: { day: number; minute: number; mgDl: number } | null = null
  while (rows.length < readings) {
    const i = rows.length
    const day = Math.floor(i / perDay)
    if (isLow.has(i)) {
      const hour = log.lowsAtHour ?? 24 * chance()
      const mgDl = 45 + 20 * chance()
      rows.push({ at: moment(day, 60 * hour + 50 * chance()), value: value(mgDl) })
    } else if (again !== null && again.day === day) {
      rows.push({ at: moment(day, again.minute + 3), value: value(again.mgDl) })
      again = null
    } else {
      const minute = 60 * (HOURS[i % HOURS.length] + 0.8 * (chance() - 0.5))
      const mgDl = 85 + 130 * chance() * chance()
      const wrong = chance() < contradicted
      rows.push({ at: moment(day, minute), value: value(wrong ? 2 * mgDl : mgDl) })
      if (wrong) again = { day, minute, mgDl }
    }
  }
  if (markers) {
    const lowRows = [...isLow].slice(0, 2)
    lowRows.forEach((i) => (rows[i] = { ...rows[i], value: 'LO' }))
    rows
      .flatMap((_, i) => (isLow.has(i) ? [] : [i]))
      .slice(0, 3)
      .forEach((i) => (rows[i] = { ...rows[i], value: 'HI' }))
  }
  return rows
}

const made = new Map<string, Analysis>()

/** Made once for each log. */
export function crowdedAnalysis(log: CrowdedLog): Analysis {
  const key = JSON.stringify(log)
  const analysis = made.get(key) ?? analysisOf(crowdedLog(log), { unit: log.unit ?? 'mg/dL' })
  made.set(key, analysis)
  return analysis
}

/** `count` positions from 0 to `n` - 1, as even as they can be. */
function evenly(count: number, n: number): ReadonlySet<number> {
  return new Set(Array.from({ length: count }, (_, i) => Math.floor(((i + 0.5) * n) / count)))
}

function moment(day: number, minute: number): string {
  const inDay = Math.min(1439, Math.max(0, Math.round(minute)))
  const date = new Date(Date.UTC(2024, 0, 1) + day * 86_400_000 + inDay * 60_000).toISOString()
  return `${date.slice(0, 10)} ${date.slice(11, 16)}`
}
