import { gammaln } from 'simple-statistics'

/** Beyond this the sum would take longer, and the gamma function is as good. */
const MOST_SUMMED = 1_000

/** Logarithm of the number of ways to choose `k` of `n`. */
function logWays(n: number, k: number): number {
  const least = Math.min(k, n - k)
  if (least > MOST_SUMMED) return gammaln(n + 1) - gammaln(k + 1) - gammaln(n - k + 1)
  let sum = 0
  for (let i = 1; i <= least; i++) sum += Math.log((n - i + 1) / i)
  return sum
}

/** Sum of terms from `x` to `last`, given by the logarithms of the first and of each one's ratio to the one before. */
function sumOfTerms(x: number, last: number, logFirst: number, ratio: (x: number) => number): number {
  let sum = 0
  for (let logTerm = logFirst; x <= last; logTerm += Math.log(ratio(x++))) {
    const term = Math.exp(logTerm)
    // Once the terms fall, what adds nothing to the sum is followed by less.
    if (sum > 0 && sum + term === sum && ratio(x) < 1) break
    sum += term
  }
  return Math.min(1, sum)
}

/**
 * One-sided p of Fisher's exact test: the chance of `a` or more of the first kind among the first group, where
 * the groups hold `a` and `c` of the first kind, `b` and `d` of the second. Fisher, The Design of Experiments, 1935.
 */
export function fisherUpperTail(a: number, b: number, c: number, d: number): number {
  const logFirst = logWays(a + b, a) + logWays(c + d, c) - logWays(a + b + c + d, a + c)
  const ratio = (x: number) => ((a + b - x) * (a + c - x)) / ((x + 1) * (d - a + x + 1))
  return sumOfTerms(a, Math.min(a + b, a + c), logFirst, ratio)
}

/** The chance of `count` or more of `n` where each comes with the chance `p`, between 0 and 1. */
export function binomialUpperTail(count: number, n: number, p: number): number {
  const logFirst = logWays(n, count) + count * Math.log(p) + (n - count) * Math.log1p(-p)
  return sumOfTerms(count, n, logFirst, (x) => ((n - x) * p) / ((x + 1) * (1 - p)))
}
