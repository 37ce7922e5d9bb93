import { useCallback, useEffect, useRef, useState } from 'react'
import type { Bridge, ProgressView } from '../src-core/bridge/contract'

/** Work that is done sooner is not worth a line. */
const SHOWN_AFTER_MS = 400
const ASKED_EVERY_MS = 200

/** How far long work has come, asked again and again while it lasts, and the way to stop it. */
export function useProgress(bridge: Bridge, working: boolean) {
  const [progress, setProgress] = useState<ProgressView>(null)
  const cancelled = useRef(false)
  useEffect(() => {
    if (!working) return
    cancelled.current = false
    let timer = askIn(SHOWN_AFTER_MS)
    let current = true
    async function ask() {
      // Asked for before the work had begun, it would have stopped nothing.
      if (cancelled.current) await bridge.cancel(null)
      const given = await bridge.progress(null)
      if (!current) return
      setProgress(given)
      timer = askIn(ASKED_EVERY_MS)
    }
    function askIn(ms: number) {
      // What goes wrong on the way is told of the work itself.
      return setTimeout(() => void ask().catch(() => undefined), ms)
    }
    return () => {
      current = false
      clearTimeout(timer)
      setProgress(null)
    }
  }, [bridge, working])
  const cancel = useCallback(() => {
    cancelled.current = true
    bridge.cancel(null).catch(() => undefined)
  }, [bridge])
  return { progress, cancel }
}
