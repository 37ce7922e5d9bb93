import type { Bridge } from '../src-core/bridge/contract'

const EVERY_MS = 60_000

/** Tells the browser host once a minute that the window is still open, so that it ends only after it was closed. */
export function keepAwake(bridge: Bridge): void {
  setInterval(() => {
    // A host that has ended says so when something is asked of it; until then there is nothing to tell.
    bridge.about(null).catch(() => undefined)
  }, EVERY_MS)
}
