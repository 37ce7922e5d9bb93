import type { Readings } from '../log/readings'

/** So many meters give 780 pairs of them; nobody has more, but a damaged column of meters may name thousands. */
const MOST_METERS = 40

/** Whether each meter is held against the others: of very many, those with the most readings, the first of equal ones. */
export function comparedMeters({ n, meter, meters }: Readings): Uint8Array {
  const counts = new Uint32Array(meters.length)
  for (let i = 0; i < n; i++) counts[meter[i]]++
  const compared = new Uint8Array(meters.length)
  const byCount = Array.from(meters, (_, i) => i).sort((a, b) => counts[b] - counts[a] || a - b)
  for (const i of byCount.slice(0, MOST_METERS)) compared[i] = 1
  return compared
}
