import type { FiguresView } from '../../src-core/bridge/figuresView'
import { useWords } from '../words'

/** The period's figures; beside them what leaving the doubtful readings out does. */
export function Figures({ figures }: { readonly figures: FiguresView }) {
  const { lineBreaks, pictureScreen } = useWords()
  return (
    <section className="figures" aria-labelledby="figures-heading">
      <h3 id="figures-heading">{pictureScreen.FIGURES}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">
              <span className="unseen">{pictureScreen.FIGURE}</span>
            </th>
            <th scope="col">{pictureScreen.AS_LOGGED}</th>
            {figures.showsChecked && <th scope="col">{figures.checkedTitle}</th>}
          </tr>
        </thead>
        <tbody>
          {figures.rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">
                {row.name} <span className="quiet">{row.unit}</span>
              </th>
              <td>{row.asLogged}</td>
              {figures.showsChecked && <td>{row.checked}</td>}
            </tr>
          ))}
        </tbody>
      </table>
      {figures.remarks.map((remark) => (
        <p key={remark} className="quiet">
          {lineBreaks.unbroken(remark)}
        </p>
      ))}
    </section>
  )
}
