import { useEffect, useState } from 'react'
import type { Stale } from '../src-core/bridge/contract'
import { faultSentence } from './useVisit'

export interface Asked<T> {
  /** Null until the first answer. */
  readonly view: T | null
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
  const [asked, setAsked] = useState<Asked<T>>({ view: null, fault: '' })
  useEffect(() => {
    let current = true
    ask().then(
      (given) => {
        if (!current) return
        if (given.kind === 'stale') onStale()
        else setAsked({ view: given as T, fault: '' })
      },
      (error: unknown) => {
        if (current) setAsked(({ view }) => ({ view, fault: faultSentence(error) }))
      },
    )
    return () => {
      current = false
    }
    // eslint-disable-next-line react-hooks/exhaustive-deps -- the key says all that the question depends on
  }, [key])
  return asked
}
