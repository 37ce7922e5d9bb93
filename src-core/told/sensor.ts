import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { tellsOfHelp } from '../day/helpWords'
import { type SensorEpisode, sensorLows, type SensorTime, sensorTime } from '../day/sensorLows'
import { chronologicalOrder } from '../technique/chronology'
import { SENSOR_EPISODE_MINUTES } from '../reference/sensor'
import type { LowRemark } from './lows'

/** An episode with what its notes say. */
export interface SensorEpisodeTold extends SensorEpisode {
  /** Index of its first low with a note; null without one. */
  readonly noted: number | null
  /** Whether a note tells that somebody helped. */
  readonly helped: boolean
}

/** What is told of the lows of a sensor. */
export interface SensorLowsTold {
  /** Readings below 70 mg/dL and below 54. */
  readonly below70: number
  readonly below54: number
  /** Null where readings come too seldom to tell 15 minutes. */
  readonly episodes: readonly SensorEpisodeTold[] | null
  /** Episodes with 15 minutes below 54 mg/dL. */
  readonly veryLow: number
  /** Lows of no episode: they count among the readings all the same. */
  readonly lowsInNone: number
  /** For each week of the time covered; null of less than one. */
  readonly perWeek: number | null
  readonly fewestMinutes: number
}

/** What is told of the log of a sensor and of no other. */
export interface SensorTold {
  readonly lows: SensorLowsTold
  /** Null of too few readings with a time. */
  readonly time: SensorTime | null
}

const DAYS_A_WEEK = 7

/** Null of finger-sticks. */
export function sensorTold(analysis: Analysis, figures: PeriodFigures): SensorTold | null {
  if (figures.kind !== 'sensor') return null
  const { readings } = analysis
  const { start, end, days } = figures
  const { readingsBelow70, readingsBelow54 } = figures.lows
  const query = { readings, order: chronologicalOrder(readings), start, end }
  const time = sensorTime(query, days)
  const weeksCovered = (days * (time?.coveredPercent ?? 100)) / 100 / DAYS_A_WEEK
  const found = sensorLows(query)
  const episodes = found?.episodes.map((episode) => {
    const noted = episode.lows.filter((index) => readings.note(index) !== '')
    return {
      ...episode,
      noted: noted.at(0) ?? null,
      helped: noted.some((index) => tellsOfHelp(readings.note(index))),
    }
  })
  return {
    lows: {
      below70: readingsBelow70,
      below54: readingsBelow54,
      episodes: episodes ?? null,
      veryLow: episodes?.filter(({ veryLow }) => veryLow).length ?? 0,
      lowsInNone: found?.lowsInNone ?? readingsBelow70,
      perWeek: episodes === undefined || weeksCovered < 1 ? null : episodes.length / weeksCovered,
      fewestMinutes: SENSOR_EPISODE_MINUTES,
    },
    time,
  }
}

/** What of the remarks on lows holds for a sensor too: no next test is waited for, and no meter's standard is its own. */
export const SAID_OF_SENSORS: readonly LowRemark['code'][] = [
  'nights',
  'no-times',
  'not-counted',
  'own-readings',
  'below-meters',
]
