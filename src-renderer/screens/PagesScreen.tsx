import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { VisitState } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { useFocusOn } from '../parts/useFocusOn'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly opened: OpenedView
}

const PAPERS = ['A4', 'Letter'] as const
const UNITS = ['mg/dL', 'mmol/L'] as const

/** What the printed pages need to be told. */
export function PagesScreen({ visit, state, opened }: Props) {
  const heading = useFocusOn<HTMLHeadingElement>(null)
  const { paper, unit, label } = state.visit
  return (
    <section className="pages" aria-labelledby="pages-heading">
      <h2 id="pages-heading" ref={heading} tabIndex={-1}>
        Pages
      </h2>
      <LabelField key={label} label={label} visit={visit} />
      <div className="filters">
        <label>
          Paper
          <select
            value={paper}
            onChange={({ currentTarget }) => {
              const chosen = PAPERS.find((name) => name === currentTarget.value)
              if (chosen) visit.edit({ kind: 'set', settings: { paper: chosen } }, `Paper: ${chosen}.`)
            }}
          >
            {PAPERS.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
        <label>
          Unit
          <select
            value={unit ?? opened.unit}
            onChange={({ currentTarget }) => {
              const chosen = UNITS.find((name) => name === currentTarget.value)
              if (chosen) visit.edit({ kind: 'set', settings: { unit: chosen } }, `Unit: ${chosen}.`)
            }}
          >
            {UNITS.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
      </div>
    </section>
  )
}

/** The label is part of the visit once it is left, not with every letter: undo takes back a whole label. */
function LabelField({ label, visit }: { readonly label: string; readonly visit: VisitHold }) {
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
