import { useRef } from 'react'
import type { FieldFault, Fields } from '../../src-core/bridge/forms/formRequest'
import type { DocumentView } from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { dayNumbers, isoOf } from '../days'
import { NOT_TAKEN } from '../useForm'
import { type LiveFields, useLiveFields } from '../useLiveFields'
import type { VisitHold } from '../useVisit'
import { halfWritten } from './formSpecs'
import { useWords } from '../words'
import type { WindowWords } from '../../src-core/wording/words'

interface Props {
  readonly visit: VisitHold
  readonly document: DocumentView
  readonly days: OpenedView['days']
}

type Span = { readonly from: string; readonly to: string }

/** The days of the report, and the days to set beside them. */
export function PeriodPicker({ visit, document, days }: Props) {
  const { pictureScreen, visitForms } = useWords()
  const form = useRef<HTMLDivElement>(null)
  const period = isoSpan(document.period) ?? days
  const versus = isoSpan(document.versus)
  const live = useLiveFields({
    of: 'period',
    name: pictureScreen.DAYS_OF_REPORT,
    fields: { from: period.from, to: period.to, besideFrom: versus?.from ?? '', besideTo: versus?.to ?? '' },
    half: () => halfWritten(form.current),
    check: (all) => faultsOf(visitForms, all),
    send: async (all) => {
      const chosen = reportOf(all)
      const whole = chosen.from === days.from && chosen.to === days.to
      const settings = { period: whole ? null : dayNumbers(chosen), versus: dayNumbers(besideOf(all)) }
      return (await visit.edit({ kind: 'set', settings }, pictureScreen.DAYS_SHOWN)) ? [] : NOT_TAKEN
    },
  })
  const { values, faults } = live
  const hasBeside = values.besideFrom !== '' || values.besideTo !== '' || versus !== null
  const fields = (names: readonly [string, string], name: string) => (
    <SpanFields name={name} names={names} live={live} days={days} />
  )
  return (
    <div ref={form} className="period-picker" role="group" aria-labelledby="period-heading">
      <h3 id="period-heading">{pictureScreen.DAYS_OF_REPORT}</h3>
      {fields(['from', 'to'], pictureScreen.REPORT)}
      {hasBeside ? (
        <>
          {fields(['besideFrom', 'besideTo'], pictureScreen.BESIDE)}
          <p>
            <button
              type="button"
              className="link"
              onClick={() => live.choose({ besideFrom: '', besideTo: '' })}
            >
              {pictureScreen.WITHOUT_BESIDE}
            </button>
          </p>
        </>
      ) : (
        <p>
          <button type="button" onClick={() => live.choose(halves(days))}>
            {pictureScreen.SET_BESIDE}
          </button>
        </p>
      )}
      {faults.length > 0 && (
        <p role="alert">
          {[...faults.map(({ message }) => message), visitForms.NOT_TAKEN_IN]
            .filter((part) => part !== '')
            .join(' ')}{' '}
          <button type="button" className="link" onClick={live.forget}>
            {visitForms.BACK_TO_WHAT_HOLDS}
          </button>
        </p>
      )}
    </div>
  )
}

function SpanFields(props: {
  readonly name: string
  /** Of the fields. */
  readonly names: readonly [string, string]
  readonly live: LiveFields
  readonly days: Span
}) {
  const { pictureScreen } = useWords()
  const { name, names, live, days } = props
  return (
    <fieldset className="span">
      <legend>{name}</legend>
      {names.map((field, end) => (
        <label key={field}>
          {end === 0 ? pictureScreen.FROM : pictureScreen.TO}
          <input
            type="date"
            name={field}
            required
            value={live.values[field]}
            min={days.from}
            max={days.to}
            aria-invalid={live.faults.some((fault) => fault.field === field)}
            onChange={({ currentTarget }) => live.write(field, currentTarget.value)}
            onKeyDown={({ key }) => key === 'Enter' && live.blur()}
            onBlur={live.blur}
          />
        </label>
      ))}
    </fieldset>
  )
}

const reportOf = ({ from, to }: Fields): Span => ({ from, to })
const besideOf = ({ besideFrom, besideTo }: Fields): Span => ({ from: besideFrom, to: besideTo })

function faultsOf(words: WindowWords['visitForms'], all: Fields): readonly FieldFault[] {
  const spans = [['from', 'to'] as const, ['besideFrom', 'besideTo'] as const]
  return spans.flatMap(([first, last]): readonly FieldFault[] => {
    if (first === 'besideFrom' && all[first] === '' && all[last] === '') return []
    const none = [first, last].find((field) => Number.isNaN(Date.parse(`${all[field]}T00:00Z`)))
    if (none !== undefined) return [{ field: none, message: words.NO_DAY }]
    return all[first] > all[last] ? [{ field: first, message: words.DAYS_BACKWARDS }] : []
  })
}

/** Proposes the later half of all days for the report, the earlier half beside it. */
function halves(days: Span): Fields {
  const all = dayNumbers(days)
  if (all === null || all.from === all.to) return { besideFrom: days.from, besideTo: days.to }
  const middle = Math.floor((all.from + all.to) / 2)
  return { from: isoOf(middle + 1), to: days.to, besideFrom: days.from, besideTo: isoOf(middle) }
}

function isoSpan(span: DocumentView['period']): Span | null {
  return span && { from: isoOf(span.from), to: isoOf(span.to) }
}
