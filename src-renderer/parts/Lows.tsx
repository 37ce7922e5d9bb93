import type { LowsView, LowView } from '../../src-core/bridge/lowsView'
import { unbroken } from './unbroken'

/** Lows shown at once; the others open below them. */
const SHOWN_AT_ONCE = 8

/** How many lows there were: before every other figure. */
export function LowsHeadline({ lows, unit }: { readonly lows: LowsView; readonly unit: string }) {
  return (
    <section className="lows" aria-labelledby="lows-heading">
      <h3 id="lows-heading">Lows {lows.items.length > 0 && <span className="quiet">in {unit}</span>}</h3>
      <p>{unbroken(lows.headline)}</p>
    </section>
  )
}

/** The lows of the period, one by one, and what the list cannot show. */
export function Lows(props: {
  readonly lows: LowsView
  /** Shows their readings. */
  readonly onOpen: () => void
}) {
  const { lows, onOpen } = props
  const rest = lows.items.slice(SHOWN_AT_ONCE)
  if (lows.items.length + lows.remarks.length === 0) return null
  return (
    <section className="each-low" aria-label="Lows, one by one">
      <LowList items={lows.items.slice(0, SHOWN_AT_ONCE)} />
      {rest.length > 0 && (
        <details>
          <summary>{rest.length + lows.unlisted} more</summary>
          <LowList items={rest} />
          {lows.unlisted > 0 && <p>and {lows.unlisted} more in the list of their readings</p>}
        </details>
      )}
      {lows.items.length > 0 && (
        <p>
          <button type="button" className="link" onClick={onOpen}>
            Look at their readings
          </button>
        </p>
      )}
      {lows.remarks.map((remark) => (
        <p key={remark} className="quiet">
          {unbroken(remark)}
        </p>
      ))}
    </section>
  )
}

function LowList({ items }: { readonly items: readonly LowView[] }) {
  if (items.length === 0) return null
  return (
    <ol className="rows">
      {items.map((low, position) => (
        <li key={position} className="low">
          <span className="quiet">{low.moment}</span>
          <b className="low-values">
            <span className="square" aria-hidden="true" />
            {low.values}
            {low.doubtful && <span className="unseen"> (doubtful, stays counted)</span>}
          </b>
          <span className="quiet low-after">{unbroken(low.after)}</span>
        </li>
      ))}
    </ol>
  )
}
