/** Whole numbers drawn by chance; the same seed and stream give the same numbers on every machine. */
export interface RandomSource {
  /** A whole number from 0 to below 2^32. */
  readonly next: () => number
  /** A whole number from 0 to below `n`, every one equally likely; `n` from 1 to 2^32 - 1. */
  nextBelow(n: number): number
}

const MULTIPLIER = { high: 0x5851f42d, low: 0x4c957f2d }
const TWO_32 = 2 ** 32
const HIGH = 0
const LOW = 1

/**
 * The generator PCG32 (XSH RR 64/32): O'Neill, PCG: A Family of Simple Fast Space-Efficient Statistically
 * Good Algorithms for Random Number Generation, report HMC-CS-2014-0905, Harvey Mudd College 2014. `seed` and
 * `stream` are whole numbers from 0; different streams of one seed share no sequence. No secret may hang on it.
 */
export function randomSource(seed: number, stream = 0): RandomSource {
  // The 64-bit state and increment in two halves of 32 bits.
  const incrementLow = ((stream << 1) | 1) >>> 0
  const incrementHigh = Math.floor((stream * 2) / TWO_32) >>> 0
  // In an array, since a variable would be made anew for every number drawn.
  const state = new Uint32Array(2)

  const add = (addedHigh: number, addedLow: number): void => {
    const sum = state[LOW] + addedLow
    state[LOW] = sum
    state[HIGH] += addedHigh + (sum >= TWO_32 ? 1 : 0)
  }
  const step = (): void => {
    const low = state[LOW]
    state[HIGH] =
      highHalf(low, MULTIPLIER.low) + Math.imul(low, MULTIPLIER.high) + Math.imul(state[HIGH], MULTIPLIER.low)
    state[LOW] = Math.imul(low, MULTIPLIER.low)
    add(incrementHigh, incrementLow)
  }
  const next = (): number => {
    const high = state[HIGH]
    const low = state[LOW]
    // xorshifted = ((state >> 18) ^ state) >> 27, its lower half; rotation = state >> 59.
    const shiftedHigh = high >>> 18
    const shiftedLow = ((low >>> 18) | (high << 14)) >>> 0
    const xorshifted = (((shiftedLow ^ low) >>> 27) | ((shiftedHigh ^ high) << 5)) >>> 0
    const rotation = high >>> 27
    step()
    return ((xorshifted >>> rotation) | (xorshifted << (-rotation & 31))) >>> 0
  }

  step()
  add(Math.floor(seed / TWO_32) >>> 0, seed >>> 0)
  step()
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

/** The upper 32 bits of the product of two whole numbers below 2^32. */
function highHalf(a: number, b: number): number {
  const aHigh = a >>> 16
  const aLow = a & 0xffff
  const bHigh = b >>> 16
  const bLow = b & 0xffff
  const middle = aHigh * bLow + ((aLow * bLow) >>> 16)
  const middleLow = (middle & 0xffff) + aLow * bHigh
  return aHigh * bHigh + (middle >>> 16) + (middleLow >>> 16)
}
