import { type ReactNode, useRef, useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { HowReadView } from '../../src-core/bridge/logsView'
import type { DocumentLog, VisitState } from '../../src-core/bridge/visitState'
import type { Answers } from '../../src-core/bridge/windowEdit'
import type { VisitHold } from '../useVisit'
import { ClockOfLog } from './ClockOfLog'
import { WaysToRead } from './WaysToRead'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly log: DocumentLog
  readonly how: HowReadView
}

type Line = 'dates' | 'unit' | 'columns' | 'clock'

/** How a log was read, line by line; beside each guess the way to change it. */
export function HowRead({ bridge, visit, state, log, how }: Props) {
  const { logsScreen } = useWords()
  const { revision } = state
  const [changing, setChanging] = useState<Line | null>(null)
  const [role, setRole] = useState(how.roles[0].role)
  const button = useRef<HTMLButtonElement>(null)
  const done = () => {
    button.current?.focus()
    setChanging(null)
  }
  const choose = (answers: Answers, label: string) => {
    if (visit.busy !== '') return
    done()
    void visit.edit({ kind: 'answer', sha256: log.sha256, answers }, logsScreen.readAnew(label))
  }
  const ways = (subject: Parameters<typeof WaysToRead>[0]['subject'], legend: string) => (
    <WaysToRead
      key={JSON.stringify(subject)}
      bridge={bridge}
      visit={visit}
      revision={revision}
      sha256={log.sha256}
      subject={subject}
      legend={legend}
      onChoose={choose}
    />
  )
  const line = (of: Line, told: string, panel: () => ReactNode) => (
    <li>
      <span className="quiet">{told}</span>{' '}
      <button
        ref={changing === of ? button : undefined}
        type="button"
        className="link"
        aria-expanded={changing === of}
        onClick={() => setChanging(changing === of ? null : of)}
      >
        {changing === of ? logsScreen.LEAVE_AS_IS : logsScreen.CHANGE}{' '}
        <span className="unseen">{logsScreen.lineOf(of, log.name)}</span>
      </button>
      {changing === of && <div className="ways">{panel()}</div>}
    </li>
  )
  return (
    <ul className="how-read" aria-label={logsScreen.howRead(log.name)}>
      {line('dates', how.dates, () => ways({ of: 'dates' }, logsScreen.DAY_AND_MONTH))}
      {line('unit', how.unit, () => ways({ of: 'unit' }, logsScreen.UNIT_OF_LOG))}
      {line('columns', how.columns, () => (
        <>
          <label>
            {logsScreen.WHICH_COLUMN}{' '}
            <select
              value={role}
              onChange={({ currentTarget }) => setRole(currentTarget.value as typeof role)}
            >
              {how.roles.map(({ role: value, label }) => (
                <option key={value} value={value}>
                  {label}
                </option>
              ))}
            </select>
          </label>
          {ways({ of: 'column', role }, logsScreen.WHERE_IT_IS)}
        </>
      ))}
      {line('clock', logsScreen.clockText(log.moves.map(({ text }) => text)), () => (
        <>
          {ways({ of: 'clock' }, logsScreen.HOURS)}
          <ClockOfLog
            bridge={bridge}
            visit={visit}
            state={state}
            log={log}
            suggested={how.suggested}
            onDone={done}
          />
        </>
      ))}
    </ul>
  )
}
