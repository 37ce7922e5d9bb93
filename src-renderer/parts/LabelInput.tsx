import { type ComponentProps, useState } from 'react'
import type { VisitHold } from '../useVisit'

interface Props extends ComponentProps<'input'> {
  readonly label: string
  readonly visit: VisitHold
}

/** The label is part of the visit once it is left, not with every letter: undo takes back a whole label. */
export function LabelInput({ label, visit, ...input }: Props) {
  const [written, setWritten] = useState(label)
  return (
    <input
      {...input}
      type="text"
      maxLength={200}
      value={written}
      onChange={({ currentTarget }) => setWritten(currentTarget.value)}
      onBlur={() => {
        const changed = written.trim()
        if (changed !== label) visit.edit({ kind: 'set', settings: { label: changed } }, 'Label changed.')
      }}
    />
  )
}
