import type { LargeFigure } from '../../src-core/shown/largeFigures'
import { useWords } from '../words'

/** The five figures of the first page, large, each with how well it is known, and how HI and LO count in them. */
export function LargeFigures(props: {
  readonly large: readonly LargeFigure[]
  readonly markers: string | null
  readonly unit: string
}) {
  const { large, markers, unit: glucoseUnit } = props
  const { lineBreaks, pictureScreen } = useWords()
  const { unbroken } = lineBreaks
  return (
    <section aria-labelledby="numbers-heading">
      <h3 id="numbers-heading">
        {pictureScreen.NUMBERS} <span className="quiet">{pictureScreen.inUnit(glucoseUnit)}</span>
      </h3>
      <dl className="large-figures">
        {large.map(({ label, value, unit, small }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd className="large-value">
              {value} {unit !== '' && <span className="large-unit">{unit}</span>}
            </dd>
            <dd className="quiet">{unbroken(small)}</dd>
          </div>
        ))}
      </dl>
      {markers !== null && <p className="markers">{unbroken(markers)}</p>}
    </section>
  )
}
