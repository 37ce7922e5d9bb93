import { describe, expect, it, vi } from 'vitest'
import { binomialUpperTail, fisherUpperTail } from '../../../src-core/statistics/exactTests'

describe('Fisher’s exact test', () => {
  it('gives 17 in 70 for the lady who told three cups of four (Fisher, The Design of Experiments, 1935, chapter 2)', () => {
    expect(fisherUpperTail(3, 1, 1, 3)).toBeCloseTo(17 / 70, 12)
    expect(fisherUpperTail(4, 0, 0, 4)).toBeCloseTo(1 / 70, 12)
    expect(fisherUpperTail(0, 4, 4, 0)).toBeCloseTo(1, 12)
  })

  it('gives the one-sided p of the like-sex twins of convicts, 0.000465 (Fisher, JRSS 1935;98:39-82)', () => {
    expect(fisherUpperTail(10, 3, 2, 15)).toBeCloseTo(0.000465181, 9)
  })
})

describe('the binomial tail', () => {
  it('counts heads of a coin: 9 or more of 10 come 11 times in 1,024', () => {
    expect(binomialUpperTail(9, 10, 0.5)).toBeCloseTo(11 / 1024, 12)
    expect(binomialUpperTail(0, 10, 0.5)).toBeCloseTo(1, 12)
  })

  it('holds for thousands', () => {
    // 2,000 throws of a die with five faces: mean 400, SD 17.9; 400 or more comes about half of the time.
    expect(binomialUpperTail(400, 2000, 0.2)).toBeGreaterThan(0.5)
    expect(binomialUpperTail(401, 2000, 0.2)).toBeLessThan(0.5)
  })
})

describe('tails over a hundred thousand', () => {
  // An odd number of heads or of drawn ones is more than half as likely as not: 1/2 by symmetry.
  it('are those of symmetry', () => {
    expect(binomialUpperTail(50_001, 100_001, 0.5)).toBeCloseTo(0.5, 7)
    expect(fisherUpperTail(20_001, 79_999, 20_000, 80_000)).toBeCloseTo(0.5, 7)
  })

  it('take a few steps for each term, not as many as there are terms', () => {
    const log = vi.spyOn(Math, 'log')
    try {
      fisherUpperTail(30_000, 70_000, 30_000, 70_000)
      binomialUpperTail(30_000, 100_000, 0.3)
      expect(log.mock.calls.length).toBeGreaterThan(0)
      expect(log.mock.calls.length).toBeLessThan(400_000)
    } finally {
      log.mockRestore()
    }
  })
})
