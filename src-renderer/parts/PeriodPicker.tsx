import { type SyntheticEvent, useState } from 'react'
import type { DocumentView } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly visit: VisitHold
  readonly document: DocumentView
  readonly days: OpenedView['days']
}

const MS_PER_DAY = 86_400_000
const WRONG_WAY = 'The first day comes after the last. Exchange them.'

type Span = { readonly from: string; readonly to: string }

/** The days of the report, and the days to set beside them. */
export function PeriodPicker({ visit, document, days }: Props) {
  const [period, setPeriod] = useState<Span>(isoSpan(document.period) ?? days)
  const [versus, setVersus] = useState<Span | null>(isoSpan(document.versus))
  const [wrong, setWrong] = useState('')

  function show(event: SyntheticEvent) {
    event.preventDefault()
    const chosen = dayNumbers(period)
    const beside = versus && dayNumbers(versus)
    if (chosen === null || (versus && beside === null)) return setWrong(WRONG_WAY)
    setWrong('')
    const whole = period.from === days.from && period.to === days.to
    void visit.edit({ kind: 'set', settings: { period: whole ? null : chosen, versus: beside } }, 'Shown.')
  }

  return (
    <form className="period-picker" aria-labelledby="period-heading" onSubmit={show}>
      <h3 id="period-heading">Days of the report</h3>
      <SpanFields name="Report" span={period} days={days} onChange={setPeriod} />
      {versus === null ? (
        <p>
          <button type="button" onClick={() => setVersus(earlierHalf(days, setPeriod))}>
            Set another period beside it
          </button>
        </p>
      ) : (
        <>
          <SpanFields name="Beside it" span={versus} days={days} onChange={setVersus} />
          <p>
            <button type="button" className="link" onClick={() => setVersus(null)}>
              Without a second period
            </button>
          </p>
        </>
      )}
      {wrong !== '' && <p role="alert">{wrong}</p>}
      <p>
        <button type="submit" aria-disabled={visit.busy !== ''}>
          Show these days
        </button>
      </p>
    </form>
  )
}

function SpanFields(props: {
  readonly name: string
  readonly span: Span
  readonly days: Span
  readonly onChange: (span: Span) => void
}) {
  const { name, span, days, onChange } = props
  return (
    <fieldset className="span">
      <legend>{name}</legend>
      <label>
        from
        <input
          type="date"
          required
          value={span.from}
          min={days.from}
          max={days.to}
          onChange={({ currentTarget }) => onChange({ ...span, from: currentTarget.value })}
        />
      </label>
      <label>
        to
        <input
          type="date"
          required
          value={span.to}
          min={days.from}
          max={days.to}
          onChange={({ currentTarget }) => onChange({ ...span, to: currentTarget.value })}
        />
      </label>
    </fieldset>
  )
}

/** Proposes the later half of all days for the report, the earlier half beside it. */
function earlierHalf(days: Span, setPeriod: (span: Span) => void): Span {
  const all = dayNumbers(days)
  if (all === null || all.from === all.to) return days
  const middle = Math.floor((all.from + all.to) / 2)
  setPeriod({ from: isoOf(middle + 1), to: days.to })
  return { from: days.from, to: isoOf(middle) }
}

/** Days since 1970, as the visit counts them; null where they run backwards or are none. */
function dayNumbers({ from, to }: Span): { readonly from: number; readonly to: number } | null {
  const [first, last] = [from, to].map((day) => Date.parse(`${day}T00:00Z`) / MS_PER_DAY)
  return first <= last ? { from: first, to: last } : null
}

function isoSpan(span: DocumentView['period']): Span | null {
  return span && { from: isoOf(span.from), to: isoOf(span.to) }
}

function isoOf(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10)
}
