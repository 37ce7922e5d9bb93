import { createContext, useContext } from 'react'
import type { WindowWords } from '../src-core/wording/words'

/** The language of the window, given once at its start. */
export const WordsContext = createContext<WindowWords | null>(null)

/** The catalogue in which the window speaks. Throws where none was given. */
export function useWords(): WindowWords {
  const words = useContext(WordsContext)
  if (words === null) throw new Error('No catalogue was given')
  return words
}
