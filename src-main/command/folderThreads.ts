import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { Tinypool } from 'tinypool'
import type { FolderJob } from './folderWorker'
import type makeOne from './folderWorker'

/** Bytes that a thread may hold after a log before another takes its place. */
const MOST_BYTES_HELD = 600_000_000

/** Threads that make reports, as many as this computer has cores; `built`: the folder in which their program lies. */
export function folderThreads(built: string, reports = Infinity) {
  const threads = Math.min(availableParallelism(), reports)
  const pool = new Tinypool({
    filename: join(built, 'folderWorker.js'),
    maxThreads: threads,
    minThreads: threads,
    maxMemoryLimitBeforeRecycle: MOST_BYTES_HELD,
  })
  return {
    atOnce: threads,
    make: (job: FolderJob) => pool.run(job) as ReturnType<typeof makeOne>,
    end: () => pool.destroy(),
  }
}
