import type { DocumentView } from '../../src-core/bridge/visitState'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import type { VisitHold } from '../useVisit'
import { useLiveFields } from '../useLiveFields'
import { LabelInput } from './LabelInput'

interface Props {
  readonly visit: VisitHold
  readonly document: DocumentView
  readonly unit: GlucoseUnit
}

const PAPERS = ['A4', 'Letter'] as const
const UNITS = ['mg/dL', 'mmol/L'] as const
/** Lengths of the diary that are offered. */
const DIARIES = [0, 14, 28, 90, 'all'] as const

function diaryName(days: number | 'all'): string {
  if (days === 'all') return 'all days'
  return days === 0 ? 'left out' : `latest ${days} days`
}

/** What the printed pages need to be told. */
export function PageSettings({ visit, document: { paper, unit, label, diary }, unit: unitOfLogs }: Props) {
  const diaries = [...new Set([...DIARIES, diary])]
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
      <Choice
        name="Diary"
        value={diaryName(diary)}
        choices={diaries.map(diaryName)}
        onChoose={async (chosen) => {
          const days = diaries.find((each) => diaryName(each) === chosen)
          return (
            days !== undefined && visit.edit({ kind: 'set', settings: { diary: days } }, `Diary: ${chosen}.`)
          )
        }}
      />
      <label className="label-field" htmlFor="page-label">
        At the head of each page
        <LabelInput
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
  readonly value: T
  readonly choices: readonly T[]
  readonly onChoose: (value: T) => Promise<boolean>
}) {
  const { name, value, choices, onChoose } = props
  const fields = useLiveFields({
    of: `page ${name}`,
    name,
    fields: { [name]: value },
    send: async (written) => {
      const chosen = choices.find((choice) => choice === written[name])
      // One that is not taken is told, and what holds is shown again.
      if (chosen !== undefined) await onChoose(chosen)
      return []
    },
  })
  return (
    <label>
      {name}
      <select
        value={fields.values[name]}
        onChange={({ currentTarget }) => fields.choose({ [name]: currentTarget.value })}
      >
        {choices.map((choice) => (
          <option key={choice}>{choice}</option>
        ))}
      </select>
    </label>
  )
}
