import { useState } from 'react'
import type { VisitHold } from '../useVisit'

/** The label is part of the visit once it is left, not with every letter: undo takes back a whole label. */
export function LabelField({ label, visit }: { readonly label: string; readonly visit: VisitHold }) {
  const [written, setWritten] = useState(label)
  return (
    <p className="field">
      <label htmlFor="label">At the head of each page</label>
      <input
        id="label"
        type="text"
        maxLength={200}
        value={written}
        aria-describedby="label-hint"
        onChange={({ currentTarget }) => setWritten(currentTarget.value)}
        onBlur={() => {
          const changed = written.trim()
          if (changed !== label) visit.edit({ kind: 'set', settings: { label: changed } }, 'Label changed.')
        }}
      />
      <span id="label-hint" className="quiet">
        May stay empty: the pages then leave a line for name and date of birth.
      </span>
    </p>
  )
}
