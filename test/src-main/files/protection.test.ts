import type * as Crypto from 'node:crypto'
import { scryptSync } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import {
  decipher,
  derive,
  encipher,
  isProtected,
  protect,
  unprotect,
} from '../../../src-main/files/protection'
import { fixedChance } from '../../helpers/analysisFixture'

/** Whether keys cost little: where it is not asked how strong they are. */
const cheap = vi.hoisted(() => ({ keys: false }))

// Every single bit of a file is a try of its own: the same key is derived once.
vi.mock('node:crypto', async (importOriginal) => {
  const crypto = await importOriginal<typeof Crypto>()
  const { withCheapKeys } = await import('../../helpers/cheapKeys')
  const cheaper = withCheapKeys(crypto)
  const known = new Map<string, Buffer>()
  type Done = (error: Error | null, key?: Buffer) => void
  const scrypt = (pass: string, salt: Buffer, length: number, options: object, done: Done) => {
    const name = JSON.stringify([cheap.keys, pass, salt.toString('hex'), options])
    const key = known.get(name)
    if (key !== undefined) return setImmediate(() => done(null, key))
    return (cheap.keys ? cheaper : crypto).scrypt(pass, salt, length, options, (error, derived) => {
      if (!error) known.set(name, derived)
      done(error, derived)
    })
  }
  return { ...crypto, scrypt }
})

const SLOW = process.env.MODE === 'mutations'
const LONG = 3_600_000

const hex = (text: string) => Buffer.from(text.replace(/\s/g, ''), 'hex')

describe('the key of a passphrase', () => {
  // RFC 7914, section 12; key and check together are what scrypt gives.
  it.each([
    ['', '', 16, 1, 1, '77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442fcd0069ded0948f8326a753a0fc81f17e8d3e0fb2e0d3628cf35e20c38d18906'],
    ['password', 'NaCl', 1024, 8, 16, 'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640'],
    ['pleaseletmein', 'SodiumChloride', 16384, 8, 1, '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887'],
  ])('is that of RFC 7914 for "%s" and "%s"', async (passphrase, salt, N, r, p, expected) => {
    const { key } = await derive(passphrase, { N, r, p, salt: Buffer.from(salt).toString('base64') })
    expect(key.toString('hex')).toBe(expected.slice(0, 64))
  }) // prettier-ignore

  it('costs what OWASP’s cheat sheet on password storage asks for: scrypt with N = 2^17, r = 8, p = 1', async () => {
    const [header] = (await protect('x', 'x')).split('\n')
    expect(JSON.parse(header)).toMatchObject({ protected: { kdf: 'scrypt', N: 131_072, r: 8, p: 1 } })
  })
})

describe('the cipher', () => {
  const KEY = 'feffe9928665731c6d6a8f9467308308'.repeat(2)
  const TEXT =
    'd9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39'
  // McGrew and Viega, The Galois/Counter Mode of Operation, submitted to NIST, appendix B: test cases 13, 14, 16.
  it.each([
    ['13', '00'.repeat(32), '00'.repeat(12), '', '', '', '530f8afbc74536b9a963b4f1c4cb738b'],
    ['14', '00'.repeat(32), '00'.repeat(12), '00'.repeat(16), '', 'cea7403d4d606b6e074ec5d3baf39d18', 'd0d1c8a799996bf0265b98b5d48ab919'],
    ['16', KEY, 'cafebabefacedbaddecaf888', TEXT, 'feedfacedeadbeeffeedfacedeadbeefabaddad2', '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662', '76fc6ece0f4e1768cddf8853bb2d551b'],
  ])('is AES-256-GCM: test case %s', (_, key, nonce, text, header, enciphered, tag) => {
    const sealing = { key: hex(key), nonce: hex(nonce).toString('base64'), header: hex(header).toString('latin1') }
    const sealed = encipher(hex(text), sealing)
    expect(sealed.toString('hex')).toBe(enciphered + tag)
    expect(decipher(sealed, sealing)?.toString('hex')).toBe(text)
  }) // prettier-ignore
})

