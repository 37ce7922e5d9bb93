import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { HowReadView } from '../../src-core/bridge/logsView'
import type { DocumentLog, VisitState } from '../../src-core/bridge/visitState'
import type { MoveView, WaysView } from '../../src-core/bridge/waysView'
import { dayNumbers, isoOf, runsBackwards } from '../days'
import { useAsked } from '../useAsked'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly state: VisitState
  readonly log: DocumentLog
  readonly suggested: HowReadView['suggested']
  readonly onDone: () => void
}

const MINUTES_PER_HOUR = 60

/** Moves a stretch of a log whose meter had a wrong clock; what it would do is shown before it is done. */
export function ClockOfLog({ bridge, visit, state, log, suggested, onDone }: Props) {
  const { logsScreen } = useWords()
  const size = Math.abs(suggested?.minutes ?? 0)
  const [from, setFrom] = useState(suggested ? isoOf(suggested.from) : '')
  const [to, setTo] = useState(suggested ? isoOf(suggested.to) : '')
  const [hours, setHours] = useState(suggested ? String(Math.floor(size / MINUTES_PER_HOUR)) : '')
  const [minutes, setMinutes] = useState(suggested ? String(size % MINUTES_PER_HOUR) : '0')
  const [way, setWay] = useState<'later' | 'earlier'>((suggested?.minutes ?? 0) < 0 ? 'earlier' : 'later')
  const days = dayNumbers({ from, to })
  const by = (whole(hours) * MINUTES_PER_HOUR + whole(minutes)) * (way === 'later' ? 1 : -1)
  const { shifts } = state.visit
  const set = (next: VisitState['visit']['shifts'], said: string) => {
    if (visit.busy !== '') return
    onDone()
    void visit.edit({ kind: 'set', settings: { shifts: [...next] } }, said)
  }
  return (
    <>
      {log.moves.map(({ place, text }) => (
        <p key={place}>
          {logsScreen.movedText(text)}{' '}
          <button
            type="button"
            className="link"
            onClick={() => set(shifts.toSpliced(place, 1), logsScreen.TIMES_BACK)}
          >
            {logsScreen.MOVE_BACK} <span className="unseen">{text}</span>
          </button>
        </p>
      ))}
      <fieldset className="move-times">
        <legend>{logsScreen.MOVE_SOME}</legend>
        <label>
          {logsScreen.FROM}{' '}
          <input type="date" value={from} onChange={(event) => setFrom(event.currentTarget.value)} />
        </label>{' '}
        <label>
          {logsScreen.TO}{' '}
          <input type="date" value={to} onChange={(event) => setTo(event.currentTarget.value)} />
        </label>{' '}
        <Amount label={logsScreen.HOURS} value={hours} onChange={setHours} />
        <Amount label={logsScreen.MINUTES} value={minutes} onChange={setMinutes} />
        <label>
          {logsScreen.MOVE_THEM}{' '}
          <select value={way} onChange={(event) => setWay(event.currentTarget.value as typeof way)}>
            <option value="later">{logsScreen.WAYS_TO_MOVE.later}</option>
            <option value="earlier">{logsScreen.WAYS_TO_MOVE.earlier}</option>
          </select>
        </label>
      </fieldset>
      {days === null || Number.isNaN(by) || by === 0 ? (
        <p className="quiet" role="status">
          {runsBackwards({ from, to })
            ? logsScreen.DAYS_BACKWARDS
            : [hours, minutes].some((text) => text !== '' && Number.isNaN(whole(text)))
              ? logsScreen.WHOLE_NUMBERS
              : logsScreen.HOW_TO_MOVE}
        </p>
      ) : (
        <WhatMoves
          bridge={bridge}
          visit={visit}
          state={state}
          log={log}
          days={days}
          minutes={by}
          onMove={() => set([...shifts, { ...days, minutes: by, log: log.sha256 }], logsScreen.TIMES_MOVED)}
        />
      )}
    </>
  )
}

function whole(text: string): number {
  return /^\d{1,5}$/.test(text.trim()) ? Number(text) : NaN
}

function Amount(props: {
  readonly label: string
  readonly value: string
  readonly onChange: (value: string) => void
}) {
  const { label, value, onChange } = props
  return (
    <label>
      {label}{' '}
      <input
        className="amount"
        inputMode="numeric"
        autoComplete="off"
        value={value}
        aria-invalid={value !== '' && Number.isNaN(whole(value))}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
    </label>
  )
}

function WhatMoves(
  props: Pick<Props, 'bridge' | 'visit' | 'state' | 'log'> & {
    readonly days: { readonly from: number; readonly to: number }
    readonly minutes: number
    readonly onMove: () => void
  },
) {
  const { logsScreen } = useWords()
  const { bridge, visit, state, log, days, minutes, onMove } = props
  const { revision } = state
  const { sha256 } = log
  const { view, isCurrent, fault } = useAsked<WaysView | MoveView>(
    `${revision} ${sha256} ${days.from} ${days.to} ${minutes}`,
    () => bridge.waysToRead({ revision, sha256, subject: { of: 'move', days, minutes } }),
    visit.refresh,
  )
  if (fault !== '') return <p role="alert">{fault}</p>
  if (view?.kind !== 'move') return <p role="status">{logsScreen.TRYING}</p>
  return (
    <>
      {view.rows.map((row) => (
        <p key={row} className="row-read">
          {row}
        </p>
      ))}
      <p className="quiet">{logsScreen.effectText(view.effect)}</p>
      {view.rows.length > 0 && (
        <p className="actions">
          <button
            type="button"
            aria-disabled={!isCurrent || visit.busy !== ''}
            onClick={() => isCurrent && onMove()}
          >
            {logsScreen.MOVE_THESE}
          </button>
        </p>
      )}
    </>
  )
}
