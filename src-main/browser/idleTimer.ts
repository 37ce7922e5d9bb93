const MS_PER_MINUTE = 60_000

/** Calls `end` once when `minutes` have passed without a restart. */
export function idleTimer(minutes: number, end: () => void): { restart(): void; stop(): void } {
  const timer = setTimeout(end, minutes * MS_PER_MINUTE)
  return {
    restart: () => {
      timer.refresh()
    },
    stop: () => clearTimeout(timer),
  }
}
