import type { LowsView, LowView } from '../../src-core/bridge/lowsView'
import { useWords } from '../words'

/** How many lows there were: before every other figure. */
export function LowsHeadline({ lows, unit }: { readonly lows: LowsView; readonly unit: string }) {
  const { lineBreaks, pictureScreen } = useWords()
  return (
    <section className="lows" aria-labelledby="lows-heading">
      <h3 id="lows-heading">
        {pictureScreen.LOWS}{' '}
        {lows.lowest.length > 0 && <span className="quiet">{pictureScreen.inUnit(unit)}</span>}
      </h3>
      <p>{lineBreaks.unbroken(lows.headline)}</p>
    </section>
  )
}

/** The lowest of the period's lows, the others behind them, and what the list cannot show. */
export function Lows(props: {
  readonly lows: LowsView
  /** Shows their readings. */
  readonly onOpen: () => void
}) {
  const { lineBreaks, pictureScreen } = useWords()
  const { unbroken } = lineBreaks
  const { lows, onOpen } = props
  const { lowest, lowestTold, others } = lows
  if (lowest.length + lows.remarks.length === 0 && lows.highs === null) return null
  return (
    <section className="each-low" aria-label={pictureScreen.LOWS_LABEL}>
      {lowestTold !== null && <p className="quiet">{lowestTold}</p>}
      <LowList items={lowest} />
      {others.length > 0 && (
        <details>
          <summary>{pictureScreen.moreLows(others.length + lows.unlisted)}</summary>
          <LowList items={others} />
          {lows.unlisted > 0 && <p>{pictureScreen.moreListed(lows.unlisted)}</p>}
        </details>
      )}
      {lowest.length > 0 && (
        <p>
          <button type="button" className="link" onClick={onOpen}>
            {pictureScreen.LOOK_AT_LOWS}
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
            <ol className="rows" aria-label={pictureScreen.HI_LABEL}>
              {lows.highs.latest.map((moment, position) => (
                <li key={position} className="low">
                  <span className="quiet">{moment}</span>
                  <b className="low-values">{pictureScreen.HI}</b>
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
  const { lineBreaks, pictureScreen } = useWords()
  if (items.length === 0) return null
  return (
    <ol className="rows">
      {items.map((low, position) => (
        <li key={position} className={low.bracketed ? 'low bracketed' : 'low'}>
          <span className="quiet">{low.moment}</span>
          <b className="low-values">
            <span className="square" aria-hidden="true" />
            {low.values}
            {low.doubtful && <span className="unseen"> {pictureScreen.HEARD_DOUBTFUL}</span>}
            {low.bracketed && <span className="unseen"> {pictureScreen.HEARD_BRACKETED}</span>}
          </b>
          {low.confirmed !== null && <span className="low-after">{low.confirmed}</span>}
          <span className="quiet low-after">{lineBreaks.unbroken(low.after)}</span>
        </li>
      ))}
    </ol>
  )
}
