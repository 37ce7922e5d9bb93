/**
 * Mean of values, null without any. Sums what exceeds the first value and carries the rounding error along
 * (Neumaier, Z Angew Math Mech 1974;54:39-51), so that long and nearly constant series keep their digits.
 */
export function mean(values: Float64Array): number | null {
  if (values.length === 0) return null
  const origin = values[0]
  return origin + sum(values, (value) => value - origin) / values.length
}

/**
 * Sample standard deviation (n - 1), null below two values. Corrected two-pass algorithm: Chan, Golub and
 * LeVeque, Am Stat 1983;37:242-247.
 */
export function sampleSd(values: Float64Array): number | null {
  const centre = mean(values)
  if (centre === null || values.length < 2) return null
  const squares = sum(values, (value) => (value - centre) ** 2)
  const rest = sum(values, (value) => value - centre)
  return Math.sqrt(Math.max(0, squares - (rest * rest) / values.length) / (values.length - 1))
}

function sum(values: Float64Array, term: (value: number) => number): number {
  let total = 0
  let lost = 0
  for (const value of values) {
    const next = term(value)
    const grown = total + next
    lost += Math.abs(total) >= Math.abs(next) ? total - grown + next : next - grown + total
    total = grown
  }
  return total + lost
}
