import { createContext, useContext } from 'react'
import type { Words } from '../src-core/wording/words'

/** The catalogue in which the window speaks; given once, around the whole window. */
export const WordsContext = createContext<Words | null>(null)

/** The catalogue of the window that a component stands in. */
export function useWords(): Words {
  const words = useContext(WordsContext)
  if (words === null) throw new Error('No catalogue around this component')
  return words
}
