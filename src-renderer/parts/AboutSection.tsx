import type { VisitState } from '../../src-core/bridge/visitState'
import type { FormAsk } from '../useForm'
import type { VisitHold } from '../useVisit'
import type { FieldSpec } from './formSpecs'
import { LabelInput } from './LabelInput'
import { LiveForm } from './LiveForm'

interface Props {
  readonly state: VisitState
  readonly visit: VisitHold
  readonly fill: FormAsk
}

const CAUSES: readonly FieldSpec[] = [
  {
    name: 'answer',
    label: 'Insulin or tablets that can cause lows',
    kind: 'choice',
    hint: 'Printed for the visit.',
    choices: [
      { value: '', label: 'not told' },
      { value: 'yes', label: 'yes' },
      { value: 'no', label: 'no' },
    ],
  },
]

const OWN = { field: 'group', value: 'own' } as const
const TARGETS: readonly FieldSpec[] = [
  {
    name: 'group',
    label: 'Target range',
    kind: 'choice',
    choices: [
      { value: 'usual', label: 'the usual one' },
      { value: 'pregnancy', label: 'in pregnancy' },
      { value: 'older-adult', label: 'for older adults' },
      { value: 'frail', label: 'for frail older adults' },
      { value: 'own', label: 'one of my own' },
    ],
  },
  { name: 'low', label: 'From', kind: 'number', onlyIf: OWN },
  { name: 'high', label: 'To', kind: 'number', onlyIf: OWN },
  {
    name: 'goalLow',
    label: 'Own goal before meals, from',
    kind: 'number',
    hint: 'Empty: the published goal for the target, where there is one.',
  },
  { name: 'goalHigh', label: 'Own goal before meals, to', kind: 'number' },
  {
    name: 'unit',
    label: 'Unit of the report',
    kind: 'choice',
    choices: [
      { value: '', label: 'as in the logs' },
      { value: 'mg/dL', label: 'mg/dL' },
      { value: 'mmol/L', label: 'mmol/L' },
    ],
  },
]

/** What stands at the head of the pages, the targets, and the unit. */
export function AboutSection({ state, visit, fill }: Props) {
  const { forms, label } = state.visit
  return (
    <>
      <h2 id="section-heading">Label, targets, unit</h2>
      <p className="field">
        <label htmlFor="label">At the head of each page</label>
        <LabelInput label={label} visit={visit} id="label" aria-describedby="label-hint" />
        <span id="label-hint" className="quiet">
          May stay empty: the pages then leave a line for name and date of birth.
        </span>
      </p>
      <h3>Targets and unit</h3>
      <p className="quiet">
        Agreed with the care team. Lows count below the same limits whatever the target is.
      </p>
      <LiveForm
        label="Targets and unit"
        of="targets"
        specs={TARGETS}
        forms={forms}
        held={({ targets }) => targets}
        onSend={(then) =>
          fill({ form: 'targets', place: null, fields: {} }, 'Targets and unit changed.', then)
        }
      />
      <h3>Treatment</h3>
      <LiveForm
        label="Treatment"
        of="canCauseLows"
        specs={CAUSES}
        forms={forms}
        held={({ canCauseLows }) => ({ answer: canCauseLows })}
        onSend={(then) => fill({ form: 'canCauseLows', place: null, fields: {} }, 'Told.', then)}
      />
    </>
  )
}
