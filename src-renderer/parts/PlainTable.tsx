import type { PlainTable as Table } from '../../src-core/shown/plainTable'
import { useWords } from '../words'

/** A table of figures as on paper: the first cell of a row names it. */
export function PlainTable({ table, caption }: { readonly table: Table; readonly caption: string }) {
  const { pictureScreen } = useWords()
  return (
    // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a scrolling region must be reachable by key
    <div className="table-frame" role="group" aria-label={caption} tabIndex={0}>
      <table>
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            {table.titles.map((title, i) => (
              <th key={i} scope="col">
                {title === '' ? <span className="unseen">{pictureScreen.VERDICT}</span> : title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, position) => (
            <tr key={position}>
              {row.map((cell, i) =>
                i === 0 ? (
                  <th key={i} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={i}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
