import type { PeriodFigures } from '../../analysis/analysis'
import type { Summary } from '../../statistics/summary'
import { a1cText } from './numbers'

// Words made for sensors: shares of time and the indicator may be said of a sensor's readings alone.

/** The name of the share in target: finger-sticks are counted, a sensor's readings stand for time. */
export function inTargetLabel(kind: PeriodFigures['kind'], target: string): string {
  return kind === 'sensor' ? `Time in range ${target}` : `Readings ${target}`
}

/** The same with its percentage within a sentence. */
export function inTargetPhrase(kind: PeriodFigures['kind'], target: string, percent: string): string {
  return kind === 'sensor'
    ? `time in range ${target} ${percent} %`
    : `${percent} % of readings from ${target}`
}

/** 'glucose management indicator 7.1 %', null for finger-sticks. */
export function indicatorNote({ gmiPercent }: Summary): string | null {
  return typeof gmiPercent === 'number' ? `glucose management indicator ${a1cText(gmiPercent)} %` : null
}

/** In place of how far the readings can be trusted. */
export const SENSOR_NOT_JUDGED =
  'Sensor readings are not judged: what is said here about doubt is for finger-sticks only.'

/** How the indicator is computed, for the page on method. */
export const INDICATOR_DEFINITION = {
  figure: 'Glucose management indicator',
  how: 'In percent: 3.31 + 0.02392 × mean in mg/dL. For sensors only.',
  source: 'Bergenstal et al., Diabetes Care 2018;41:2275',
} as const
