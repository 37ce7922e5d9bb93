import { useWords } from '../words'

/** How far the readings can be trusted. */
export function Trust({ sentences }: { readonly sentences: readonly string[] }) {
  const { lineBreaks, pictureScreen } = useWords()
  return (
    <section className="trust" aria-labelledby="trust-heading">
      <h3 id="trust-heading">{pictureScreen.TRUST}</h3>
      {sentences.map((sentence) => (
        <p key={sentence}>{lineBreaks.unbroken(sentence)}</p>
      ))}
    </section>
  )
}
