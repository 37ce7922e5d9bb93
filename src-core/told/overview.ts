import type { Analysis } from '../analysis/analysis'
import type { GlucoseUnit } from '../units/glucose'
import { type DayNumber, dayOf } from '../units/wallClock'
import type { Finding } from '../findings/finding'
import { doubtfulIn } from './doubts'
import { periodA1c, type PeriodA1c } from './estimatedA1c'
import { type Measure, periodMeasure } from './measures'
import { nightsWithLows } from './nights'

export type FindingCode = Finding['code']

/** What is told at a glance of one log among many: plain data. */
export interface Overview {
  readonly kind: 'finger-stick' | 'sensor'
  readonly unit: GlucoseUnit
  readonly from: DayNumber
  readonly to: DayNumber
  readonly days: number
  readonly daysWithReadings: number
  readonly n: number
  /** Last day with a reading. */
  readonly lastDay: DayNumber
  /** Null where lows have a day alone: then which belong together is not known. */
  readonly episodes: number | null
  readonly readingsBelow70: number
  readonly readingsBelow54: number
  readonly nights: { readonly tested: number; readonly withLows: number; readonly of: number }
  readonly above250: Measure
  readonly mean: Measure
  readonly cv: Measure
  readonly a1c: PeriodA1c
  /** Readings of the period that are doubtful. */
  readonly doubtful: number
  /** Codes of what stands out, in the order of harm. */
  readonly findings: readonly FindingCode[]
}

/** A log of a folder: its figures, or why it has no report. */
export interface OverviewRow {
  readonly log: string
  /** The report's file; '' where none was made. */
  readonly report: string
  readonly state: 'made' | 'asks-or-refused' | 'not-written'
  readonly overview: Overview | null
  readonly why: string
}

export function overviewOf(analysis: Analysis): Overview {
  const { readings, settings, periods } = analysis
  const [figures] = periods
  const { kind, from, to, days, daysWithReadings, lows, asLogged } = figures
  let lastDay = from
  for (let i = figures.start; i < figures.end; i++) {
    lastDay = Math.max(lastDay, dayOf(readings.at[i]))
  }
  return {
    ...{ kind, unit: settings.unit, from, to, days, daysWithReadings, n: asLogged.n, lastDay },
    episodes: lows.episodes.length === 0 && lows.readingsBelow70 > 0 ? null : lows.episodes.length,
    readingsBelow70: lows.readingsBelow70,
    readingsBelow54: lows.readingsBelow54,
    nights: { tested: lows.nightsTested, withLows: nightsWithLows(readings, lows), of: lows.nights },
    above250: periodMeasure('percentAbove250', figures),
    mean: periodMeasure('meanMgDl', figures),
    cv: periodMeasure('cvPercent', figures),
    a1c: periodA1c(figures),
    doubtful: doubtfulIn(analysis, figures).length,
    findings: figures.findings.map(({ code }) => code),
  }
}

/**
 * Logs in the order in which to look at them: more very low readings, more episodes of lows, more lows, then by name; those
 * without figures last. No score.
 */
export function byLows(rows: readonly OverviewRow[]): readonly OverviewRow[] {
  return rows.toSorted((one, other) => {
    if (one.overview === null || other.overview === null)
      return Number(one.overview === null) - Number(other.overview === null) || byName(one, other)
    return (
      other.overview.readingsBelow54 - one.overview.readingsBelow54 ||
      (other.overview.episodes ?? 0) - (one.overview.episodes ?? 0) ||
      other.overview.readingsBelow70 - one.overview.readingsBelow70 ||
      byName(one, other)
    )
  })
}

function byName(one: OverviewRow, other: OverviewRow): number {
  return one.log < other.log ? -1 : 1
}
