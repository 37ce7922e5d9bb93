/** Bounds of sums that were rounded differently may miss each other by less. */
const SLACK = 1e-9

/** A test to be looked up: its moment and value, and what the caller knows it by. */
export interface TimedValue {
  readonly seconds: number
  readonly value: number
  readonly id: number
}

/**
 * Of tests in time the one that is farthest from a given one, by any measure that grows with the distance of the values
 * and falls with the time between; whole stretches of time are passed over by their lowest and highest value.
 */
export class FarthestInTime {
  readonly #tests: readonly TimedValue[]
  /** Lowest and highest value below each node of a binary tree over the tests; the root is node 1. */
  readonly #lowest: Float64Array
  readonly #highest: Float64Array

  constructor(tests: readonly TimedValue[]) {
    const sorted = [...tests].sort((a, b) => a.seconds - b.seconds || a.value - b.value || a.id - b.id)
    // Equal tests are equally far from any other: the first stands for all.
    this.#tests = sorted.filter(
      ({ seconds, value }, i) => seconds !== sorted[i - 1]?.seconds || value !== sorted[i - 1]?.value,
    )
    const nodes = 4 * this.#tests.length + 2
    this.#lowest = new Float64Array(nodes).fill(Infinity)
    this.#highest = new Float64Array(nodes).fill(-Infinity)
    if (this.#tests.length > 0) this.#fill(1, 0, this.#tests.length)
  }

  /**
   * The test with the largest `measure(value, gapSeconds)`, of equal ones that with the smallest id; `best`, known so
   * far, where none is better.
   */
  find(
    seconds: number,
    measure: (value: number, gapSeconds: number) => number,
    best: { readonly id: number; readonly measured: number },
  ): { readonly id: number; readonly measured: number } {
    const boundOf = (node: number, from: number, to: number): number => {
      const gap = Math.max(0, this.#tests[from].seconds - seconds, seconds - this.#tests[to - 1].seconds)
      return Math.max(measure(this.#lowest[node], gap), measure(this.#highest[node], gap))
    }
    const search = (node: number, from: number, to: number, bound: number): void => {
      if (bound < best.measured - SLACK) return
      if (to - from === 1) {
        const { id } = this.#tests[from]
        if (bound > best.measured || (bound === best.measured && id < best.id)) best = { id, measured: bound }
        return
      }
      const middle = (from + to) >> 1
      const [left, right] = [boundOf(2 * node, from, middle), boundOf(2 * node + 1, middle, to)]
      if (left >= right) search(2 * node, from, middle, left)
      search(2 * node + 1, middle, to, right)
      if (left < right) search(2 * node, from, middle, left)
    }
    const n = this.#tests.length
    if (n > 0) search(1, 0, n, boundOf(1, 0, n))
    return best
  }

  #fill(node: number, from: number, to: number): void {
    if (to - from === 1) {
      this.#lowest[node] = this.#highest[node] = this.#tests[from].value
      return
    }
    const middle = (from + to) >> 1
    this.#fill(2 * node, from, middle)
    this.#fill(2 * node + 1, middle, to)
    this.#lowest[node] = Math.min(this.#lowest[2 * node], this.#lowest[2 * node + 1])
    this.#highest[node] = Math.max(this.#highest[2 * node], this.#highest[2 * node + 1])
  }
}
