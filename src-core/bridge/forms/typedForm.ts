import { POSSIBLE_MG_DL } from '../../reference/meter'
import { toMgDl } from '../../units/glucose'
import { parseIsoDay } from '../../units/wallClock'
import type { TypedReading } from '../../visit/visit'
import { FORM_WORDS, notOfUnit } from '../../wording/forms'
import { fieldReader } from './fields'
import type { FieldFault, Fields } from './formRequest'

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/

/** A reading as a form of the window gives it. `now`: 'YYYY-MM-DDTHH:MM'; a later one is still to come. */
export function typedOf(
  fields: Fields,
  now: string,
): { readonly reading: TypedReading } | { readonly faults: readonly FieldFault[] } {
  const { text, neededText, neededNumber, wrong, faults } = fieldReader(fields)
  const day = neededText('date')
  if (day !== '' && (!/^\d{4}-\d{2}-\d{2}$/.test(day) || parseIsoDay(day) === null)) {
    wrong('date', FORM_WORDS.day)
  }
  const time = neededText('time')
  if (time !== '' && !TIME.test(time)) wrong('time', FORM_WORDS.time)
  if (faults.length === 0 && `${day}T${time}` > now) wrong('date', FORM_WORDS.toCome)
  const value = neededNumber('value')
  const unit = text('unit') === 'mmol/L' ? 'mmol/L' : 'mg/dL'
  const mgDl = toMgDl(value, unit)
  if (value <= 0 || mgDl < POSSIBLE_MG_DL.least || mgDl > POSSIBLE_MG_DL.most) {
    wrong('value', notOfUnit(unit))
  } else if (unit === 'mg/dL' && !Number.isInteger(value)) {
    // 6.7 typed where mg/dL is chosen would be a low that never was.
    wrong('value', notOfUnit(unit))
  }
  if (faults.length > 0) return { faults }
  const meal = text('meal')
  const note = text('note')
  return {
    reading: { at: `${day}T${time}`, value, unit, ...(meal && { meal }), ...(note && { note }) },
  }
}
