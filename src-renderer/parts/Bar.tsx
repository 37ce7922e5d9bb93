import { isStarted, type Step, stepCount, STEPS } from '../steps'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly visit: VisitHold
  readonly step: Step
  readonly onStep: (step: Step) => void
  readonly onSave: () => void
  /** Null where nothing is open. */
  readonly onMakePdf: (() => void) | null
}

/** The bar at the top: the four steps, and what is always in reach. */
export function Bar({ visit, step, onStep, onSave, onMakePdf }: Props) {
  const words = useWords()
  const { windowFrame } = words
  const { state } = visit
  const report = state?.report ?? null
  const started = state !== null && isStarted(state, step)
  return (
    <header className="bar">
      <h1>{windowFrame.PROGRAM}</h1>
      {started && (
        <nav aria-label={windowFrame.STEPS_LABEL}>
          <ol className="steps">
            {STEPS.map((name) => (
              <li key={name}>
                <button
                  type="button"
                  className="step"
                  aria-current={name === step ? 'step' : undefined}
                  aria-disabled={name !== 'logs' && name !== 'visit' && report?.kind !== 'opened'}
                  onClick={() => onStep(name)}
                >
                  {windowFrame.STEPS[name]} <span className="count">{stepCount(words, name, state)}</span>
                </button>
              </li>
            ))}
          </ol>
        </nav>
      )}
      <span className="spring" />
      {started && (
        <>
          <HistoryButton name={windowFrame.UNDO} what={state.visit.undo} does={visit.undo} />
          <HistoryButton name={windowFrame.REDO} what={state.visit.redo} does={visit.redo} />
          <button type="button" onClick={onSave}>
            {windowFrame.SAVE}
          </button>
        </>
      )}
      {!started && state?.visit.undo && (
        <HistoryButton name={windowFrame.UNDO} what={state.visit.undo} does={visit.undo} />
      )}
      {onMakePdf && (
        <button type="button" className="main-action" onClick={onMakePdf}>
          {windowFrame.SAVE_PDF}
        </button>
      )}
    </header>
  )
}

function HistoryButton(props: {
  readonly name: string
  readonly what: string | null
  readonly does: () => void
}) {
  const { name, what, does } = props
  const { windowFrame } = useWords()
  return (
    <button
      type="button"
      aria-disabled={what === null}
      title={what === null ? undefined : windowFrame.undoText(name, what)}
      onClick={does}
    >
      {name}
      {what !== null && <span className="unseen"> {what}</span>}
    </button>
  )
}
