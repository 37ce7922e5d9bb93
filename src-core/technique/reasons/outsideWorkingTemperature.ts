import { dayOf } from '../../units/wallClock'
import { temperatureIn } from '../notes/temperature'
import { stripsInUse } from './stripsInUse'
import type { ReasonDefinition } from './definition'

/** Meter or strips too cold or too hot. °C. */
export interface OutsideWorkingTemperature {
  readonly code: 'outside-working-temperature'
  readonly evidence: { readonly celsius: number; readonly lowest: number; readonly highest: number }
}

/** Temperatures at which most meters work, °C (common practice; the leaflet of each tells its own). */
const WORKING_CELSIUS = [10, 40] as const

/** A temperature told beside the reading at which its strips do not work. */
export const OUTSIDE_WORKING_TEMPERATURE: ReasonDefinition<OutsideWorkingTemperature> = {
  code: 'outside-working-temperature',
  standsAlone: true,
  mayFlagLow: true,
  faultOf: (evidence) => {
    const direction = sideOf(evidence)
    return { fault: direction, told: String(evidence.celsius), direction }
  },
  adviceOf: (evidence) => ({
    fits: { code: sideOf(evidence) === 'too-low' ? 'cold-meter' : 'hot-meter' },
    next: 'room-temperature',
  }),
  finder:
    ({ readings, equipment }) =>
    (index) => {
      const celsius = temperatureIn(readings.note(index))
      if (celsius === null) return null
      const vials = stripsInUse(equipment, readings.meter[index], dayOf(readings.at[index]))
      const [lowest, highest] =
        vials.find(({ workingCelsius }) => workingCelsius !== undefined)?.workingCelsius ?? WORKING_CELSIUS
      return celsius < lowest || celsius > highest
        ? { code: 'outside-working-temperature', evidence: { celsius, lowest, highest } }
        : null
    },
}

/** Some meters read too low in the cold and too high in the heat (common knowledge; the leaflet of each tells its own). */
function sideOf({ celsius, lowest }: OutsideWorkingTemperature['evidence']): 'too-low' | 'too-high' {
  return celsius < lowest ? 'too-low' : 'too-high'
}
