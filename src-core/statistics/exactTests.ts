/** Logarithm of the number of ways to choose `k` of `n`. */
function logWays(n: number, k: number): number {
  let sum = 0
  for (let i = 1; i <= Math.min(k, n - k); i++) sum += Math.log((n - i + 1) / i)
  return sum
}

/**
 * One-sided p of Fisher's exact test: the chance of `a` or more of the first kind among the first group, where
 * the groups hold `a` and `c` of the first kind, `b` and `d` of the second. Fisher, The Design of Experiments, 1935.
 */
export function fisherUpperTail(a: number, b: number, c: number, d: number): number {
  const all = logWays(a + b + c + d, a + c)
  let tail = 0
  for (let x = a; x <= Math.min(a + b, a + c); x++) {
    tail += Math.exp(logWays(a + b, x) + logWays(c + d, a + c - x) - all)
  }
  return Math.min(1, tail)
}

/** The chance of `count` or more of `n` where each comes with the chance `p`, between 0 and 1. */
export function binomialUpperTail(count: number, n: number, p: number): number {
  let tail = 0
  for (let x = count; x <= n; x++) {
    const term = Math.exp(logWays(n, x) + x * Math.log(p) + (n - x) * Math.log1p(-p))
    // Beyond the middle the terms fall: what adds nothing to the sum is followed by less.
    if (x > n * p && tail + term === tail) break
    tail += term
  }
  return Math.min(1, tail)
}
