import type { Readings } from '../log/readings'
import { isTyped } from '../log/typedByHand'

/** Behind a reading that a person typed; '' behind any other. */
export function typedMark(readings: Readings, index: number): string {
  return isTyped(readings, index) ? ' (typed)' : ''
}
