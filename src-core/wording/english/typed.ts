import type { Readings } from '../../log/readings'
import { isTyped } from '../../log/typedByHand'

/** In place of a log's name where readings were typed. */
export const TYPED_NAME = 'typed by hand'

/** Behind a reading that a person typed; '' behind any other. */
export function typedMark(readings: Readings, index: number): string {
  return isTyped(readings, index) ? ' (typed)' : ''
}
