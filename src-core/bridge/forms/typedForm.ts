import type { TypedReading } from '../../model/decision'
import { MEASURING_RANGE_MG_DL, UNIT_TELLTALE } from '../../reference/meter'
import type { GlucoseUnit } from '../../units/glucose'
import { parseIsoDay } from '../../units/wallClock'
import { fieldReader } from './fields'
import type { FieldFault, Fields } from './formRequest'
import type { Words } from '../../wording/words'

/** Nobody types older readings; a date field takes the year 26 without a word. */
const EARLIEST_YEAR = '1980'

const MARKERS: readonly (readonly ['LO' | 'HI', RegExp])[] = [
  ['LO', /^(lo|low|<\s*20|<\s*1[.,]1)$/i],
  ['HI', /^(hi|high|>\s*600|>\s*33[.,]3)$/i],
]

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/

/** A reading as a form of the window gives it. `now`: 'YYYY-MM-DDTHH:MM'; a later one is still to come. */
export function typedOf(
  words: Words,
  fields: Fields,
  now: string,
): { readonly reading: TypedReading } | { readonly faults: readonly FieldFault[] } {
  const { text, neededText, wrong, faults } = fieldReader(words, fields)
  const day = neededText('date')
  if (day !== '' && (!/^\d{4}-\d{2}-\d{2}$/.test(day) || parseIsoDay(day) === null)) {
    wrong('date', words.forms.FORM_WORDS.day)
  } else if (day !== '' && day < EARLIEST_YEAR) wrong('date', words.forms.FORM_WORDS.year)
  const time = neededText('time')
  if (time !== '' && !TIME.test(time)) wrong('time', words.forms.FORM_WORDS.time)
  if (faults.length === 0 && `${day}T${time}` > now) wrong('date', words.forms.FORM_WORDS.toCome)
  const unit = text('unit') === 'mmol/L' ? 'mmol/L' : 'mg/dL'
  const value = typedValue(words, fields, unit, wrong)
  if (faults.length > 0) return { faults }
  const meal = text('meal')
  const note = text('note')
  return {
    reading: { at: `${day}T${time}`, value, unit, ...(meal && { meal }), ...(note && { note }) },
  }
}

/** A number that meters show in this unit, or a marker; what it is not is told. */
function typedValue(
  words: Words,
  fields: Fields,
  unit: GlucoseUnit,
  wrong: (field: string, message: string) => void,
): TypedReading['value'] {
  const written = fields.value?.trim() ?? ''
  const marker = MARKERS.find(([, form]) => form.test(written))
  if (marker) return marker[0]
  const reader = fieldReader(words, fields)
  const value = reader.neededNumber('value', words.forms.FORM_WORDS.reading)
  if (reader.faults.length > 0) {
    wrong('value', reader.faults[0].message)
  } else if (unit === 'mg/dL' && !Number.isInteger(value)) {
    // 6.7 typed where mg/dL is chosen would be a low that never was.
    wrong('value', words.forms.notOfUnit(unit))
  } else if (
    unit === 'mg/dL' ? isBeyond(value, MEASURING_RANGE_MG_DL) : isBeyond(value, MEASURING_RANGE_MMOL)
  ) {
    wrong('value', words.forms.FORM_WORDS.beyondMeters)
  }
  return value
}

/** The same range as meters in mmol/L show it. */
const MEASURING_RANGE_MMOL = { lowest: 1.1, highest: UNIT_TELLTALE.highestMmol } as const

function isBeyond(value: number, { lowest, highest }: { readonly lowest: number; readonly highest: number }) {
  return value < lowest || value > highest
}
