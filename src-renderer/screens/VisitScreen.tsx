import type { Bridge } from '../../src-core/bridge/contract'
import type { VisitState } from '../../src-core/bridge/visitState'
import { AboutSection } from '../parts/AboutSection'
import { EntriesSection } from '../parts/EntriesSection'
import { FileSection } from '../parts/FileSection'
import { formSpecs } from '../parts/formSpecs'
import type { FileAsk } from '../useFile'
import { useForm } from '../useForm'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly ask: FileAsk
  /** Which part is in hand. */
  readonly part: string
  readonly onPart: (part: string) => void
  readonly onOpen: () => void
}

/** What belongs to the visit besides its logs: its file, and what the person tells. */
export function VisitScreen({ bridge, visit, state, ask, part, onPart, onOpen }: Props) {
  const fill = useForm(bridge, visit)
  const words = useWords()
  const { visitForms } = words
  const specs = formSpecs(words)
  const { forms } = state.visit
  const spec = specs.find(({ form }) => form === part)
  const opened = state.report.kind === 'opened' ? state.report : null
  const unit = state.visit.unit ?? opened?.unit ?? 'mg/dL'
  const parts = [
    { name: 'file', title: visitForms.FILE, count: state.file.edited ? visitForms.EDITED : '' },
    { name: 'about', title: visitForms.ABOUT.title, count: '' },
    ...specs.map(({ form, title }) => ({ name: form, title, count: String(forms[form].length || '') })),
  ]
  return (
    <div className="visit-screen">
      <nav className="sections" aria-label={visitForms.PARTS}>
        <ul>
          {parts.map(({ name, title, count }) => (
            <li key={name}>
              <button
                type="button"
                aria-current={name === part ? 'true' : undefined}
                onClick={() => onPart(name)}
              >
                {title} <span className="count">{count}</span>
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <section className="section" aria-labelledby="section-heading">
        {spec ? (
          <EntriesSection key={part} spec={spec} forms={forms} unit={unit} opened={opened} fill={fill} />
        ) : part === 'about' ? (
          <AboutSection state={state} visit={visit} fill={fill} />
        ) : (
          <FileSection bridge={bridge} visit={visit} file={state.file} ask={ask} onOpen={onOpen} />
        )}
      </section>
    </div>
  )
}
