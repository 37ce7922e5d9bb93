import { describe, expect, it } from 'vitest'
import { permutationTest } from '../../../src-core/statistics/permutationTest'
import { randomSource } from '../../../src-core/statistics/randomSource'

const days = (values: readonly number[], n = 1) => values.map((value) => ({ n, sum: n * value }))
const p = (first: readonly number[], second: readonly number[]) =>
  permutationTest(days(first), days(second), randomSource(1))

describe('the permutation test of days', () => {
  // Efron and Tibshirani, An Introduction to the Bootstrap, 1993: survival of treated and of untreated mice. All
  // 11,440 ways counted apart from this program: 0.278322.
  it('tries all ways of parting the mice of the textbook', () => {
    const treated = [94, 197, 16, 38, 99, 141, 23]
    const untreated = [52, 104, 146, 10, 51, 30, 40, 27, 46]
    expect(p(treated, untreated)).toBeCloseTo(0.278322, 6)
    expect(p(untreated, treated)).toBeCloseTo(0.278322, 6)
  })

  it('of three days against four counts 3 of the 35 ways', () => {
    // By hand: either 150 with 160 and 170 is 18.75 above the rest; 130, 140 and 145 are 19.17 below; no other.
    expect(p([150, 160, 170], [130, 140, 145, 150])).toBeCloseTo(3 / 35, 12)
  })

  it('of ones and zeros is Fisher’s exact test of the lady who tasted tea', () => {
    // Fisher, The Design of Experiments, 1935, chapter 2: eight cups; 3 of 4 right 34/70, 4 of 4 right 2/70.
    expect(p([1, 1, 1, 0], [1, 0, 0, 0])).toBeCloseTo(34 / 70, 12)
    expect(p([1, 1, 1, 1], [0, 0, 0, 0])).toBeCloseTo(2 / 70, 12)
    expect(p([1, 1, 0, 0], [1, 1, 0, 0])).toBe(1)
  })

  it('keeps the readings of a day together', () => {
    // Ten equal readings on each of two days are two witnesses, not twenty: no way of parting 1 from 1 is rare.
    expect(permutationTest([{ n: 10, sum: 1000 }], [{ n: 10, sum: 2000 }], randomSource(1))).toBe(1)
  })

  it('draws ways where they are many, close to the normal limit and never 0', () => {
    const apart = p(
      Array.from({ length: 30 }, (_, i) => 100 + i),
      Array.from({ length: 30 }, (_, i) => 200 + i),
    )
    expect(apart).toBe(1 / 5000)
    const same = p(
      Array.from({ length: 30 }, (_, i) => 100 + i),
      Array.from({ length: 30 }, (_, i) => 104 + i),
    )
    // Two-sample z: 4 / sqrt(2 x 79.25 / 30) = 1.74, with the overall spread; two-sided p 0.08.
    expect(same).toBeGreaterThan(0.06)
    expect(same).toBeLessThan(0.11)
  })

  it('is 1 for equal groups and missing for an empty one', () => {
    expect(p([120, 130], [120, 130])).toBe(1)
    expect(p(new Array<number>(40).fill(120.1), new Array<number>(40).fill(120.1))).toBe(1)
    expect(p([], [120])).toBeNull()
  })
})