describe('a protected file', () => {
  const TEXT = `{"a":"${'Läuft, “gut” \u{1f36d}'.repeat(60)}"}\n`

  it('opens with its passphrase alone and is other every time', async () => {
    const [one, two] = [await protect(TEXT, 'correct horse'), await protect(TEXT, 'correct horse')]
    expect(isProtected(one)).toBe(true)
    expect(await unprotect(one, 'correct horse')).toEqual({ kind: 'opened', text: TEXT })
    expect(await unprotect(one, 'correct horse ')).toEqual({ kind: 'wrong-passphrase' })
    expect(await unprotect(one, '')).toEqual({ kind: 'wrong-passphrase' })
    const parts = [one, two].map((file) => {
      const { salt, nonce } = (JSON.parse(file.split('\n')[0]) as { protected: Record<string, string> })
        .protected
      return [salt, nonce, file.split('\n')[1]]
    })
    for (const i of [0, 1, 2]) expect(parts[0][i]).not.toBe(parts[1][i])
  })

  it('opens by a reader that shares no code with the program', async () => {
    const [header, body] = (await protect(TEXT, 'pässword')).split('\n')
    const { N, r, p, salt, nonce } = (
      JSON.parse(header) as { protected: { N: number; r: number; p: number; salt: string; nonce: string } }
    ).protected
    const derived = scryptSync('pässword', Buffer.from(salt, 'base64'), 64, { N, r, p, maxmem: 2 ** 28 })
    const key = await crypto.subtle.importKey(
      'raw',
      new Uint8Array(derived.subarray(0, 32)),
      'AES-GCM',
      false,
      ['decrypt'],
    )
    const opened = await crypto.subtle.decrypt(
      { name: 'AES-GCM', iv: Buffer.from(nonce, 'base64'), additionalData: new TextEncoder().encode(header) },
      key,
      Buffer.from(body, 'base64'),
    )
    expect(new TextDecoder().decode(opened)).toBe(TEXT)
  })

  describe('of a key that costs little', () => {
    let FILE = ''
    beforeAll(async () => {
      cheap.keys = true
      FILE = await protect(TEXT, 'x')
    })
    afterAll(() => {
      cheap.keys = false
    })

    it.each([
      ['10,000 characters', 'ü'.repeat(10_000), 'u\u0308'.repeat(10_000)],
      ['Greek, composed or not', 'Γλυκόζη', 'Γλυκο\u0301ζη'],
      ['Korean', '혈당', '혈당'.normalize('NFD')],
      ['full-width letters', 'ＡＢＣ１２３', 'ABC123'],
      ['a ligature', 'ﬁnger', 'finger'],
      ['Arabic, Hindi, an emoji', 'سكر रक्त 🩸', 'سكر रक्त 🩸'.normalize('NFKD')],
    ])('opens however a keyboard writes the passphrase: %s', async (_, passphrase, otherForm) => {
      expect(await unprotect(await protect(TEXT, passphrase), otherForm)).toEqual({
        kind: 'opened',
        text: TEXT,
      })
    })

    it.each([
      ['N = 2^30', /"N":131072/, '"N":1073741824'],
      ['N no power of two', /"N":131072/, '"N":131071'],
      ['r = 2^20', /"r":8/, '"r":1048576'],
      ['p = 1000', /"p":1/, '"p":1000'],
      ['another cipher', /aes-256-gcm/, 'rot13'],
      ['a short salt', /"salt":"..../, '"salt":"'],
      ['one key more', /"kdf"/, '"x":1,"kdf"'],
    ])('with a hostile first line is not tried at all: %s', async (_, part, other) => {
      expect(FILE).toMatch(part)
      const changed = FILE.replace(part, other)
      expect(isProtected(changed)).toBe(false)
      expect(await unprotect(changed, 'x')).toEqual({ kind: 'damaged' })
    })

    it.each([
      ['cut after the first line', (file: string) => file.split('\n')[0]],
      ['cut in the text', (file: string) => file.slice(0, -100)],
      ['less than a tag', (file: string) => `${file.split('\n')[0]}\nAAAA\n`],
      ['one line more', (file: string) => `${file}AAAA\n`],
      ['a space more', (file: string) => file.replace('\n', ' \n')],
      ['a key of the first line told twice', (file: string) => file.replace('"p":1', '"p":1,"p":1')],
    ])('is damaged: %s', async (_, change) => {
      expect(await unprotect(change(FILE), 'x')).toEqual({ kind: 'damaged' })
    })

    it(
      SLOW ? 'no single bit may be another' : 'no single bit may be another: a thousand of them',
      async () => {
        const file = Buffer.from(FILE)
        const bits = Array.from({ length: 8 * file.length }, (_, bit) => bit)
        const inHeader = 8 * file.indexOf('\n')
        const chance = fixedChance(5)
        // A changed salt costs a key of its own, so only a few of the first line.
        const chosen = SLOW
          ? bits
          : Array.from({ length: 1_020 }, (_, i) =>
              i < 20
                ? Math.floor(chance() * inHeader)
                : inHeader + Math.floor(chance() * (bits.length - inHeader)),
            )
        const opened: number[] = []
        for (const bit of chosen) {
          const changed = Buffer.from(file)
          changed[bit >> 3] ^= 1 << (bit & 7)
          const { kind } = await unprotect(changed.toString('utf8'), 'x')
          if (kind === 'opened') opened.push(bit)
        }
        expect(file.length).toBeGreaterThan(2_000)
        expect(opened).toEqual([])
      },
      LONG,
    )
  })
})
