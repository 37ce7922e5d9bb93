import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { ENGLISH } from '../../src-core/wording/english'
import { useWords, WordsContext } from '../../src-renderer/useWords'

function Safety() {
  return <p>{useWords().head.SAFETY_LINE}</p>
}

describe('the words of the window', () => {
  it('are those of the catalogue that it is given', () => {
    const other = { ...ENGLISH, head: { ...ENGLISH.head, SAFETY_LINE: 'Keine Dosis nach diesen Seiten.' } }
    for (const words of [ENGLISH, other]) {
      const markup = renderToStaticMarkup(
        <WordsContext value={words}>
          <Safety />
        </WordsContext>,
      )
      expect(markup).toBe(`<p>${words.head.SAFETY_LINE}</p>`)
    }
  })

  it('are missed aloud where no catalogue was given', () => {
    expect(() => renderToStaticMarkup(<Safety />)).toThrow('No catalogue')
  })
})
