import type { FieldFault, Fields } from './formRequest'
import type { Words } from '../../wording/words'

/** Reads the fields of one form, and collects what is wrong with them. */
export interface FieldReader {
  /** Undefined where the field is empty. */
  readonly text: (field: string) => string | undefined
  /** A number with a point or a comma. `otherwise`: what to write where it is none. */
  readonly number: (field: string, otherwise?: string) => number | undefined
  /** A number or text without which nothing can be done. */
  readonly neededNumber: (field: string, otherwise?: string) => number
  readonly neededText: (field: string) => string
  readonly wrong: (field: string, message: string) => void
  readonly faults: readonly FieldFault[]
}

/** '1,000' is a thousand to one person and one to another. */
const MAY_BE_THOUSANDS = /^-?[1-9]\d{0,2}[.,]\d{3}$/

export function fieldReader(words: Words, fields: Fields): FieldReader {
  const faults: FieldFault[] = []
  const wrong = (field: string, message: string) => void faults.push({ field, message })
  const text = (field: string) => (Object.hasOwn(fields, field) ? fields[field].trim() : '') || undefined
  function number(field: string, otherwise: string = words.forms.FORM_WORDS.number): number | undefined {
    const written = text(field)
    if (written === undefined) return undefined
    if (/^-?\d+([.,]\d+)?$/.test(written) && !MAY_BE_THOUSANDS.test(written)) {
      return Number(written.replace(',', '.'))
    }
    wrong(field, MAY_BE_THOUSANDS.test(written) ? words.forms.FORM_WORDS.thousands : otherwise)
    return undefined
  }
  return {
    text,
    number,
    neededNumber: (field, otherwise) => {
      if (text(field) === undefined) wrong(field, words.forms.FORM_WORDS.needed)
      return number(field, otherwise) ?? NaN
    },
    neededText: (field) => {
      const written = text(field)
      if (written === undefined) wrong(field, words.forms.FORM_WORDS.needed)
      return written ?? ''
    },
    wrong,
    faults,
  }
}

/** An object without what is undefined in it. */
export function known<T extends object>(entry: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined)) as never
}

/** An object without one of its keys. */
export function without<T extends object, K extends keyof T & string>(whole: T, key: K): Omit<T, K> {
  return Object.fromEntries(Object.entries(whole).filter(([name]) => name !== key)) as Omit<T, K>
}
