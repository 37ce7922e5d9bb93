import type { ComparedView } from '../../src-core/bridge/pictureScreen'
import { Picture } from './Picture'
import { PlainTable } from './PlainTable'
import { unbroken } from './unbroken'

/** Two periods side by side, the earlier one first. */
export function Compared({ compared, unit }: { readonly compared: ComparedView; readonly unit: string }) {
  return (
    <section className="compared" aria-labelledby="compared-heading">
      <h3 id="compared-heading">Two periods</h3>
      <p>
        <b>{unbroken(compared.lows)}</b>
      </p>
      <p>{unbroken(compared.introduction)}</p>
      {compared.cautions.map((caution) => (
        <p key={caution}>
          <b>{unbroken(caution)}</b>
        </p>
      ))}
      <PlainTable table={compared.measures} caption="Two periods side by side" />
      <p className="quiet">{unbroken(compared.measuresNote)}</p>
      {compared.picture && <Picture picture={compared.picture} name="Picture of the two periods" />}
      {compared.blocks && (
        <>
          <h4>Change by part of the day: mean in {unit} (readings)</h4>
          <PlainTable table={compared.blocks} caption="Change by part of the day" />
          <p className="quiet">{unbroken(compared.blocksNote)}</p>
        </>
      )}
    </section>
  )
}
