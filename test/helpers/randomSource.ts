/** Whole numbers drawn by chance; the same seed and stream give the same numbers on every machine. */
export interface RandomSource {
  /** A whole number from 0 to below 2^32. */
  readonly next: () => number
  /** A whole number from 0 to below `n`, every one equally likely; `n` from 1 to 2^32 - 1. */
  nextBelow(n: number): number
}

const MULTIPLIER = { high: 0x5851f42d, low: 0x4c957f2d }
const TWO_32 = 2 ** 32
/** Numbers made at once: within the loop that makes them their state needs no memory. */
const BLOCK = 256

/**
 * The generator PCG32 (XSH RR 64/32): O'Neill, PCG: A Family of Simple Fast Space-Efficient Statistically
 * Good Algorithms for Random Number Generation, report HMC-CS-2014-0905, Harvey Mudd College 2014. `seed` and
 * `stream` are whole numbers from 0; different streams of one seed share no sequence. No secret may hang on it.
 */
export function randomSource(seed: number, stream = 0): RandomSource {
  // The 64-bit state and increment in two halves of 32 bits.
  const incrementLow = (stream << 1) | 1
  const incrementHigh = Math.floor((stream * 2) / TWO_32) | 0
  const state = new Int32Array(2)
  const numbers = new Uint32Array(BLOCK)
  let at = BLOCK

  /** Fills `numbers` from the first place to before `end`. */
  function make(end: number): void {
    let [high, low] = state
    for (let i = 0; i < end; i++) {
      // xorshifted = ((state >> 18) ^ state) >> 27, its lower half; rotation = state >> 59.
      const shifted = (low >>> 18) | (high << 14)
      const xorshifted = ((shifted ^ low) >>> 27) | (((high >>> 18) ^ high) << 5)
      const rotation = high >>> 27
      numbers[i] = (xorshifted >>> rotation) | (xorshifted << (-rotation & 31))
      const productLow = Math.imul(low, MULTIPLIER.low)
      const productHigh =
        highHalf(low, MULTIPLIER.low) + Math.imul(low, MULTIPLIER.high) + Math.imul(high, MULTIPLIER.low)
      low = (productLow + incrementLow) | 0
      const carry = low >>> 0 < incrementLow >>> 0 ? 1 : 0
      high = (productHigh + incrementHigh + carry) | 0
    }
    state[0] = high
    state[1] = low
  }

  const next = (): number => {
    if (at === BLOCK) {
      make(BLOCK)
      at = 0
    }
    return numbers[at++]
  }

  // The start as the report has it: a step, the seed added, another step.
  make(1)
  const low = (state[1] >>> 0) + (seed >>> 0)
  state[0] += Math.floor(seed / TWO_32) + (low >= TWO_32 ? 1 : 0)
  state[1] = low
  make(1)
  return {
    next,
    nextBelow(n) {
      for (;;) {
        const drawn = next()
        // Numbers below the remainder of 2^32 would make the small results likelier than the large ones.
        if (drawn >= n || drawn >= TWO_32 % n) return drawn - Math.floor(drawn / n) * n
      }
    },
  }
}

/** The upper 32 bits of the product of two whole numbers below 2^32, taken without their sign. */
function highHalf(a: number, b: number): number {
  const aHigh = a >>> 16
  const aLow = a & 0xffff
  const bHigh = b >>> 16
  const bLow = b & 0xffff
  const middle = Math.imul(aHigh, bLow) + (Math.imul(aLow, bLow) >>> 16)
  const middleLow = Math.imul(aLow, bHigh) + (middle & 0xffff)
  return (Math.imul(aHigh, bHigh) + (middle >>> 16) + (middleLow >>> 16)) | 0
}
