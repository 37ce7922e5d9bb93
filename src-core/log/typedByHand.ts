import { FLAG, hasFlag, type Readings } from './readings'

/**
 * What files give as the meter of a typed reading: visits, the JSON and the table of readings. A code of these formats,
 * the same in every language; `FLAG.typed` tells that a reading was typed, never this name.
 */
export const TYPED_METER = 'typed by hand'

/** Whether a person typed this reading: it is marked so wherever it stands alone. */
export function isTyped(readings: Readings, index: number): boolean {
  return hasFlag(readings, index, FLAG.typed)
}
