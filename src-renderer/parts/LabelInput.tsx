import { type ComponentProps, useId, useState } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { lengthFault } from '../lengthFault'
import type { VisitHold } from '../useVisit'

interface Props extends ComponentProps<'input'> {
  readonly label: string
  readonly visit: VisitHold
}

/** The label is part of the visit once it is left, not with every letter: undo takes back a whole label. */
export function LabelInput({ label, visit, ...input }: Props) {
  const [written, setWritten] = useState(label)
  const id = useId()
  const changed = written.trim()
  const fault = lengthFault(changed, MESSAGE_LIMITS.label)
  return (
    <>
      <input
        {...input}
        type="text"
        value={written}
        aria-invalid={fault !== ''}
        aria-describedby={fault === '' ? input['aria-describedby'] : id}
        onChange={({ currentTarget }) => setWritten(currentTarget.value)}
        onBlur={() => {
          if (changed === label || fault !== '') return
          visit.edit({ kind: 'set', settings: { label: changed } }, 'Label changed.')
        }}
      />
      {fault !== '' && (
        <span id={id} className="missing">
          {fault}
        </span>
      )}
    </>
  )
}
