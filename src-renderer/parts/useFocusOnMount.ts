import { type RefObject, useEffect, useRef } from 'react'

/** A reference whose element takes the focus when it appears, so that a screen reader starts there. */
export function useFocusOnMount<E extends HTMLElement>(): RefObject<E | null> {
  const element = useRef<E>(null)
  useEffect(() => element.current?.focus(), [])
  return element
}
