import { Z95 } from '../reference/meter'

/** Point of the normal distribution for a power of 80 %. */
export const Z80_POWER = 0.841621

/**
 * Readings needed in each of two equal groups to see a difference of means with 80 % power at the two-sided 5 %
 * level, unrounded: 2 ((z1 + z2) SD / difference)^2. Lehr, Stat Med 1992;11:1099-1102, whose short form is
 * 16 (SD / difference)^2. SD and difference in one unit.
 */
export function readingsToSee(difference: number, sd: number): number {
  return 2 * (((Z95 + Z80_POWER) * sd) / difference) ** 2
}

/** The difference that so many readings in each of two groups show, by the same formula; in the unit of the SD. */
export function changeToSee(readings: number, sd: number): number {
  return (Z95 + Z80_POWER) * sd * Math.sqrt(2 / readings)
}
