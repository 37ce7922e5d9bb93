import type { Decision, ReadingKey, TypedReading } from '../../src-core/model/decision'
import fc from 'fast-check'
import type { Kit } from '../../src-core/kit/kit'
import type { Edit } from '../../src-core/visit/edits'
import type { Visit, VisitLog } from '../../src-core/visit/visit'
import { TARGET_PRESETS } from '../../src-core/reference/targetPreset'
import { isoDay } from '../../src-core/units/wallClock'
import { BYTE_TOOLS } from '../../src-main/files/byteTools'

/** A log with the hash of its bytes. */
export function visitLog(
  name: string,
  content: string | Uint8Array,
  answers: VisitLog['answers'] = {},
): VisitLog {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content
  return { name, bytes, sha256: BYTE_TOOLS.sha256(bytes), answers }
}

// Any visit: texts of every script, half characters among them.

const text = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.string({ unit: 'binary' }),
  fc.constant('\ud800"\\\n\u2028'),
)
const day = fc.integer({ min: 0, max: 40_000 })
const unit = fc.constantFrom('mg/dL' as const, 'mmol/L' as const)
const minuteText = fc
  .tuple(day, fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
  .map(
    ([of, hour, minute]) =>
      `${isoDay(of)}T${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`,
  )
const span = fc.tuple(day, fc.nat(400)).map(([from, length]) => ({ from, to: from + length }))
const sha256 = fc.stringMatching(/^[0-9a-f]{64}$/)
const optional = { requiredKeys: [] as [] }

const log: fc.Arbitrary<VisitLog> = fc
  .tuple(
    text.filter((name) => name !== ''),
    fc.uint8Array(),
    fc.record(
      { unit, dates: fc.constantFrom('ymd' as const, 'dmy' as const, 'mdy' as const), columns: text },
      optional,
    ),
  )
  .map(([name, bytes, answers]) => visitLog(name, new Uint8Array(bytes), answers))

const key: fc.Arbitrary<ReadingKey> = fc.record({
  at: fc.oneof(
    minuteText,
    minuteText.map((at) => at.slice(0, 10)),
    minuteText.map((at) => `${at}:07`),
  ),
  value: fc.constantFrom('104', '5.8', '>500', '<20'),
  unit,
  meter: text,
  log: sha256,
})

const typedKey = { at: minuteText, value: fc.double({ min: 0.1, max: 1000, noNaN: true }), unit }

const decision: fc.Arbitrary<Decision> = fc.record(
  {
    reading: key,
    choice: fc.constantFrom('keep' as const, 'leave-out' as const),
    reason: text,
    correctedTo: fc.record(typedKey),
    decidedAt: minuteText,
  },
  { requiredKeys: ['reading', 'choice', 'reason', 'decidedAt'] },
)

const typed: fc.Arbitrary<TypedReading> = fc.record(
  { ...typedKey, meal: text, note: text },
  { requiredKeys: ['at', 'value', 'unit'] },
)

const kit: fc.Arbitrary<Kit> = fc.record(
  {
    questions: fc.array(
      fc.string({ minLength: 1 }).filter((question) => question === question.trim()),
      { maxLength: 3 },
    ),
    canCauseLows: fc.boolean(),
    treatment: fc.string({ minLength: 1 }).filter((said) => said === said.trim()),
    laboratoryA1c: fc.array(
      fc.record({ date: day.map(isoDay), percent: fc.double({ min: 3, max: 20, noNaN: true }) }),
      { maxLength: 3 },
    ),
  },
  optional,
)

const settings = {
  kit,
  shifts: fc.array(
    fc.tuple(span, fc.integer({ min: 1, max: 5_999_999 })).map(([of, minutes]) => ({ ...of, minutes })),
    { maxLength: 3 },
  ),
  period: fc.option(span),
  versus: fc.option(span),
  targets: fc.option(
    fc.oneof(
      fc.constantFrom(...TARGET_PRESETS),
      fc.record({
        low: fc.double({ min: 1, max: 99, noNaN: true }),
        high: fc.double({ min: 100, max: 300, noNaN: true }),
      }),
    ),
  ),
  goal: fc.option(
    fc.record({
      low: fc.double({ min: 1, max: 99, noNaN: true }),
      high: fc.double({ min: 100, max: 300, noNaN: true }),
    }),
  ),
  unit: fc.option(unit),
  zone: fc.option(fc.constantFrom('Europe/Berlin', 'UTC', 'America/St_Johns')),
  paper: fc.constantFrom('A4' as const, 'Letter' as const),
  label: text,
  diary: fc.oneof(fc.constantFrom(null, 'all' as const), fc.nat(99_999)),
}

export const anyVisit: fc.Arbitrary<Visit> = fc.record({
  logs: fc.array(log, { maxLength: 3 }),
  typed: fc.array(typed, { maxLength: 4 }),
  decisions: fc.array(decision, { maxLength: 4 }),
  ...settings,
})

// Few logs and readings, so that the edits of a sequence meet the same ones.
const fewLogs = ['a', 'b', 'c'].map((name) => visitLog(name, name))
const fewKeys = ['104', '61'].map((value): ReadingKey => ({
  at: '2026-03-02T07:10',
  value,
  unit: 'mg/dL',
  meter: 'meter A',
  log: fewLogs[0].sha256,
}))
const oneOfLogs = fc.constantFrom(...fewLogs)
const hash = oneOfLogs.map((of) => of.sha256)

export const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.array(oneOfLogs, { maxLength: 3 }).map((logs) => ({ kind: 'add-logs' as const, logs })),
  hash.map((of) => ({ kind: 'remove-log' as const, sha256: of })),
  fc
    .tuple(hash, unit)
    .map(([of, answer]) => ({ kind: 'answer' as const, sha256: of, answers: { unit: answer } })),
  fc
    .tuple(decision, fc.constantFrom(...fewKeys))
    .map(([of, reading]) => ({ kind: 'decide' as const, decision: { ...of, reading } })),
  fc.constantFrom(...fewKeys).map((reading) => ({ kind: 'take-back' as const, reading })),
  typed.map((reading) => ({ kind: 'type-reading' as const, reading })),
  fc.nat(3).map((index) => ({ kind: 'remove-typed' as const, index })),
  fc.record(settings, optional).map((of) => ({ kind: 'set' as const, settings: of })),
)
