import type * as Crypto from 'node:crypto'

/** 2^10 in place of 2^17: a hundredth of the work. */
const CHEAP_N = 1_024

/**
 * Node's cryptography with keys that cost little, for tests that do not ask how strong a passphrase's key is. A file that
 * is protected so opens only so. Used with `vi.mock('node:crypto', …)`.
 */
export function withCheapKeys(crypto: typeof Crypto): typeof Crypto {
  const scrypt = (
    passphrase: Crypto.BinaryLike,
    salt: Crypto.BinaryLike,
    length: number,
    options: Crypto.ScryptOptions,
    done: (error: Error | null, key: Buffer) => void,
  ) => crypto.scrypt(passphrase, salt, length, { ...options, N: CHEAP_N }, done)
  return { ...crypto, scrypt: scrypt as typeof crypto.scrypt }
}
