import type { EffectRow } from '../../src-core/bridge/effectView'
import { useWords } from '../words'

/** What leaving the reading in hand out does to each figure; a low is counted either way. */
export function EffectTable({ effect }: { readonly effect: readonly EffectRow[] }) {
  const { readingsScreen } = useWords()
  const { EFFECT_TITLES } = readingsScreen
  if (effect.length === 0) return <p className="quiet">{readingsScreen.OUTSIDE}</p>
  return (
    <table className="effect">
      <caption>{readingsScreen.EFFECT}</caption>
      <thead className="unseen">
        <tr>
          <th scope="col">{EFFECT_TITLES.figure}</th>
          <th scope="col">{EFFECT_TITLES.effect}</th>
        </tr>
      </thead>
      <tbody>
        {effect.map(({ name, before, after }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{readingsScreen.effectText(before, after)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
