import { z } from 'zod'
import { READING_KEY } from '../windowEdit'

/** What a person tells of a visit besides its logs, one form for each. */
export const FORMS = [
  'strips',
  'controls',
  'medicines',
  'clocks',
  'laboratoryA1c',
  'changes',
  'questions',
  'treatment',
  'targets',
  'typed',
] as const
export type FormName = (typeof FORMS)[number]

/** A form as it was filled in: every field as text, an empty one for what is not known. */
export const FORM_REQUEST = z.strictObject({
  form: z.enum(FORMS),
  /** Which entry of its list it changes; null adds one. */
  place: z.int().min(0).max(100_000).nullable(),
  /** Null takes the entry away. */
  fields: z.record(z.string().max(40), z.string().max(2_000)).nullable(),
  /** The log's own reading that a typed one stands for. */
  corrects: READING_KEY.exactOptional(),
})
export type FormRequest = z.infer<typeof FORM_REQUEST>
export type Fields = Readonly<Record<string, string>>

/** What is wrong with one field, and the way out. */
export interface FieldFault {
  readonly field: string
  readonly message: string
}
