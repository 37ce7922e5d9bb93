import { z } from 'zod'
import { FORMAT } from './format'
import { KIT } from '../kit/kit'
import { parseIsoDay } from '../units/wallClock'

// The parts of a visit file as they stand in it, one on a line. `visit.schema.json` beside this file is made from
// these shapes (a test holds them together); `VISIT-FILE.md` tells in words how to read and write one.

const MOST_TEXT = 2_000
const text = z.string().max(MOST_TEXT)
const day = z.string().refine((value) => /^\d{4}-\d{2}-\d{2}$/.test(value) && parseIsoDay(value) !== null)
const moment = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2})?)?$/)
  .refine((value) => parseIsoDay(value.slice(0, 10)) !== null)
const unit = z.enum(['mg/dL', 'mmol/L'])
const sha256 = z.string().regex(/^[0-9a-f]{64}$/)
const span = z.strictObject({ from: day, to: day }).refine(({ from, to }) => from <= to)

/** The first line. `protected` is there where the rest is enciphered. */
export const HEADER = z.strictObject({
  format: z.literal(FORMAT),
  version: z.int().min(1),
  protected: z.unknown().exactOptional(),
})

const log = z.strictObject({
  name: text.min(1),
  sha256,
  answers: z.strictObject({
    unit: unit.exactOptional(),
    dates: z.enum(['ymd', 'dmy', 'mdy']).exactOptional(),
    columns: text.exactOptional(),
  }),
  base64: z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/),
})

const typed = z.strictObject({
  at: moment,
  value: z.number().positive().max(1_000),
  unit,
  meal: text.exactOptional(),
  note: text.exactOptional(),
})

const decision = z.strictObject({
  reading: z.strictObject({ at: moment, value: text, unit, meter: text, log: sha256 }),
  choice: z.enum(['keep', 'leave-out']),
  reason: text,
  decidedAt: moment,
})

const settings = z.strictObject({
  shifts: z
    .array(z.strictObject({ from: day, to: day, minutes: z.int().min(-5_999_999).max(5_999_999) }))
    .max(1_000),
  period: span.nullable(),
  versus: span.nullable(),
  targets: z
    .union([
      z.enum(['pregnancy', 'older-adult']),
      z.strictObject({ low: z.number().positive(), high: z.number().positive().max(1_000) }),
    ])
    .nullable(),
  unit: unit.nullable(),
  zone: text.nullable(),
  paper: z.enum(['A4', 'Letter']),
  label: text,
  diary: z.union([z.int().min(0).max(99_999), z.literal('all')]).nullable(),
})

export const PART = z.discriminatedUnion('part', [
  z.strictObject({ part: z.literal('settings'), settings }),
  z.strictObject({ part: z.literal('kit'), kit: KIT }),
  z.strictObject({ part: z.literal('decision'), decision }),
  z.strictObject({ part: z.literal('typed'), typed }),
  z.strictObject({ part: z.literal('log'), log }),
  z.strictObject({ part: z.literal('end'), parts: z.int().min(0) }),
])
export type Part = z.infer<typeof PART>
