import type { OpenedView } from '../../src-core/bridge/visitView'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly opened: Pick<OpenedView, 'outside' | 'sinceLast'>
  readonly visit: VisitHold
}

/** That readings lie outside the days chosen, and the ways to see them. */
export function OutsideDays({ opened: { outside, sinceLast }, visit }: Props) {
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
          onClick={() => show({ period: null, versus: null }, 'All days are shown.')}
        >
          Show all days
        </button>
      )}
      {sinceLast && (
        <button
          type="button"
          aria-disabled={busy}
          onClick={() => show(sinceLast, 'The days since the last visit, beside those before.')}
        >
          Since the last visit, beside before
        </button>
      )}
    </p>
  )
}

type Span = NonNullable<OpenedView['sinceLast']>['period']
