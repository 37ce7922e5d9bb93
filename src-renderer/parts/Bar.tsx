import { type Step, STEP_NAMES, stepCount, STEPS } from '../steps'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly visit: VisitHold
  readonly step: Step
  readonly onStep: (step: Step) => void
  /** Null where nothing is open. */
  readonly onMakePdf: (() => void) | null
}

/** The bar at the top: the four steps, and what is always in reach. */
export function Bar({ visit, step, onStep, onMakePdf }: Props) {
  const { state, busy } = visit
  const report = state?.report ?? null
  const started = report !== null && report.kind !== 'empty'
  return (
    <header className="bar">
      <h1>Visit report</h1>
      {started && (
        <nav aria-label="Steps">
          <ol className="steps">
            {STEPS.map((name) => (
              <li key={name}>
                <button
                  type="button"
                  className="step"
                  aria-current={name === step ? 'step' : undefined}
                  aria-disabled={name !== 'logs' && report.kind !== 'opened'}
                  onClick={() => onStep(name)}
                >
                  {STEP_NAMES[name]}{' '}
                  <span className="count">{stepCount(name, state?.visit.logs.length ?? 0, report)}</span>
                </button>
              </li>
            ))}
          </ol>
        </nav>
      )}
      <span className="spring" />
      {started && (
        <>
          <HistoryButton name="Undo" what={state?.visit.undo ?? null} does={visit.undo} />
          <HistoryButton name="Redo" what={state?.visit.redo ?? null} does={visit.redo} />
        </>
      )}
      {!started && state?.visit.undo && (
        <HistoryButton name="Undo" what={state.visit.undo} does={visit.undo} />
      )}
      {onMakePdf && (
        <button type="button" className="main-action" aria-disabled={busy !== ''} onClick={onMakePdf}>
          Print or save PDF
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
  return (
    <button
      type="button"
      aria-disabled={what === null}
      title={what === null ? undefined : `${name} ${what}`}
      onClick={does}
    >
      {name}
      {what !== null && <span className="unseen"> {what}</span>}
    </button>
  )
}
