import { useEffect, useState } from 'react'
import type { Bridge } from '../src-core/bridge/contract'
import type { VisitState } from '../src-core/bridge/visitState'

/** Why what is not saved could not be kept on the disk either, asked after every change; '' where it is kept. */
export function useKept(bridge: Bridge, state: VisitState | null): string {
  const [fault, setFault] = useState('')
  useEffect(() => {
    if (state === null) return
    let current = true
    bridge.kept(null).then(
      (given) => current && setFault(given),
      // Whatever else is asked next tells of a program that has ended.
      () => undefined,
    )
    return () => {
      current = false
    }
  }, [bridge, state])
  return fault
}
