import type { ReactElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { ENGLISH } from '../../src-core/wording/english'
import { WordsContext } from '../../src-renderer/words'

/** A piece of the window as markup, in English. */
export function markupOf(element: ReactElement): string {
  return renderToStaticMarkup(<WordsContext value={ENGLISH}>{element}</WordsContext>)
}
