import {
  createCipheriv,
  createDecipheriv,
  createHash,
  randomBytes,
  scrypt,
  timingSafeEqual,
} from 'node:crypto'
import { firstLineOf, FORMAT, VERSION } from '../../src-core/visit/format'
import { HEADER, type Protection } from '../../src-core/visit/visitShapes'

// A protected visit: one line of JSON in clear that tells how the key is derived, then the enciphered text in base64.
// The line is authenticated with the text. `src-core/visit/VISIT-FILE.md` tells it in words.

/** scrypt, RFC 7914. 128 MiB and about a third of a second for each try at a passphrase. */
const COST = { N: 2 ** 17, r: 8, p: 1 } as const
const BYTES = { salt: 16, nonce: 12, key: 32, check: 16, tag: 16 } as const

export type Unprotected =
  | { readonly kind: 'opened'; readonly text: string }
  | { readonly kind: 'wrong-passphrase' }
  | { readonly kind: 'damaged' }
  | { readonly kind: 'too-little-memory' }

/** Whether the text of a file is enciphered. */
export function isProtected(text: string): boolean {
  return protectionOf(text) !== undefined
}

function protectionOf(text: string): Protection | undefined {
  return HEADER.safeParse(firstLineOf(text)).data?.protected
}

/** The text of a visit file, enciphered. Salt and nonce are fresh every time. */
export async function protect(text: string, passphrase: string): Promise<string> {
  const parameters = {
    kdf: 'scrypt' as const,
    ...COST,
    salt: randomBytes(BYTES.salt).toString('base64'),
    cipher: 'aes-256-gcm' as const,
    nonce: randomBytes(BYTES.nonce).toString('base64'),
  }
  const { key, check } = await derive(passphrase, parameters)
  const header = JSON.stringify({
    format: FORMAT,
    version: VERSION,
    protected: { ...parameters, check: check.toString('base64') },
  })
  const sealed = encipher(Buffer.from(text), { key, nonce: parameters.nonce, header })
  return `${header}\n${sealed.toString('base64')}\n`
}

/** The text inside a protected file. Not one changed bit is let through. */
export async function unprotect(file: string, passphrase: string): Promise<Unprotected> {
  const [header, body = '', ...rest] = file.split('\n')
  const parameters = protectionOf(file)
  if (parameters === undefined || rest.join('') !== '' || !/^[A-Za-z0-9+/]+={0,2}$/.test(body)) {
    return { kind: 'damaged' }
  }
  const derived = await derive(passphrase, parameters).catch(() => null)
  if (derived === null) return { kind: 'too-little-memory' }
  const { key, check } = derived
  if (!timingSafeEqual(check, Buffer.from(parameters.check, 'base64'))) return { kind: 'wrong-passphrase' }
  const bytes = Buffer.from(body, 'base64')
  // Base64 has several spellings of the same bytes; only the one that was written is whole.
  if (bytes.length < BYTES.tag || bytes.toString('base64') !== body) return { kind: 'damaged' }
  const opened = decipher(bytes, { key, nonce: parameters.nonce, header })
  return opened === null ? { kind: 'damaged' } : { kind: 'opened', text: opened.toString('utf8') }
}

interface Sealing {
  readonly key: Buffer
  /** Base64. */
  readonly nonce: string
  /** Not enciphered, but held against the same tag. */
  readonly header: string
}

/** The bytes enciphered, the tag behind them. */
export function encipher(bytes: Uint8Array, { key, nonce, header }: Sealing): Buffer {
  const cipher = createCipheriv('aes-256-gcm', key, Buffer.from(nonce, 'base64'))
  cipher.setAAD(Buffer.from(header, 'latin1'))
  return Buffer.concat([cipher.update(bytes), cipher.final(), cipher.getAuthTag()])
}

/** The bytes that were enciphered; null where one bit of them, of the tag or of the header is another. */
export function decipher(sealed: Uint8Array, { key, nonce, header }: Sealing): Buffer | null {
  const opener = createDecipheriv('aes-256-gcm', key, Buffer.from(nonce, 'base64'))
  opener.setAAD(Buffer.from(header, 'latin1'))
  opener.setAuthTag(sealed.subarray(-BYTES.tag))
  const bytes = opener.update(sealed.subarray(0, -BYTES.tag))
  try {
    return Buffer.concat([bytes, opener.final()])
  } catch {
    return null
  }
}

/** Key and check of a passphrase. It is normalised, so that every keyboard's way of writing it is the same. */
export function derive(
  passphrase: string,
  { N, r, p, salt }: Pick<Protection, 'N' | 'r' | 'p' | 'salt'>,
): Promise<{ readonly key: Buffer; readonly check: Buffer }> {
  const maxmem = 256 * N * r
  return new Promise((resolve, reject) => {
    scrypt(
      passphrase.normalize('NFKC'),
      Buffer.from(salt, 'base64'),
      2 * BYTES.key,
      { N, r, p, maxmem },
      (error, derived) => {
        if (error) reject(error)
        else {
          const check = createHash('sha256').update(derived.subarray(BYTES.key)).digest()
          resolve({ key: derived.subarray(0, BYTES.key), check: check.subarray(0, BYTES.check) })
        }
      },
    )
  })
}
