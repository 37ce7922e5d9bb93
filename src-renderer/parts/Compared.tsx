import type { ComparedView } from '../../src-core/bridge/pictureScreen'
import { Picture } from './Picture'
import { PlainTable } from './PlainTable'
import { useWords } from '../words'

/** Two periods side by side, the earlier one first. */
export function Compared({ compared, unit }: { readonly compared: ComparedView; readonly unit: string }) {
  const { lineBreaks, pictureScreen } = useWords()
  const { unbroken } = lineBreaks
  return (
    <section className="compared" aria-labelledby="compared-heading">
      <h3 id="compared-heading">{pictureScreen.TWO_PERIODS}</h3>
      <p>
        <b>{unbroken(compared.lows)}</b>
      </p>
      {compared.cautions.map((caution) => (
        <p key={caution}>
          <b>{unbroken(caution)}</b>
        </p>
      ))}
      <p>
        <b>{unbroken(compared.clear)}</b>
      </p>
      <p>{unbroken(compared.introduction)}</p>
      <PlainTable table={compared.measures} caption={pictureScreen.SIDE_BY_SIDE} />
      <p className="quiet">{unbroken(compared.measuresNote)}</p>
      {compared.picture && <Picture picture={compared.picture} name={pictureScreen.PICTURE_OF_TWO} />}
      {compared.blocks && (
        <>
          <h4>{pictureScreen.blockChangesHeading(unit)}</h4>
          <PlainTable table={compared.blocks} caption={pictureScreen.BLOCK_CHANGES} />
          <p className="quiet">{unbroken(compared.blocksNote)}</p>
        </>
      )}
    </section>
  )
}
