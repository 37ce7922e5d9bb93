import { type DragEvent, useReducer, useRef } from 'react'
import type { Answers, Bridge, LogFile } from '../src-core/bridge/contract'
import { HOST_ENDED } from './bridge'
import { addLogFiles, LogFileError } from './logFiles'
import { Bar } from './parts/Bar'
import { Foot } from './parts/Foot'
import { OpenedScreen } from './parts/OpenedScreen'
import { StartScreen } from './parts/StartScreen'
import { StoppedScreen } from './parts/StoppedScreen'
import { savePdf } from './savePdf'
import { changed, EMPTY_WINDOW, withAnswer } from './windowState'

const FAULT =
  'The program met a fault of its own. What was open stays as it was. Try again, or start it anew.'
const CLOSED = 'Other logs were opened since, in another tab. Add the logs here again.'

/** The window: choose logs, answer what they leave open, see the visit, make its pages. */
export function App({ bridge }: { readonly bridge: Bridge }) {
  const [state, change] = useReducer(changed, EMPTY_WINDOW)
  const picker = useRef<HTMLInputElement>(null)
  const { logs, answers, view } = state
  const busy = state.busy !== null

  async function open(chosen: readonly LogFile[], given: Answers) {
    if (chosen.length === 0) return change({ kind: 'emptied' })
    const made = await bridge.openLogs({ logs: [...chosen], answers: given })
    change({ kind: 'read', logs: chosen, answers: given, view: made })
  }

  async function makePdf(visit: string) {
    const made = await bridge.makePdf({ visit, paper: state.paper, label: state.label.trim() })
    if (made.kind === 'closed') return change({ kind: 'failed', fault: CLOSED })
    savePdf(made.fileName, made.bytes)
    change({ kind: 'pdf-made', fileName: made.fileName })
  }

  /** Does one piece of work at a time; what goes wrong is told at the top of the window. */
  function run(work: 'reading' | 'making-pdf', does: () => Promise<void>) {
    if (busy) return
    change({ kind: 'started', work })
    does().catch((error: unknown) => change({ kind: 'failed', fault: faultSentence(error) }))
  }

  function add(files: readonly File[]) {
    if (files.length > 0) run('reading', async () => open(await addLogFiles(logs, files), answers))
  }

  function drop(event: DragEvent) {
    event.preventDefault()
    add([...event.dataTransfer.files])
  }

  /** Opens the file picker, unless what was chosen there could not be taken now. */
  function choose() {
    if (!busy) picker.current?.click()
  }

  const askAgain = () => run('reading', () => open(logs, {}))
  const remove = (position: number) => run('reading', () => open(logs.toSpliced(position, 1), answers))

  return (
    // eslint-disable-next-line jsx-a11y/no-static-element-interactions -- dropping is a second way; the buttons do the same by key
    <div className="window" onDragOver={(event) => event.preventDefault()} onDrop={drop}>
      <input
        ref={picker}
        type="file"
        multiple
        hidden
        aria-label="Logs"
        accept=".csv,.tsv,.txt,text/csv,text/plain"
        onChange={({ currentTarget }) => {
          add([...(currentTarget.files ?? [])])
          // Else the same file could not be chosen a second time.
          currentTarget.value = ''
        }}
      />
      <Bar
        busy={state.busy}
        done={state.done}
        onAdd={view && choose}
        onMakePdf={view?.kind === 'opened' ? () => run('making-pdf', () => makePdf(view.visit)) : null}
      />
      <main>
        {state.fault !== '' && (
          <p className="fault" role="alert">
            {state.fault}
          </p>
        )}
        {view === null && <StartScreen busy={busy} onChoose={choose} />}
        {view?.kind === 'stopped' && (
          <StoppedScreen
            view={view}
            logs={logs}
            answers={answers}
            busy={busy}
            onAskAgain={askAgain}
            onRemove={remove}
            onAnswer={(asks, answer) => run('reading', () => open(logs, withAnswer(answers, asks, answer)))}
          />
        )}
        {view?.kind === 'opened' && (
          <OpenedScreen
            view={view}
            answers={answers}
            busy={busy}
            paper={state.paper}
            label={state.label}
            change={change}
            onAskAgain={askAgain}
            onRemove={remove}
          />
        )}
      </main>
      <Foot logs={view?.kind === 'opened' ? view.logs : []} />
    </div>
  )
}

function faultSentence(error: unknown): string {
  if (error instanceof LogFileError || (error instanceof Error && error.message === HOST_ENDED)) {
    return error.message
  }
  return FAULT
}
