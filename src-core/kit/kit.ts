import { z } from 'zod'
import { POSSIBLE_MG_DL, UNIT_TELLTALE } from '../reference/meter'
import { type GlucoseUnit, toMgDl } from '../units/glucose'
import { parseIsoDay } from '../units/wallClock'
import type { KitFault } from './kitFault'

// What a person tells of the measuring besides the logs: the settings file of `--kit`, and what the window edits.
// `kit.schema.json` beside this file is made from these shapes (a test holds them together).

/** What a shape says where a value does not fit is a code: files and forms each have their own words for it. */
function fault(code: KitFault): KitFault {
  return code
}

const LONGEST_TEXT = 2_000
const MOST_ENTRIES = 200

const LIKELY_YEARS = { from: '1900', to: '2199' } as const

/** A date field of a window takes the year 26 as 0026 without a word. */
function isLikelyYear(date: string): boolean {
  const year = date.slice(0, 4)
  return year >= LIKELY_YEARS.from && year <= LIKELY_YEARS.to
}

const text = z.string().trim().min(1).max(LONGEST_TEXT)
const date = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, { error: fault('date'), abort: true })
  .refine((day) => parseIsoDay(day) !== null, { error: fault('noSuchDay'), abort: true })
  .refine(isLikelyYear, { error: fault('year') })
  .meta({ description: 'ISO date: 2026-03-02', format: 'date' })
const moment = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d$/, { error: fault('moment'), abort: true })
  .refine((at) => parseIsoDay(at.slice(0, 10)) !== null, { error: fault('noSuchDay'), abort: true })
  .refine(isLikelyYear, { error: fault('year') })
  .meta({ description: 'ISO date and time: 2026-03-02T08:15' })
const meter = text.meta({
  description: "A meter as its log names it, or 'meter A' as on paper; all if absent",
})
const vial = text.meta({ description: 'Which vial or box of strips, in words of your own' })
const unit = z.enum(['mg/dL', 'mmol/L'])
const list = <T extends z.ZodType>(entry: T) => z.array(entry).max(MOST_ENTRIES)

/** Strips of one vial or box. */
const strips = z
  .strictObject({
    vial: vial.exactOptional(),
    lot: text.exactOptional(),
    meter: meter.exactOptional(),
    expires: date.exactOptional(),
    opened: date.exactOptional(),
    finished: date.exactOptional(),
    daysOnceOpen: z
      .int()
      .min(1)
      .max(3_650)
      .exactOptional()
      .meta({ description: 'How long the leaflet lets an opened vial be used' }),
    workingCelsius: z
      .tuple([z.number().min(-40).max(80), z.number().min(-40).max(80)])
      .refine(([low, high]) => low < high, { error: fault('upsideDown') })
      .exactOptional()
      .meta({ description: 'Lowest and highest temperature of use by the leaflet, °C' }),
  })
  .refine(({ opened, finished }) => !(opened && finished) || opened <= finished, {
    error: fault('upsideDown'),
    path: ['finished'],
  })

/** A test with control solution, and the range printed with the strips. */
const control = z
  .strictObject({
    date,
    meter: meter.exactOptional(),
    vial: vial.exactOptional(),
    result: z.number().positive().max(1_000),
    range: z.tuple([z.number().positive().max(1_000), z.number().positive().max(1_000)]),
    unit,
  })
  .refine(({ range: [low, high] }) => low < high, { error: fault('upsideDown'), path: ['range'] })
  .refine(({ result, range, unit }) => fitsUnit(Math.max(result, ...range), unit), {
    error: fault('notOfUnit'),
    path: ['unit'],
  })

/** Whether the largest of a control's numbers can be of that unit: one in the other unit would fail every control. */
function fitsUnit(largest: number, unit: GlucoseUnit): boolean {
  return unit === 'mg/dL' ? largest >= UNIT_TELLTALE.lowestMgDl : toMgDl(largest, unit) <= POSSIBLE_MG_DL.most
}

const medicine = z
  .strictObject({
    name: text,
    milligramsADay: z.number().positive().max(1_000_000).exactOptional(),
    from: date.exactOptional(),
    to: date.exactOptional(),
  })
  .refine(({ from, to }) => !(from && to) || from <= to, { error: fault('upsideDown'), path: ['to'] })

const clock = z.strictObject({ meter: meter.exactOptional(), shown: moment, true: moment })

const laboratoryA1c = z
  .strictObject({
    date,
    percent: z.number().min(3).max(20).exactOptional(),
    mmolMol: z.number().min(9).max(196).exactOptional(),
  })
  .refine(({ percent, mmolMol }) => (percent === undefined) !== (mmolMol === undefined), {
    error: fault('oneA1c'),
  })

export const KIT = z.strictObject({
  $schema: z.string().exactOptional(),
  strips: list(strips).exactOptional(),
  controls: list(control).exactOptional(),
  medicines: list(medicine).exactOptional(),
  clocks: list(clock).exactOptional(),
  laboratoryA1c: list(laboratoryA1c).exactOptional(),
  teachings: list(z.strictObject({ date, about: text.exactOptional() })).exactOptional(),
  changes: list(text)
    .exactOptional()
    .meta({ description: 'What changed since the last visit: treatment, meter, illness' }),
  canCauseLows: z
    .boolean()
    .exactOptional()
    .meta({ description: 'Whether insulin or tablets that can cause lows are used' }),
  diabetes: text
    .exactOptional()
    .meta({ description: "Type of diabetes and since when, in words of your own: 'type 1, since 1994'" }),
  treatment: text.exactOptional().meta({ description: 'Treatment as the person tells it' }),
  agreedTargets: text.exactOptional().meta({ description: 'Targets as agreed with the care team' }),
  questions: list(text).exactOptional().meta({ description: 'Questions for the visit' }),
})

/** What is known about the measuring besides the logs; every part may be missing. */
export type Kit = z.infer<typeof KIT>
export type Strips = z.infer<typeof strips>
export type ControlResult = z.infer<typeof control>
export type Medicine = z.infer<typeof medicine>
export type ClockCheck = z.infer<typeof clock>
export type LaboratoryA1c = z.infer<typeof laboratoryA1c>
