import type { OpenedView } from '../../src-core/bridge/visitView'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly opened: Pick<OpenedView, 'outside' | 'sinceLast'>
  readonly visit: VisitHold
}

/** That readings lie outside the days chosen, and the ways to see them. */
export function OutsideDays({ opened: { outside, sinceLast }, visit }: Props) {
  const { logsScreen } = useWords()
  if (outside === null && sinceLast === null) return null
  const busy = visit.busy !== ''
  const show = (settings: { readonly period: Span | null; readonly versus: Span | null }, said: string) => {
    if (!busy) void visit.edit({ kind: 'set', settings }, said)
  }
  return (
    <p className="outside-days">
      {outside !== null && <span>{outside}</span>}
      {outside !== null && (
        <button
          type="button"
          aria-disabled={busy}
          onClick={() => show({ period: null, versus: null }, logsScreen.ALL_DAYS_SHOWN)}
        >
          {logsScreen.SHOW_ALL_DAYS}
        </button>
      )}
      {sinceLast && (
        <button
          type="button"
          aria-disabled={busy}
          onClick={() => show(sinceLast, logsScreen.SINCE_LAST_SHOWN)}
        >
          {logsScreen.SINCE_LAST}
        </button>
      )}
    </p>
  )
}

type Span = NonNullable<OpenedView['sinceLast']>['period']
