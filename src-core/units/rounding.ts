/**
 * Rounds to `decimals` places, halves away from zero. A value within 1e-9 of a half counts as the half, so
 * that 0.15 x 100 and its like round as written.
 */
export function roundHalfAway(value: number, decimals = 0): number {
  const scale = 10 ** decimals
  const magnitude = Math.floor(Math.abs(value) * scale + 0.5 + 1e-9) / scale
  return value < 0 && magnitude > 0 ? -magnitude : magnitude
}

/** `roundHalfAway` as text with exactly `decimals` places. */
export function fixed(value: number, decimals = 0): string {
  return roundHalfAway(value, decimals).toFixed(decimals)
}
