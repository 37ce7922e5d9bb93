import { type ComponentProps, useId } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { lengthFault } from '../lengthFault'
import { NOT_TAKEN } from '../useForm'
import { useLiveFields } from '../useLiveFields'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props extends ComponentProps<'input'> {
  readonly label: string
  readonly visit: VisitHold
}

/** The label is part of the visit once it is left, not with every letter: undo takes back a whole label. */
export function LabelInput({ label, visit, ...input }: Props) {
  const words = useWords()
  const { pagesScreen } = words
  const id = useId()
  const fields = useLiveFields({
    of: 'label',
    name: pagesScreen.HEAD_OF_PAGES,
    fields: { label },
    check: (written) => {
      const message = lengthFault(words, written.label.trim(), MESSAGE_LIMITS.label)
      return message === '' ? [] : [{ field: 'label', message }]
    },
    send: async (written) => {
      const made = await visit.edit(
        { kind: 'set', settings: { label: written.label.trim() } },
        pagesScreen.LABEL_CHANGED,
      )
      return made ? [] : NOT_TAKEN
    },
  })
  const fault = lengthFault(words, fields.values.label.trim(), MESSAGE_LIMITS.label)
  return (
    <>
      <input
        {...input}
        type="text"
        value={fields.values.label}
        aria-invalid={fault !== ''}
        aria-describedby={fault === '' ? input['aria-describedby'] : id}
        onChange={({ currentTarget }) => fields.write('label', currentTarget.value)}
        onKeyDown={({ key }) => key === 'Enter' && fields.leave()}
        onBlur={fields.blur}
      />
      {fault !== '' && (
        <span id={id} className="missing">
          {fault}
        </span>
      )}
    </>
  )
}
