import type { StandsOutView } from '../../src-core/bridge/standsOutView'
import { useWords } from '../words'

/** What stands out, lows first. */
export function StandsOut({ findings: { findings, remark } }: { readonly findings: StandsOutView }) {
  const { lineBreaks, pictureScreen } = useWords()
  const { unbroken } = lineBreaks
  if (remark === null) return null
  return (
    <section className="stands-out" aria-labelledby="stands-out-heading">
      <h3 id="stands-out-heading">{pictureScreen.STANDS_OUT}</h3>
      {findings.length > 0 && (
        <ol>
          {findings.map(({ text, ask }) => (
            <li key={text}>
              {unbroken(text)} <span className="ask">{unbroken(ask)}</span>
            </li>
          ))}
        </ol>
      )}
      <p className="quiet">{unbroken(remark)}</p>
    </section>
  )
}
