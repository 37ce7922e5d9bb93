import { realpathSync, existsSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import type { FolderMaker } from './folderRun'
import { type FolderJob, inputsOf } from './folderWorker'
import { PROGRAM } from '../program/program'
import { connectQueue, queueFault, type QueueTold } from './queueConnection'
import {
  clearQueueFolder,
  OTHER_INPUTS,
  outcomeAt,
  type QueueDone,
  type QueueJob,
  queueName,
  sha256,
  writeSettings,
} from './queueFolder'

// The computer that asks for the reports of a folder: it hands out logs as jobs of a queue and gathers what came of them.

/** Jobs of one run that stand in the queue at a time: enough for some hundred cores, little for the Redis. */
const AT_ONCE = 2_000
const LOOK_MS = 500
/** A shared folder may show what another computer wrote only after a while (NFS: acdirmax, 60 s by default). */
const SEEN_AFTER_MS = 90_000
/** Tries of a log at which a worker fails; the first wait, doubled each time. */
const ATTEMPTS = 3
const BACKOFF_MS = 1_000
const WORKERS_MS = 10_000

/** By a queue. The maker takes any number of logs. Throws `QueueFault`. */
export async function queueMaker(
  { each, out, queue: text }: { readonly each: string; readonly out: string; readonly queue: string },
  told: QueueTold,
): Promise<FolderMaker> {
  const { bullmq, client, lost, disconnect } = await connectQueue(text, process.env, told)
  const root = realpathSync(each)
  const begun = Date.now()
  let end: unknown = null
  lost.catch((error: unknown) => (end = error))
  const queue = new bullmq.Queue<QueueJob, QueueDone>(queueName(out), { connection: client })
  queue.on('error', () => undefined)
  const settings = new Map<FolderJob['command'], string>()
  const workers = setInterval(() => void lookForWorkers().catch(() => undefined), WORKERS_MS)
  let isTold = false
  async function lookForWorkers() {
    const isAlone = (await queue.getWorkersCount()) === 0
    if (isAlone && !isTold) told.noWorkers()
    isTold = isAlone
  }

  async function make(job: FolderJob) {
    const { log, command } = job
    const meant = inputsOf(log.paths)
    if (meant === job.known) return { state: 'kept' } as const
    const asked = settings.get(command) ?? writeSettings(out, job)
    settings.set(command, asked)
    const data: QueueJob = {
      version: PROGRAM.version,
      log: {
        name: log.name,
        paths: log.paths.map((path) => relative(root, path).split(sep).join('/')),
        report: log.report,
      },
      ...{ meant, options: job.options, settings: asked },
    }
    // The same for all that ask for the same; another one once it was made and is to be made anew.
    const jobId = sha256(JSON.stringify([log.name, meant, job.options, job.times]))
    let mayDoAnew = true
    for (let unseenSince: number | null = null; ; await setTimeout(LOOK_MS)) {
      const standing = await queue.getJob(jobId)
      if (standing === undefined) {
        const backoff = { type: 'exponential', delay: BACKOFF_MS }
        await queue.add('log', data, { jobId, attempts: ATTEMPTS, backoff })
      } else if (standing.finishedOn !== undefined) {
        const done = standing.returnvalue as QueueDone | null
        if (done === null) {
          // So that the next run tries it again.
          await standing.remove()
          if (standing.failedReason === OTHER_INPUTS) return { state: 'other-inputs' } as const
          throw new Error('failed')
        }
        const outcome = outcomeAt(out, done)
        const stands = outcome?.state !== 'made' || existsSync(join(out, log.report))
        if (outcome !== null && stands) {
          if (outcome.state === 'not-written') await standing.remove()
          return outcome
        }
        unseenSince ??= Date.now()
        const isOverdue = Date.now() - unseenSince > SEEN_AFTER_MS
        // Of a run that was stopped, and removed since: made anew, once.
        if (isOverdue || (mayDoAnew && standing.finishedOn < begun)) {
          await standing.remove()
          if (!mayDoAnew) return { state: 'other-inputs' } as const
          mayDoAnew = false
          unseenSince = null
        }
      }
    }
  }

  return {
    atOnce: AT_ONCE,
    make: (job) =>
      make(job).catch((error: unknown) => {
        throw end ?? queueFault(error) ?? error
      }),
    end: async () => {
      clearInterval(workers)
      clearQueueFolder(out)
      disconnect()
      await queue.close().catch(() => undefined)
    },
  }
}
