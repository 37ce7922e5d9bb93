import { z } from 'zod'
import { KIT } from '../kit/kit'
import { TARGET_PRESETS } from '../reference/targetPreset'
import { parseIsoDay } from '../units/wallClock'
import { MESSAGE_LIMITS } from './limits'

// What the window may ask to be done to the visit. The program behind it knows the rest: bytes of logs, the moment.

const unit = z.enum(['mg/dL', 'mmol/L'])
export const SHA256 = z.string().regex(/^[0-9a-f]{64}$/)
const shortText = z.string().max(MESSAGE_LIMITS.label)
const longText = z.string().max(MESSAGE_LIMITS.words)
const moment = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}(T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?)?$/, { abort: true })
  .refine((value) => parseIsoDay(value.slice(0, 10)) !== null)
const day = z.int().min(-1_000_000).max(1_000_000)
/** By how much the times of a stretch may be moved. */
export const SHIFT_MINUTES = z.int().min(-5_999_999).max(5_999_999)
export const SPAN = z.strictObject({ from: day, to: day }).refine(({ from, to }) => from <= to)

const logAnswers = z.strictObject({
  unit: z.enum(['mg/dL', 'mmol/L', 'mixed']).exactOptional(),
  dates: z.enum(['ymd', 'dmy', 'mdy']).exactOptional(),
  columns: longText.exactOptional(),
  instead: z
    .strictObject({ unit: unit.exactOptional(), dates: z.enum(['ymd', 'dmy', 'mdy']).exactOptional() })
    .exactOptional(),
})

export const READING_KEY = z.strictObject({
  at: moment,
  value: shortText,
  unit,
  meter: longText,
  log: SHA256,
})

const typedReading = z.strictObject({
  at: moment,
  value: z.number().positive().max(1_000),
  unit,
  meal: shortText.exactOptional(),
  note: longText.exactOptional(),
})

const range = z.strictObject({ low: z.number().positive(), high: z.number().positive().max(1_000) })

const settings = z.strictObject({
  kit: KIT.exactOptional(),
  period: SPAN.nullable().exactOptional(),
  versus: SPAN.nullable().exactOptional(),
  targets: z
    .union([z.enum(TARGET_PRESETS), range])
    .nullable()
    .exactOptional(),
  goal: range.nullable().exactOptional(),
  unit: unit.nullable().exactOptional(),
  paper: z.enum(['A4', 'Letter']).exactOptional(),
  label: shortText.exactOptional(),
  shifts: z
    .array(z.strictObject({ from: day, to: day, minutes: SHIFT_MINUTES, log: SHA256.exactOptional() }))
    .max(1_000)
    .exactOptional(),
  diary: z
    .union([z.int().min(0).max(99_999), z.literal('all')])
    .nullable()
    .exactOptional(),
})

export const WINDOW_EDIT = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('remove-log'), sha256: SHA256 }),
  z.strictObject({ kind: z.literal('answer'), sha256: SHA256, answers: logAnswers }),
  z.strictObject({
    kind: z.literal('decide'),
    reading: READING_KEY,
    choice: z.enum(['keep', 'leave-out']),
    reason: longText,
  }),
  z.strictObject({ kind: z.literal('take-back'), reading: READING_KEY }),
  z.strictObject({ kind: z.literal('type-reading'), reading: typedReading }),
  z.strictObject({ kind: z.literal('remove-typed'), index: z.int().min(0).max(100_000) }),
  z.strictObject({ kind: z.literal('set'), settings }),
])

export type WindowEdit = z.infer<typeof WINDOW_EDIT>
export type Answers = z.infer<typeof logAnswers>
