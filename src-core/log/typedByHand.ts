import type { Readings } from './readings'

/** In place of a log's and a meter's name: what a person typed comes from no meter. */
export const TYPED_BY_HAND = 'typed by hand'

/** Whether a person typed this reading: it is marked so wherever it stands alone. */
export function isTyped({ meters, meter }: Readings, index: number): boolean {
  return meters[meter[index]] === TYPED_BY_HAND
}
