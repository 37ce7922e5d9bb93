import type { z } from 'zod'

/** How a value of the kit can be wrong beyond its kind and its limits. */
const KIT_FAULTS = ['date', 'moment', 'noSuchDay', 'year', 'upsideDown', 'notOfUnit', 'oneA1c'] as const
export type KitFault = (typeof KIT_FAULTS)[number]

/** Why a value of the kit does not fit. */
export type WrongValue =
  | { readonly key: KitFault | 'missing' }
  /** The kind that it has to be, in the words of the shapes' library. */
  | { readonly key: 'kind'; readonly expected: string }
  | { readonly key: 'one-of'; readonly values: readonly string[] }
  | {
      readonly key: 'outside'
      readonly what: 'list' | 'text' | 'number'
      readonly bound: 'least' | 'most'
      readonly limit: number
      readonly included: boolean
    }

/** The fault that the shapes give as their message. */
function faultOf(said: string): KitFault | undefined {
  return KIT_FAULTS.find((code) => code === said)
}

/** What an issue of the kit's shapes says of a value. */
export function wrongValue(issue: z.core.$ZodIssue): WrongValue {
  const fault = faultOf(issue.message)
  if (fault !== undefined) return { key: fault }
  if (issue.code === 'too_small' || issue.code === 'too_big') {
    const what = issue.origin === 'array' ? 'list' : issue.origin === 'string' ? 'text' : 'number'
    const [bound, limit] =
      issue.code === 'too_small' ? (['least', issue.minimum] as const) : (['most', issue.maximum] as const)
    return { key: 'outside', what, bound, limit: Number(limit), included: issue.inclusive !== false }
  }
  if (issue.input === undefined) return { key: 'missing' }
  if (issue.code === 'invalid_value') return { key: 'one-of', values: issue.values.map(String) }
  return { key: 'kind', expected: issue.code === 'invalid_type' ? issue.expected : '' }
}
