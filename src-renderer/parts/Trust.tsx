import { unbroken } from './unbroken'

/** How far the readings can be trusted. */
export function Trust({ sentences }: { readonly sentences: readonly string[] }) {
  return (
    <section className="trust" aria-labelledby="trust-heading">
      <h3 id="trust-heading">How far the readings can be trusted</h3>
      {sentences.map((sentence) => (
        <p key={sentence}>{unbroken(sentence)}</p>
      ))}
    </section>
  )
}
