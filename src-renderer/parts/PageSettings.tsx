import type { DocumentView } from '../../src-core/bridge/visitState'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import type { VisitHold } from '../useVisit'
import { useLiveFields } from '../useLiveFields'
import { LabelInput } from './LabelInput'
import { useWords } from '../words'

interface Props {
  readonly visit: VisitHold
  readonly document: DocumentView
  readonly unit: GlucoseUnit
}

const PAPERS = ['A4', 'Letter'] as const
const UNITS = ['mg/dL', 'mmol/L'] as const
/** Lengths of the diary that are offered. */
const DIARIES = [0, 14, 28, 90, 'all'] as const

/** What the printed pages need to be told. */
export function PageSettings({ visit, document: { paper, unit, label, diary }, unit: unitOfLogs }: Props) {
  const { pagesScreen } = useWords()
  const diaries = [...new Set([...DIARIES, diary])]
  const same = <T extends string>(choices: readonly T[]) => choices.map((value) => ({ value, label: value }))
  return (
    <div className="filters">
      <Choice
        of="paper"
        name={pagesScreen.PAPER}
        value={paper}
        choices={same(PAPERS)}
        onChoose={(chosen) =>
          visit.edit({ kind: 'set', settings: { paper: chosen } }, pagesScreen.paperChosen(chosen))
        }
      />
      <Choice
        of="unit"
        name={pagesScreen.UNIT}
        value={unit ?? unitOfLogs}
        choices={same(UNITS)}
        onChoose={(chosen) =>
          visit.edit({ kind: 'set', settings: { unit: chosen } }, pagesScreen.unitChosen(chosen))
        }
      />
      <Choice
        of="diary"
        name={pagesScreen.DIARY}
        value={diary}
        choices={diaries.map((days) => ({ value: days, label: pagesScreen.diaryName(days) }))}
        onChoose={(days) =>
          visit.edit({ kind: 'set', settings: { diary: days } }, pagesScreen.diaryChosen(days))
        }
      />
      <label className="label-field" htmlFor="page-label">
        {pagesScreen.HEAD_OF_PAGES}
        <LabelInput id="page-label" label={label} visit={visit} placeholder={pagesScreen.NO_LABEL} />
      </label>
    </div>
  )
}

function Choice<T extends string | number>(props: {
  /** What is chosen; `name`: what it is called. */
  readonly of: string
  readonly name: string
  readonly value: T
  readonly choices: readonly { readonly value: T; readonly label: string }[]
  readonly onChoose: (value: T) => Promise<boolean>
}) {
  const { of, name, value, choices, onChoose } = props
  const fields = useLiveFields({
    of: `page ${of}`,
    name,
    fields: { [of]: String(value) },
    send: async (written) => {
      const chosen = choices.find((choice) => String(choice.value) === written[of])
      // One that is not taken is told, and what holds is shown again.
      if (chosen !== undefined) await onChoose(chosen.value)
      return []
    },
  })
  return (
    <label>
      {name}
      <select
        value={fields.values[of]}
        onChange={({ currentTarget }) => fields.choose({ [of]: currentTarget.value })}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </label>
  )
}
