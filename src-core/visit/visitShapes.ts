import { z } from 'zod'
import { FORMAT, VERSION } from './format'
import { KIT } from '../kit/kit'
import { TARGET_PRESETS } from '../reference/targetPreset'
import { isZone } from '../units/timeZone'
import { parseIsoDay } from '../units/wallClock'

// The parts of a visit file as they stand in it, one on a line. `visit.schema.json` beside this file is made from
// these shapes (a test holds them together); `VISIT-FILE.md` tells in words how to read and write one.

const text = z.string()
const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, { abort: true })
  .refine((value) => parseIsoDay(value) !== null)
const moment = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}(T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?)?$/, { abort: true })
  .refine((value) => parseIsoDay(value.slice(0, 10)) !== null)
const unit = z.enum(['mg/dL', 'mmol/L'])
const sha256 = z.string().regex(/^[0-9a-f]{64}$/)
const span = z.strictObject({ from: day, to: day }).refine(({ from, to }) => from <= to)

/** Base64 of so many bytes, in its one spelling. */
const base64Of = {
  12: z.string().regex(/^[A-Za-z0-9+/]{16}$/),
  16: z.string().regex(/^[A-Za-z0-9+/]{21}[AQgw]==$/),
}

/** How the rest of a protected file is enciphered. The limits keep a hostile file below 1 GiB of memory. */
const PROTECTION = z.strictObject({
  kdf: z.literal('scrypt'),
  N: z
    .int()
    .min(2 ** 14)
    .max(2 ** 20)
    .refine((N) => Number.isInteger(Math.log2(N))),
  r: z.int().min(1).max(8),
  p: z.int().min(1).max(4),
  salt: base64Of[16],
  cipher: z.literal('aes-256-gcm'),
  nonce: base64Of[12],
  /** Tells a wrong passphrase from a damaged file. */
  check: base64Of[16],
})
export type Protection = z.infer<typeof PROTECTION>

/** The first line. `protected` is there where the rest is enciphered. */
export const HEADER = z.strictObject({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  protected: PROTECTION.exactOptional(),
})

const log = z.strictObject({
  name: text.min(1),
  sha256,
  answers: z.strictObject({
    unit: z.enum(['mg/dL', 'mmol/L', 'mixed']).exactOptional(),
    dates: z.enum(['ymd', 'dmy', 'mdy']).exactOptional(),
    columns: text.exactOptional(),
    instead: z
      .strictObject({ unit: unit.exactOptional(), dates: z.enum(['ymd', 'dmy', 'mdy']).exactOptional() })
      .exactOptional(),
  }),
  base64: z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/),
})

const typedKey = {
  at: moment,
  value: z.union([z.number().positive().max(1_000), z.enum(['LO', 'HI'])]),
  unit,
}

const typed = z.strictObject({
  ...typedKey,
  meal: text.exactOptional(),
  note: text.exactOptional(),
})

const decision = z.strictObject({
  reading: z.strictObject({ at: moment, value: text, unit, meter: text, log: sha256 }),
  choice: z.enum(['keep', 'leave-out']),
  reason: text,
  correctedTo: z.strictObject(typedKey).exactOptional(),
  decidedAt: moment,
})

const range = z
  .strictObject({ low: z.number().positive(), high: z.number().positive().max(1_000) })
  .refine(({ low, high }) => low < high)

const settings = z.strictObject({
  shifts: z
    .array(
      z.strictObject({
        from: day,
        to: day,
        minutes: z.int().min(-5_999_999).max(5_999_999),
        log: sha256.exactOptional(),
      }),
    )
    .max(1_000),
  period: span.nullable(),
  versus: span.nullable(),
  targets: z.union([z.enum(TARGET_PRESETS), range]).nullable(),
  goal: range.nullable().exactOptional(),
  unit: unit.nullable(),
  zone: text.refine(isZone).nullable(),
  paper: z.enum(['A4', 'Letter']),
  label: text,
  sampleLabel: z.literal(true).exactOptional(),
  diary: z.union([z.int().min(0).max(99_999), z.literal('all')]).nullable(),
})

export const PART = z.discriminatedUnion('part', [
  z.strictObject({ part: z.literal('settings'), settings }),
  z.strictObject({ part: z.literal('kit'), kit: KIT }),
  z.strictObject({ part: z.literal('decision'), decision }),
  z.strictObject({ part: z.literal('typed'), typed }),
  z.strictObject({ part: z.literal('log'), log }),
  z.strictObject({ part: z.literal('end'), parts: z.int().min(0), sha256: sha256.exactOptional() }),
])
export type Part = z.infer<typeof PART>
