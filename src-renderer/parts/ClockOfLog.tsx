import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { HowReadView } from '../../src-core/bridge/logsView'
import type { DocumentLog, VisitState } from '../../src-core/bridge/visitState'
import type { MoveView, WaysView } from '../../src-core/bridge/waysView'
import { dayNumbers, isoOf, runsBackwards } from '../days'
import { useAsked } from '../useAsked'
import type { VisitHold } from '../useVisit'

/** What was moved of a log's times, in one line. */
export function clockText({ moves }: DocumentLog): string {
  return moves.length === 0
    ? 'Times: as the meter’s clock had them.'
    : `Times moved: ${moves.map(({ text }) => text).join('; ')}.`
}

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
          Moved: {text}{' '}
          <button
            type="button"
            className="link"
            onClick={() => set(shifts.toSpliced(place, 1), 'The times are back.')}
          >
            Move back <span className="unseen">{text}</span>
          </button>
        </p>
      ))}
      <fieldset className="move-times">
        <legend>Move the times of some days</legend>
        <label>
          from <input type="date" value={from} onChange={(event) => setFrom(event.currentTarget.value)} />
        </label>{' '}
        <label>
          to <input type="date" value={to} onChange={(event) => setTo(event.currentTarget.value)} />
        </label>{' '}
        <Amount label="Hours" value={hours} onChange={setHours} />
        <Amount label="Minutes" value={minutes} onChange={setMinutes} />
        <label>
          Move them{' '}
          <select value={way} onChange={(event) => setWay(event.currentTarget.value as typeof way)}>
            <option value="later">later</option>
            <option value="earlier">earlier</option>
          </select>
        </label>
      </fieldset>
      {days === null || Number.isNaN(by) || by === 0 ? (
        <p className="quiet" role="status">
          {runsBackwards({ from, to })
            ? 'The last day lies before the first.'
            : [hours, minutes].some((text) => text !== '' && Number.isNaN(whole(text)))
              ? 'Hours and minutes are whole numbers; later or earlier is chosen beside them.'
              : 'First and last day as the log has them, and by how much: two of its rows are shown before anything moves.'}
        </p>
      ) : (
        <WhatMoves
          bridge={bridge}
          visit={visit}
          state={state}
          log={log}
          days={days}
          minutes={by}
          onMove={() => set([...shifts, { ...days, minutes: by, log: log.sha256 }], 'Times moved.')}
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
  const { bridge, visit, state, log, days, minutes, onMove } = props
  const { revision } = state
  const { sha256 } = log
  const { view, isCurrent, fault } = useAsked<WaysView | MoveView>(
    `${revision} ${sha256} ${days.from} ${days.to} ${minutes}`,
    () => bridge.waysToRead({ revision, sha256, subject: { of: 'move', days, minutes } }),
    visit.refresh,
  )
  if (fault !== '') return <p role="alert">{fault}</p>
  if (view?.kind !== 'move') return <p role="status">Trying …</p>
  return (
    <>
      {view.rows.map((row) => (
        <p key={row} className="row-read">
          {row}
        </p>
      ))}
      <p className="quiet">{view.effect}.</p>
      {view.rows.length > 0 && (
        <p className="actions">
          <button
            type="button"
            aria-disabled={!isCurrent || visit.busy !== ''}
            onClick={() => isCurrent && onMove()}
          >
            Move these times
          </button>
        </p>
      )}
    </>
  )
}
