import { type RefObject, useEffect, useRef } from 'react'

/**
 * A reference whose element takes the focus whenever another `shown` appears, so that a screen reader starts
 * there; the button that was pressed may be gone.
 */
export function useFocusOn<E extends HTMLElement>(shown: unknown): RefObject<E | null> {
  const element = useRef<E>(null)
  useEffect(() => element.current?.focus(), [shown])
  return element
}
