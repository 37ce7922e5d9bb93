import type { EffectRow } from '../../src-core/bridge/effectView'

/** What leaving the reading in hand out does to each figure; a low is counted either way. */
export function EffectTable({ effect }: { readonly effect: readonly EffectRow[] }) {
  if (effect.length === 0) {
    return <p className="quiet">Outside the days of this report: it is in none of the figures.</p>
  }
  return (
    <table className="effect">
      <caption>What leaving it out does</caption>
      <thead className="unseen">
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">With it → without it</th>
        </tr>
      </thead>
      <tbody>
        {effect.map(({ name, before, after }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>
              {before} → {after}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
