import { FLAG, hasFlag } from '../log/readings'
import type { Analysis, PeriodFigures } from './analysis'

/**
 * Indexes of the readings that a period's figures are made of, in order of time: in a logbook with readings of
 * a sensor beside finger-sticks, the finger-sticks alone.
 */
export function periodReadings(analysis: Analysis, figures: PeriodFigures): readonly number[] {
  const indexes: number[] = []
  for (let i = figures.start; i < figures.end; i++) {
    if (figures.kind === 'sensor' || !hasFlag(analysis.readings, i, FLAG.sensor)) indexes.push(i)
  }
  return indexes
}
