import { type SyntheticEvent, useContext, useEffect, useRef, useState } from 'react'
import type { FieldFault, Fields } from '../../src-core/bridge/forms/formRequest'
import { DraftsContext } from '../drafts'
import { Field } from './Field'
import { fieldsToSend, type FieldSpec, halfWritten, longFields, shownFields } from './formSpecs'
import { useWords } from '../words'

interface Props {
  readonly label: string
  /** What it is for, so that what was written is there again when the person comes back. */
  readonly draft: string
  readonly specs: readonly FieldSpec[]
  readonly fields: Fields
  /** On the button. */
  readonly action: string
  /** Gives what is wrong with the fields; none where the form was taken. */
  readonly onSend: (fields: Fields) => Promise<readonly FieldFault[]>
  /** Null where there is nothing to go back to. */
  readonly onCancel: (() => void) | null
}

/** Fields that are sent together; what is wrong with one stands at it, and the first such field takes the focus. */
export function EntryForm({ label, draft, specs, fields, action, onSend, onCancel }: Props) {
  const { visitForms, windowWork } = useWords()
  const drafts = useContext(DraftsContext)
  const [written, setWritten] = useState<Fields>(drafts.get(draft) ?? fields)
  const [faults, setFaults] = useState<readonly FieldFault[]>([])
  const form = useRef<HTMLFormElement>(null)
  const isOpened = onCancel !== null
  const sending = useRef(false)
  const isBegun = specs.some(({ name }) => (written[name] ?? '') !== (fields[name] ?? ''))
  const shown = shownFields(specs, written)
  // What is opened to be filled in is begun at once.
  useEffect(() => {
    if (isOpened) form.current?.querySelector<HTMLElement>('input,select,textarea')?.focus()
  }, [isOpened])
  useEffect(() => {
    if (faults.length > 0) form.current?.querySelector<HTMLElement>('[aria-invalid=true]')?.focus()
  }, [faults])

  function send(event: SyntheticEvent) {
    event.preventDefault()
    if (sending.current) return
    const all = fieldsToSend(specs, { ...written, ...halfWritten(form.current) })
    const long = longFields(shown, all)
    if (long.length > 0) return setFaults(long.map((field) => ({ field, message: '' })))
    const staying = Object.fromEntries(specs.flatMap(({ name, stays }) => (stays ? [[name, all[name]]] : [])))
    // The second of a double click would add it twice.
    sending.current = true
    void onSend(all).then((found) => {
      sending.current = false
      setFaults(found)
      if (found.length > 0) return
      drafts.delete(draft)
      setWritten({ ...fields, ...staying })
      const next = Object.keys(staying).length === 0 ? undefined : specs.find(({ stays }) => !stays)
      if (next) form.current?.querySelector<HTMLElement>(`[name="${next.name}"]`)?.focus()
    })
  }

  function write(name: string, value: string) {
    const next = { ...written, [name]: value }
    drafts.set(draft, next)
    setWritten(next)
  }

  function cancel() {
    drafts.delete(draft)
    onCancel?.()
  }

  return (
    <form ref={form} className="entry-form" aria-label={label} noValidate onSubmit={send}>
      {shown.map((spec) => (
        <Field
          key={spec.name}
          spec={spec}
          value={written[spec.name] ?? spec.choices?.[0].value ?? ''}
          fault={faults.find(({ field }) => field === spec.name)?.message ?? ''}
          onChange={(value) => write(spec.name, value)}
        />
      ))}
      <p className="actions">
        <button type="submit">{action}</button>
        {isBegun && <span className="quiet">{visitForms.notYetText(action)}</span>}
        {onCancel && (
          <button type="button" className="link" onClick={cancel}>
            {windowWork.CANCEL}
          </button>
        )}
      </p>
    </form>
  )
}
