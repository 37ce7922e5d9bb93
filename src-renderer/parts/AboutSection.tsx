import type { VisitState } from '../../src-core/bridge/visitState'
import type { WindowWords } from '../../src-core/wording/words'
import type { FormAsk } from '../useForm'
import type { VisitHold } from '../useVisit'
import { type FieldSpec, same } from './formSpecs'
import { LabelInput } from './LabelInput'
import { LiveForm } from './LiveForm'
import { useWords } from '../words'

interface Props {
  readonly state: VisitState
  readonly visit: VisitHold
  readonly fill: FormAsk
}

function treatment({ TREATMENT }: WindowWords['visitForms']): readonly FieldSpec[] {
  const { field, choices } = TREATMENT.causes
  const values = ['', 'yes', 'no'] as const
  return [
    {
      name: 'answer',
      kind: 'choice',
      ...field,
      choices: values.map((value) => ({ value, label: choices[value] })),
    },
    { name: 'diabetes', kind: 'text', ...TREATMENT.diabetes },
    { name: 'treatment', kind: 'text', ...TREATMENT.treatment },
    { name: 'agreedTargets', kind: 'text', ...TREATMENT.agreedTargets },
  ]
}

const OWN = { field: 'group', value: 'own' } as const
const GROUPS = ['usual', 'pregnancy', 'older-adult', 'frail', 'own'] as const

function targets({ TARGETS }: WindowWords['visitForms']): readonly FieldSpec[] {
  return [
    {
      name: 'group',
      kind: 'choice',
      ...TARGETS.group,
      choices: GROUPS.map((value) => ({ value, label: TARGETS.groups[value] })),
    },
    { name: 'low', kind: 'number', ...TARGETS.low, onlyIf: OWN },
    { name: 'high', kind: 'number', ...TARGETS.high, onlyIf: OWN },
    { name: 'goalLow', kind: 'number', ...TARGETS.goalLow },
    { name: 'goalHigh', kind: 'number', ...TARGETS.goalHigh },
    {
      name: 'unit',
      kind: 'choice',
      ...TARGETS.unit,
      choices: [{ value: '', label: TARGETS.unitOfLogs }, same('mg/dL'), same('mmol/L')],
    },
  ]
}

/** What stands at the head of the pages, the targets, and the unit. */
export function AboutSection({ state, visit, fill }: Props) {
  const { visitForms } = useWords()
  const { ABOUT } = visitForms
  const { forms, label } = state.visit
  return (
    <>
      <h2 id="section-heading">{ABOUT.title}</h2>
      <p className="field">
        <label htmlFor="label">{ABOUT.label}</label>
        <LabelInput label={label} visit={visit} id="label" aria-describedby="label-hint" />
        <span id="label-hint" className="quiet">
          {ABOUT.labelHint}
        </span>
      </p>
      <h3>{ABOUT.targets}</h3>
      <p className="quiet">{ABOUT.targetsLead}</p>
      <LiveForm
        label={ABOUT.targets}
        of="targets"
        specs={targets(visitForms)}
        forms={forms}
        held={(then) => then.targets}
        onSend={(then) => fill({ form: 'targets', place: null, fields: {} }, ABOUT.targetsChanged, then)}
      />
      <h3>{ABOUT.treatment}</h3>
      <LiveForm
        label={ABOUT.treatment}
        of="treatment"
        specs={treatment(visitForms)}
        forms={forms}
        held={(then) => then.treatment}
        onSend={(then) => fill({ form: 'treatment', place: null, fields: {} }, ABOUT.told, then)}
      />
    </>
  )
}
