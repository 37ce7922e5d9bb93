import { type RangeRequest, resolveGoal, resolveTargets, type TargetRequest } from '../../analysis/targets'
import { isTargetPreset } from '../../reference/targetPreset'
import type { GlucoseUnit } from '../../units/glucose'
import { parseIsoDay } from '../../units/wallClock'
import { type Edit, keyOfTyped } from '../../visit/edits'
import type { Visit } from '../../visit/visit'
import { FORM_WORDS, notOfUnit } from '../../wording/forms'
import { fieldReader, without } from './fields'
import type { FieldFault, Fields, FormRequest } from './formRequest'
import { kitAfter } from './kitForms'
import { typedOf } from './typedForm'

export type FormRead = { readonly edit: Edit } | { readonly faults: readonly FieldFault[] }

/** What a form is read beside. */
export interface FormContext {
  /** The unit that is printed where the person names none. */
  readonly unit: GlucoseUnit
  /** 'YYYY-MM-DDTHH:MM' now. */
  readonly now: string
}

/** The one edit that a form asks for, or what is wrong with its fields. */
export function formEdit(
  { kit, typed }: Visit,
  { form, place, fields, corrects }: FormRequest,
  { unit, now }: FormContext,
): FormRead {
  switch (form) {
    case 'targets':
      return targetsEdit(fields ?? {}, unit)
    case 'canCauseLows': {
      const answer = fields?.answer
      const told = answer === 'yes' || answer === 'no' ? { canCauseLows: answer === 'yes' } : {}
      return setting({ kit: { ...without(kit, 'canCauseLows'), ...told } })
    }
    case 'typed': {
      if (fields === null) return { edit: { kind: 'remove-typed', index: place ?? typed.length } }
      const read = typedOf(fields, now)
      if ('faults' in read) return read
      const { reading } = read
      return {
        edit: {
          kind: 'type-reading',
          reading,
          ...(place !== null && { replaces: place }),
          // The log's own stays as it is, a low among the lows; only the averages go by what was typed.
          ...(corrects && {
            insteadOf: {
              reading: corrects,
              choice: 'leave-out',
              reason: '',
              correctedTo: keyOfTyped(reading),
              decidedAt: now,
            },
          }),
        },
      }
    }
    case 'strips':
    case 'controls':
    case 'medicines':
    case 'clocks':
    case 'laboratoryA1c':
    case 'changes':
    case 'questions': {
      if ((form === 'controls' || form === 'laboratoryA1c') && isToCome(fields?.date, now)) {
        return { faults: [{ field: 'date', message: FORM_WORDS.toCome }] }
      }
      const after = kitAfter(kit, form, place, fields)
      return 'faults' in after ? after : setting({ kit: after.kit })
    }
  }
}

/** What is no day is told as such. */
function isToCome(day: string | undefined, now: string): boolean {
  return day !== undefined && parseIsoDay(day) !== null && day > now
}

function setting(settings: Extract<Edit, { kind: 'set' }>['settings']): FormRead {
  return { edit: { kind: 'set', settings } }
}

function targetsEdit(fields: Fields, logged: GlucoseUnit): FormRead {
  const { text, neededNumber, wrong, faults } = fieldReader(fields)
  const written = text('unit')
  const unit = written === 'mg/dL' || written === 'mmol/L' ? written : null
  const group = text('group')
  let targets: TargetRequest | null = null
  if (isTargetPreset(group)) targets = group
  else if (group === 'own') {
    const [low, high] = [neededNumber('low'), neededNumber('high')]
    if (low >= high) wrong('high', FORM_WORDS.upsideDown)
    else if (faults.length === 0 && 'wrong' in resolveTargets({ low, high }, unit ?? logged)) {
      wrong('low', notOfUnit(unit ?? logged))
    }
    targets = { low, high }
  }
  let goal: RangeRequest | null = null
  if (text('goalLow') !== undefined || text('goalHigh') !== undefined) {
    const faultsBefore = faults.length
    const [low, high] = [neededNumber('goalLow'), neededNumber('goalHigh')]
    if (low >= high) wrong('goalHigh', FORM_WORDS.upsideDown)
    else if (faults.length === faultsBefore && 'wrong' in resolveGoal({ low, high }, unit ?? logged)) {
      wrong('goalLow', notOfUnit(unit ?? logged))
    }
    goal = { low, high }
  }
  return faults.length > 0 ? { faults } : setting({ targets, goal, unit })
}
