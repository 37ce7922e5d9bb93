import type { MouseEvent, ReactNode } from 'react'
import type { LogView, SetAsideView } from '../../src-core/bridge/logsView'
import type { RefusalView } from '../../src-core/bridge/stoppedView'
import type { DocumentLog, VisitState } from '../../src-core/bridge/visitState'
import type { Answers } from '../../src-core/bridge/windowEdit'
import type { Bridge } from '../../src-core/bridge/contract'
import { AskedOfLog } from '../parts/AskedOfLog'
import { HowRead } from '../parts/HowRead'
import { OutsideDays } from '../parts/OutsideDays'
import { useFocusOn } from '../parts/useFocusOn'
import type { Step } from '../steps'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly state: VisitState
  readonly visit: VisitHold
  readonly onAdd: () => void
  readonly onStep: (step: Step) => void
}

/** The logs of the visit: what each gave, what was set aside, and what one of them leaves open. */
export function LogsScreen({ bridge, state, visit, onAdd, onStep }: Props) {
  const { logsScreen } = useWords()
  const { report } = state
  const asked =
    report.kind === 'stopped' ? report.refusals.filter(({ question }) => question !== null).length : 0
  const heading = useFocusOn<HTMLHeadingElement>(asked)
  const busy = visit.busy !== ''
  return (
    <section className="logs-screen" aria-labelledby="logs-heading">
      <div className="screen-head">
        <h2 id="logs-heading" ref={heading} tabIndex={-1}>
          {report.kind === 'opened' ? report.period : logsScreen.questionsFirst(asked)}
        </h2>
        <button type="button" aria-disabled={busy} onClick={onAdd}>
          {logsScreen.ADD_LOGS}
        </button>
      </div>
      {report.kind === 'opened' ? (
        <>
          <p className="quiet">{logsScreen.moreMayCome(report.extent)}</p>
          <OutsideDays opened={report} visit={visit} />
        </>
      ) : (
        <p className="quiet">{logsScreen.OPEN_TOGETHER}</p>
      )}
      {report.kind === 'stopped' &&
        report.refusals
          .filter(({ sha256 }) => sha256 === null)
          .map(({ message }) => <p key={message}>{message}</p>)}
      <ul className="rows">
        {state.visit.logs.map((log) => (
          <LogEntry
            key={log.sha256}
            log={log}
            bridge={bridge}
            state={state}
            visit={visit}
            onRemove={() => heading.current?.focus()}
          />
        ))}
      </ul>
      {report.kind === 'opened' && (
        <p className="actions">
          {report.counts.doubtful > 0 && (
            <button type="button" onClick={() => onStep('readings')}>
              {logsScreen.lookAtDoubtful(report.counts.doubtful)}
            </button>
          )}
          <button type="button" onClick={() => onStep('picture')}>
            {logsScreen.SEE_PICTURE}
          </button>
        </p>
      )}
    </section>
  )
}

interface LogEntryProps extends Pick<Props, 'bridge' | 'state' | 'visit'> {
  readonly log: DocumentLog
  /** The button that was pressed goes with its log. */
  readonly onRemove: () => void
}

function LogEntry({ log, bridge, state, visit, onRemove }: LogEntryProps) {
  const { logsScreen } = useWords()
  const { report } = state
  const busy = visit.busy !== ''
  const answer = (answers: Answers) => {
    if (!busy) void visit.edit({ kind: 'answer', sha256: log.sha256, answers })
  }
  const remove = ({ detail }: MouseEvent) => {
    // The second of a double click falls on the log below, which has come up.
    if (busy || detail > 1) return
    onRemove()
    void visit.edit({ kind: 'remove-log', sha256: log.sha256 }, logsScreen.removedText(log.name))
  }
  const view = report.kind === 'opened' ? report.logs.find(({ sha256 }) => sha256 === log.sha256) : undefined
  const refusals: readonly RefusalView[] =
    report.kind === 'stopped' ? report.refusals.filter(({ sha256 }) => sha256 === log.sha256) : []
  return (
    <li>
      <div className="log-row">
        <h3>{log.name}</h3>
        <button type="button" className="link" aria-disabled={busy} onClick={remove}>
          {logsScreen.REMOVE} <span className="unseen">{log.name}</span>
        </button>
      </div>
      {refusals.map((refusal, position) => (
        <AskedOfLog key={position} refusal={refusal} answers={log.answers} busy={busy} onAnswer={answer} />
      ))}
      {view && (
        <LogResult view={view}>
          <HowRead bridge={bridge} visit={visit} state={state} log={log} how={view.how} />
        </LogResult>
      )}
      <AnswersGiven log={log} busy={busy} onTakeBack={() => answer({})} />
    </li>
  )
}

function LogResult({ view, children }: { readonly view: LogView; readonly children: ReactNode }) {
  return (
    <>
      {children}
      <p className="quiet">{view.rows}</p>
      {view.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      {view.setAside.map((reason) => (
        <SetAside key={reason.heading} reason={reason} />
      ))}
    </>
  )
}

function SetAside({ reason }: { readonly reason: SetAsideView }) {
  const { logsScreen } = useWords()
  return (
    <details>
      <summary>{reason.heading}</summary>
      <ol className="set-aside">
        {reason.rows.map((row) => (
          <li key={row.line}>
            <span className="quiet">{logsScreen.lineText(row.line)}</span> <code>{row.text}</code>
          </li>
        ))}
      </ol>
      {reason.unlisted > 0 && <p className="quiet">{logsScreen.andMore(reason.unlisted)}</p>}
    </details>
  )
}

/** What a person answered about one log, and the way to take it back. */
function AnswersGiven(props: {
  readonly log: DocumentLog
  readonly busy: boolean
  readonly onTakeBack: () => void
}) {
  const { logsScreen } = useWords()
  const { log, busy, onTakeBack } = props
  if (log.answered === '') return null
  return (
    <p>
      {logsScreen.yourAnswers(log.answered)}{' '}
      <button type="button" className="link" aria-disabled={busy} onClick={onTakeBack}>
        {logsScreen.TAKE_BACK} <span className="unseen">{logsScreen.answeredAbout(log.name)}</span>
      </button>
    </p>
  )
}
