import { vi } from 'vitest'

// Tests wait for what stays, never for what passes, and no limit of theirs is one that a busy computer reaches.

/** What takes as long hangs. A test as a whole may take longer (vitest.config.ts), so that the step is named. */
export const HANGS_MS = 600_000

/** Once a check holds. */
export function soon(check: () => void | Promise<void>): Promise<void> {
  return vi.waitFor(check, { timeout: HANGS_MS })
}

/**
 * Meets work half-way. `meets` begins it, `times` as long, and says whether it was met: on a busy computer it may be over
 * before anyone looks; then it is begun anew, twice as long.
 */
export async function metHalfWay(meets: (times: number) => Promise<boolean>): Promise<void> {
  for (let times = 1; !(await meets(times)); times *= 2);
}
