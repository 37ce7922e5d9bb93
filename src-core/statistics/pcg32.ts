/** Multiplier of the 64-bit state, 6364136223846793005, in its upper and lower half. */
const FACTOR_HIGH = 0x5851f42d
const FACTOR_LOW = 0x4c957f2d
const UPPER_16 = FACTOR_LOW >>> 16
const LOWER_16 = FACTOR_LOW & 0xffff
/** The stream that the author's demonstration uses; any would do. */
const STREAM = 54
const TWO_TO_32 = 2 ** 32

/**
 * The generator PCG32 (XSH RR 64/32) of O'Neill, Technical report HMC-CS-2014-0905, 2014: whole numbers from 0
 * to 2^32 - 1, the same for the same seed on every platform. `seed`: a whole number from 0 on.
 */
export function pcg32(seed: number, stream = STREAM): () => number {
  const stepHigh = Math.floor(stream / 2 ** 31) >>> 0
  const stepLow = ((stream << 1) | 1) >>> 0
  let high = 0
  let low = 0

  const advance = (): void => {
    // low x FACTOR_LOW has 64 bits: its upper half from products of 16 x 16 bits.
    const a = low >>> 16
    const b = low & 0xffff
    const ad = a * LOWER_16
    const bc = b * UPPER_16
    const middle = ((b * LOWER_16) >>> 16) + (ad & 0xffff) + (bc & 0xffff)
    const carried = a * UPPER_16 + (ad >>> 16) + (bc >>> 16) + (middle >>> 16)
    const crossed = Math.imul(high, FACTOR_LOW) + Math.imul(low, FACTOR_HIGH)
    const nextLow = (Math.imul(low, FACTOR_LOW) >>> 0) + stepLow
    high = (carried + crossed + stepHigh + (nextLow >= TWO_TO_32 ? 1 : 0)) >>> 0
    low = nextLow >>> 0
  }

  advance()
  const started = low + (seed % TWO_TO_32)
  high = (high + Math.floor(seed / TWO_TO_32) + (started >= TWO_TO_32 ? 1 : 0)) >>> 0
  low = started >>> 0
  advance()

  return () => {
    const mixedHigh = high ^ (high >>> 18)
    const mixedLow = low ^ ((high << 14) | (low >>> 18))
    const word = (mixedLow >>> 27) | (mixedHigh << 5)
    const turn = high >>> 27
    advance()
    return ((word >>> turn) | (word << (-turn & 31))) >>> 0
  }
}
