import type { PictureView } from '../../src-core/bridge/pictureView'
import type { PlainTable as Table } from '../../src-core/shown/plainTable'
import { PlainTable } from './PlainTable'
import { useWords } from '../words'

interface Props {
  readonly picture: PictureView
  /** What a screen reader calls the region that scrolls. */
  readonly name: string
  /** What it shows, with a caption. */
  readonly table?: { readonly rows: Table; readonly caption: string; readonly note?: string }
}

/** A picture with its words and its table. Too wide for a narrow window, it scrolls within itself. */
export function Picture({ picture, name, table }: Props) {
  const { pictureScreen } = useWords()
  return (
    <>
      {/* eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a scrolling region must be reachable by key */}
      <div className="picture-frame" role="group" aria-label={name} tabIndex={0}>
        <Svg text={picture.svg} />
      </div>
      <details>
        <summary>{pictureScreen.inWordsText(name)}</summary>
        <p>{picture.description}</p>
      </details>
      {table && (
        <details>
          <summary>{pictureScreen.inNumbersText(name)}</summary>
          <PlainTable table={table.rows} caption={table.caption} />
          {table.note !== undefined && <p className="quiet">{table.note}</p>}
        </details>
      )}
    </>
  )
}

/**
 * SVG text as the core writes it, every text in it escaped. Set as markup, no script in it would run; the
 * page's policy forbids handlers besides.
 */
function Svg({ text }: { readonly text: string }) {
  return <div className="svg" dangerouslySetInnerHTML={{ __html: text }} />
}
