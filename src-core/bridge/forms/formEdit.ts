import {
  rangesIn,
  type RangeRequest,
  resolveGoal,
  resolveTargets,
  targetEnds,
  type TargetRequest,
} from '../../analysis/targets'
import { isTargetPreset } from '../../reference/targetPreset'
import type { GlucoseUnit } from '../../units/glucose'
import { parseIsoDay } from '../../units/wallClock'
import { type Edit, keyOfTyped } from '../../visit/edits'
import type { Visit } from '../../visit/visit'
import { fieldReader, known } from './fields'
import type { FieldFault, Fields, FormRequest } from './formRequest'
import { kitAfter } from './kitForms'
import { typedOf } from './typedForm'
import type { Words } from '../../wording/words'

export type FormRead = { readonly edit: Edit } | { readonly faults: readonly FieldFault[] }

/** What a form is read beside. */
export interface FormContext {
  /** The unit that is printed before. */
  readonly unit: GlucoseUnit
  /** Printed where the person names none. */
  readonly unitOfLogs: GlucoseUnit
  /** 'YYYY-MM-DDTHH:MM' now. */
  readonly now: string
}

/** The one edit that a form asks for, or what is wrong with its fields. */
export function formEdit(
  words: Words,
  visit: Visit,
  { form, place, fields, corrects }: FormRequest,
  context: FormContext,
): FormRead {
  const { kit, typed } = visit
  const { now } = context
  switch (form) {
    case 'targets':
      return targetsEdit(words, visit, fields ?? {}, context)
    case 'treatment': {
      const { text } = fieldReader(words, fields ?? {})
      const answer = text('answer')
      const told = {
        canCauseLows: answer === 'yes' || answer === 'no' ? answer === 'yes' : undefined,
        diabetes: text('diabetes'),
        treatment: text('treatment'),
        agreedTargets: text('agreedTargets'),
      }
      return setting({ kit: known({ ...kit, ...told }) })
    }
    case 'typed': {
      if (fields === null) return { edit: { kind: 'remove-typed', index: place ?? typed.length } }
      const read = typedOf(words, fields, now)
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
        return { faults: [{ field: 'date', message: words.forms.FORM_WORDS.toCome }] }
      }
      const after = kitAfter(words, kit, form, place, fields)
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

/**
 * Targets, goal and unit are filled in one by one: a target of one's own begins with the ends that hold, and what was
 * named in a unit goes over into another.
 */
function targetsEdit(
  words: Words,
  visit: Visit,
  fields: Fields,
  { unit: before, unitOfLogs }: FormContext,
): FormRead {
  const { text, neededNumber, wrong, faults } = fieldReader(words, fields)
  const written = text('unit')
  const unit = written === 'mg/dL' || written === 'mmol/L' ? written : null
  const printed = unit ?? unitOfLogs
  const inPrinted = rangesIn(visit, before, printed)

  /** `held`: what holds, in the unit before and in the one printed from now on. */
  function range(
    names: readonly [string, string],
    held: readonly [RangeRequest | null, RangeRequest | null],
    resolve: (request: RangeRequest) => object,
  ): RangeRequest {
    const [old, now] = held
    if (old && now && names.every((name, end) => text(name) === String(end === 0 ? old.low : old.high)))
      return now
    const faultsBefore = faults.length
    const [low, high] = names.map((name) => neededNumber(name))
    if (low >= high) wrong(names[1], words.forms.FORM_WORDS.upsideDown)
    else if (faults.length === faultsBefore && 'wrong' in resolve({ low, high }))
      wrong(names[0], words.forms.notOfUnit(printed))
    return { low, high }
  }

  const group = text('group')
  let targets: TargetRequest | null = null
  if (isTargetPreset(group)) targets = group
  else if (group === 'own') {
    const isNew = text('low') === undefined && text('high') === undefined
    targets =
      isNew && named(visit.targets) === null
        ? targetEnds(visit.targets, printed)
        : range(['low', 'high'], [named(visit.targets), named(inPrinted.targets)], (ends) =>
            resolveTargets(ends, printed),
          )
  }
  const hasGoal = text('goalLow') !== undefined || text('goalHigh') !== undefined
  const goal = hasGoal
    ? range(['goalLow', 'goalHigh'], [visit.goal, inPrinted.goal], (ends) => resolveGoal(ends, printed))
    : null
  if (faults.length > 0) return { faults }
  // What is not changed is not named among what undo takes back.
  const isSame = (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other)
  return setting({
    ...(unit !== visit.unit && { unit }),
    ...(!isSame(targets, visit.targets) && { targets }),
    ...(!isSame(goal, visit.goal) && { goal }),
  })
}

function named(targets: TargetRequest | null): RangeRequest | null {
  return typeof targets === 'object' ? targets : null
}
