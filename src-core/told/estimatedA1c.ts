import type { PeriodFigures } from '../analysis/analysis'
import { FEWEST_READINGS } from '../statistics/heldBack'
import { A1C_DAYS, FEWEST_A1C_DAYS, isOutsideTable, type LatestA1c } from '../statistics/latestA1c'
import { onlyPartOfDay } from './coverage'
import type { Held } from './measures'

/** The A1C estimated from the latest days, as it may be told. */
export interface ToldA1c extends Pick<
  LatestA1c,
  'from' | 'to' | 'daysWithReadings' | 'meanMgDl' | 'estimate'
> {
  readonly heldBack: Held | null
  /** Whether the published table holds neither limit. */
  readonly outsideTable: boolean
}

/** A period's estimate. */
export interface PeriodA1c extends ToldA1c {
  /** Whether its days are all those of the period, and not its latest. */
  readonly ofAllDays: boolean
}

export function toldA1c(latest: LatestA1c): ToldA1c {
  return { ...latest, heldBack: heldOf(latest), outsideTable: isOutsideTable(latest) }
}

/** A period's; HI left out as doubtful are no reason to show an estimate that all of them would not give. */
export function periodA1c(period: PeriodFigures, which: 'asLogged' | 'checked' = 'asLogged'): PeriodA1c {
  const { latestA1c } = period
  const { asLogged } = latestA1c
  const hours = onlyPartOfDay(period)
  const latest = asLogged.heldBack === 'markers' ? { ...asLogged, estimate: null } : latestA1c[which]
  const told = { ...toldA1c(latest), ofAllDays: latest.from === period.from }
  if (hours === null || told.heldBack !== null) return told
  return { ...told, estimate: null, heldBack: { why: 'few-hours', hours }, outsideTable: false }
}

function heldOf(latest: LatestA1c): Held | null {
  switch (latest.heldBack) {
    case null:
      return null
    case 'markers':
      return { why: 'markers', of: latest }
    case 'few-readings':
      return { why: 'few-readings', fewest: FEWEST_READINGS }
    case 'few-days':
      return { why: 'few-days', fewest: FEWEST_A1C_DAYS, within: A1C_DAYS }
    case 'pregnancy':
      return { why: 'pregnancy' }
  }
}
