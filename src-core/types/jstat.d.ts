// The part of jstat that the program uses; the package has no types of its own.
interface Distribution {
  /** Inverse of the cumulative distribution: the value below which a share `p` of the distribution lies. */
  inv(p: number, ...parameters: number[]): number
  cdf(x: number, ...parameters: number[]): number
}
declare const jstat: {
  readonly jStat: {
    readonly chisquare: Distribution
    readonly normal: Distribution
    readonly studentt: Distribution
  }
}
export default jstat
