import { useEffect, useState } from 'react'
import type { Stale } from '../src-core/bridge/contract'
import { faultSentence } from './useVisit'
import { useWords } from './words'

export interface Asked<T> {
  /** Null until the first answer, and where the last question met a fault. */
  readonly view: T | null
  /** Whether the view answers the question as it is asked now. */
  readonly isCurrent: boolean
  readonly fault: string
}

interface Held<T> {
  readonly view: T | null
  /** The question that it answers. */
  readonly of: string | null
  readonly fault: string
}

/**
 * What the program behind the window answers, asked anew whenever `key` is another; meanwhile what stood before stays.
 * `onStale`: the visit was changed elsewhere.
 */
export function useAsked<T extends { readonly kind: string }>(
  key: string,
  ask: () => Promise<T | Stale>,
  onStale: () => void,
): Asked<T> {
  const words = useWords()
  const [asked, setAsked] = useState<Held<T>>({ view: null, of: null, fault: '' })
  useEffect(() => {
    let current = true
    ask().then(
      (given) => {
        if (!current) return
        if (given.kind === 'stale') onStale()
        else setAsked({ view: given as T, of: key, fault: '' })
      },
      (error: unknown) => {
        if (current) setAsked({ view: null, of: key, fault: faultSentence(words, error) })
      },
    )
    return () => {
      current = false
    }
    // eslint-disable-next-line react-hooks/exhaustive-deps -- the key says all that the question depends on
  }, [key])
  const { view, of, fault } = asked
  return { view, isCurrent: of === key, fault: of === key ? fault : '' }
}
