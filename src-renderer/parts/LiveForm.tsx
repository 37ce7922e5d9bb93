import { useEffect, useRef } from 'react'
import type { FieldFault, Fields } from '../../src-core/bridge/forms/formRequest'
import type { FormsView } from '../../src-core/bridge/forms/formsView'
import { useLiveFields } from '../useLiveFields'
import { Field } from './Field'
import { fieldsToSend, type FieldSpec, halfWritten, longFields, shownFields } from './formSpecs'
import { useWords } from '../words'

interface Props {
  readonly label: string
  /** What it is for, so that what was not taken in is there again when the person comes back. */
  readonly of: string
  readonly specs: readonly FieldSpec[]
  readonly forms: FormsView
  /** Its fields as they stand in the visit. */
  readonly held: (forms: FormsView) => Fields
  /** Gives what is wrong with the fields; none where they were taken. */
  readonly onSend: (fieldsThen: (forms: FormsView) => Fields) => Promise<readonly FieldFault[]>
  /** Whether the person has just opened it. */
  readonly isOpened?: boolean
}

/** Fields of something that is part of the visit: each is taken in when it is left, a choice at once. */
export function LiveForm({ label, of, specs, forms, held, onSend, isOpened = false }: Props) {
  const { visitForms } = useWords()
  const form = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (isOpened) form.current?.querySelector<HTMLElement>('input,select,textarea')?.focus()
  }, [isOpened])
  const live = useLiveFields({
    of,
    name: label,
    fields: held(forms),
    half: () => halfWritten(form.current),
    check: (all) => longFields(specs, all).map((field) => ({ field, message: '' })),
    send: (_, written) => onSend((then) => fieldsToSend(specs, { ...held(then), ...written })),
  })
  const { values, faults } = live
  return (
    <div ref={form} className="entry-form" role="group" aria-label={label}>
      {shownFields(specs, values).map((spec) => (
        <Field
          key={spec.name}
          spec={spec}
          value={values[spec.name] ?? spec.choices?.[0].value ?? ''}
          fault={faults.find(({ field }) => field === spec.name)?.message ?? ''}
          onChange={(value) =>
            spec.kind === 'choice' ? live.choose({ [spec.name]: value }) : live.write(spec.name, value)
          }
          onLeave={live.blur}
        />
      ))}
      {faults.length > 0 && (
        <p className="actions">
          <span className="missing">{visitForms.NOT_TAKEN_IN}</span>
          <button type="button" className="link" onClick={live.forget}>
            {visitForms.BACK_TO_WHAT_HOLDS}
          </button>
        </p>
      )}
    </div>
  )
}
