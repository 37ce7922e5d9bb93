import type { PagesChosen, PagesOut } from '../usePagesOut'
import { useWords } from '../words'

interface Props {
  readonly out: PagesOut
  /** Whether the visit has a file, which is carried too. */
  readonly hasFile: boolean
}

/** What of the pages is printed, and what the PDF carries: ticks, for these pages alone. */
export function PrintedTicks({ out: { chosen, choose }, hasFile }: Props) {
  const { pagesScreen } = useWords()
  const tick = (name: keyof PagesChosen, text: string, ruledOut = false) => (
    <label className="tick">
      <input
        type="checkbox"
        name={name}
        disabled={ruledOut}
        checked={chosen[name] && !ruledOut}
        onChange={({ currentTarget }) => choose({ [name]: currentTarget.checked })}
      />
      {text}
    </label>
  )
  return (
    <fieldset className="ticks">
      <legend>{pagesScreen.PRINTED}</legend>
      {tick('onePage', pagesScreen.FIRST_PAGE_ALONE)}
      {tick('wholeMethod', pagesScreen.WHOLE_METHOD, chosen.onePage)}
      {tick('withoutNotes', pagesScreen.WITHOUT_NOTES)}
      {tick('attach', pagesScreen.attachText(hasFile), chosen.withoutNotes)}
    </fieldset>
  )
}
