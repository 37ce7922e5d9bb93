import type { Readings } from '../../log/readings'
import type { GlucoseUnit } from '../../units/glucose'
import type { NoteTelling } from '../notes/classes'

/** What is told of a vial of strips; dates are ISO days. */
export interface StripsTold {
  readonly vial?: string
  readonly lot?: string
  /** Left out, all meters. */
  readonly meter?: string
  readonly expires?: string
  readonly opened?: string
  readonly finished?: string
  readonly daysOnceOpen?: number
  /** Lowest and highest temperature of use, °C. */
  readonly workingCelsius?: readonly [number, number]
}

/** What is told of a test with control solution. */
export interface ControlTold {
  readonly date: string
  readonly vial?: string
  /** Left out, all meters. */
  readonly meter?: string
  readonly result: number
  readonly range: readonly [number, number]
  readonly unit: GlucoseUnit
}

/** What is known of the measuring besides the log. */
export interface EquipmentTold {
  readonly strips: readonly StripsTold[]
  readonly controls: readonly ControlTold[]
  /** Whether what was told of the meter named, or of none, holds for a meter of `Readings.meters`. */
  readonly isOfMeter: (told: string | undefined, meter: number) => boolean
}

export const NO_EQUIPMENT: EquipmentTold = { strips: [], controls: [], isOfMeter: () => true }

/** Where each reading was to be expected by the others, mg/dL; NaN where they tell nothing. */
export interface ExpectedRange {
  readonly low: Float64Array
  readonly high: Float64Array
}

/** All that the reasons look at. */
export interface Evidence {
  readonly readings: Readings
  /** `chronologicalOrder(readings)`. */
  readonly order: Uint32Array
  readonly repeatSets: readonly (readonly number[])[]
  readonly telling: (index: number) => NoteTelling
  readonly expected: ExpectedRange | null
  readonly equipment: EquipmentTold
}
