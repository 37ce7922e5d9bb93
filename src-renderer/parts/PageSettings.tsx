import type { DocumentView } from '../../src-core/bridge/visitState'
import type { VisitHold } from '../useVisit'
import { LabelInput } from './LabelInput'

interface Props {
  readonly visit: VisitHold
  readonly document: DocumentView
  readonly unit: string
}

const PAPERS = ['A4', 'Letter'] as const
const UNITS = ['mg/dL', 'mmol/L'] as const

/** What the printed pages need to be told. */
export function PageSettings({ visit, document: { paper, unit, label }, unit: unitOfLogs }: Props) {
  return (
    <div className="filters">
      <Choice
        name="Paper"
        value={paper}
        choices={PAPERS}
        onChoose={(chosen) => visit.edit({ kind: 'set', settings: { paper: chosen } }, `Paper: ${chosen}.`)}
      />
      <Choice
        name="Unit"
        value={unit ?? unitOfLogs}
        choices={UNITS}
        onChoose={(chosen) => visit.edit({ kind: 'set', settings: { unit: chosen } }, `Unit: ${chosen}.`)}
      />
      <label className="label-field" htmlFor="page-label">
        At the head of each page
        <LabelInput
          key={label}
          id="page-label"
          label={label}
          visit={visit}
          placeholder="empty: a line for name and date of birth"
        />
      </label>
    </div>
  )
}

function Choice<T extends string>(props: {
  readonly name: string
  readonly value: string
  readonly choices: readonly T[]
  readonly onChoose: (value: T) => void
}) {
  const { name, value, choices, onChoose } = props
  return (
    <label>
      {name}
      <select
        value={value}
        onChange={({ currentTarget }) => {
          const chosen = choices.find((choice) => choice === currentTarget.value)
          if (chosen !== undefined) onChoose(chosen)
        }}
      >
        {choices.map((choice) => (
          <option key={choice}>{choice}</option>
        ))}
      </select>
    </label>
  )
}
