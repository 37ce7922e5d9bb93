import type { Readings } from '../../log/readings'
import { dayOf } from '../../units/wallClock'
import { temperatureIn } from '../notes/temperature'
import type { OutsideWorkingTemperature } from '../technique'
import { type EquipmentTold } from './evidence'
import { stripsInUse } from './stripsInUse'

/** Temperatures at which most meters work, °C (common practice; the leaflet of each tells its own). */
const WORKING_CELSIUS = [10, 40] as const

/** A temperature told beside the reading at which its strips do not work. */
export function outsideWorkingTemperature(
  readings: Readings,
  equipment: EquipmentTold,
  index: number,
): OutsideWorkingTemperature | null {
  const celsius = temperatureIn(readings.note(index))
  if (celsius === null) return null
  const vials = stripsInUse(equipment, readings.meter[index], dayOf(readings.at[index]))
  const [lowest, highest] =
    vials.find(({ workingCelsius }) => workingCelsius !== undefined)?.workingCelsius ?? WORKING_CELSIUS
  return celsius < lowest || celsius > highest
    ? { code: 'outside-working-temperature', evidence: { celsius, lowest, highest } }
    : null
}
