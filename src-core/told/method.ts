import type { PeriodFigures } from '../analysis/analysis'

/** What is defined on the page on method, in this order. */
const DEFINITIONS = [
  'lows',
  'sensor-episodes',
  'mean',
  'balanced',
  'median',
  'known-to',
  'bar',
  'target',
  'estimated-a1c',
  'indicator',
  'markers',
  'repeats',
  'two-tests',
  'doubtful',
  'meters',
  'trials',
  'left-out',
  'meals',
  'thin-line',
  'change',
  'findings',
  'next-month',
  'night',
  'units',
] as const
export type DefinitionCode = (typeof DEFINITIONS)[number]
const OF_SENSORS: readonly DefinitionCode[] = ['sensor-episodes', 'indicator']

/** Episodes by minutes and the indicator are a sensor's alone. */
export function definitionsTold(kind: PeriodFigures['kind']): readonly DefinitionCode[] {
  return DEFINITIONS.filter((code) => kind === 'sensor' || !OF_SENSORS.includes(code))
}

/** What the pages cannot tell. */
export type Caution =
  | 'no-diagnosis'
  | 'moments-chosen'
  | 'targets-of-sensors'
  | 'a1c-estimated'
  | 'a1c-of-laboratory'
  | 'trust-symptoms'

/** A sensor measures all the time, and published targets in percent are made for it. */
export function cautionsTold(kind: PeriodFigures['kind']): readonly Caution[] {
  const ofFingerSticks = kind === 'sensor' ? [] : (['moments-chosen', 'targets-of-sensors'] as const)
  return ['no-diagnosis', ...ofFingerSticks, 'a1c-estimated', 'a1c-of-laboratory', 'trust-symptoms']
}
