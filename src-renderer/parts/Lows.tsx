import type { LowsView, LowView } from '../../src-core/bridge/lowsView'
import { unbroken } from './unbroken'

/** How many lows there were: before every other figure. */
export function LowsHeadline({ lows, unit }: { readonly lows: LowsView; readonly unit: string }) {
  return (
    <section className="lows" aria-labelledby="lows-heading">
      <h3 id="lows-heading">Lows {lows.lowest.length > 0 && <span className="quiet">in {unit}</span>}</h3>
      <p>{unbroken(lows.headline)}</p>
    </section>
  )
}

/** The lowest of the period's lows, the others behind them, and what the list cannot show. */
export function Lows(props: {
  readonly lows: LowsView
  /** Shows their readings. */
  readonly onOpen: () => void
}) {
  const { lows, onOpen } = props
  const { lowest, lowestTold, others } = lows
  if (lowest.length + lows.remarks.length === 0 && lows.highs === null) return null
  return (
    <section className="each-low" aria-label="Lows, one by one">
      {lowestTold !== null && <p className="quiet">{lowestTold}</p>}
      <LowList items={lowest} />
      {others.length > 0 && (
        <details>
          <summary>{others.length + lows.unlisted} more</summary>
          <LowList items={others} />
          {lows.unlisted > 0 && <p>and {lows.unlisted} more in the list of their readings</p>}
        </details>
      )}
      {lowest.length > 0 && (
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
      {lows.highs !== null && (
        <>
          <p>{unbroken(lows.highs.headline)}</p>
          {lows.highs.latestTold !== null && <p className="quiet">{lows.highs.latestTold}</p>}
          {lows.highs.latest.length > 0 && (
            <ol className="rows" aria-label="Readings HI">
              {lows.highs.latest.map((moment, position) => (
                <li key={position} className="low">
                  <span className="quiet">{moment}</span>
                  <b className="low-values">HI</b>
                </li>
              ))}
            </ol>
          )}
        </>
      )}
    </section>
  )
}

function LowList({ items }: { readonly items: readonly LowView[] }) {
  if (items.length === 0) return null
  return (
    <ol className="rows">
      {items.map((low, position) => (
        <li key={position} className={low.bracketed ? 'low bracketed' : 'low'}>
          <span className="quiet">{low.moment}</span>
          <b className="low-values">
            <span className="square" aria-hidden="true" />
            {low.values}
            {low.doubtful && <span className="unseen"> (doubtful, stays counted)</span>}
            {low.bracketed && <span className="unseen"> (within days of doubt, stays counted)</span>}
          </b>
          <span className="quiet low-after">{unbroken(low.after)}</span>
        </li>
      ))}
    </ol>
  )
}
