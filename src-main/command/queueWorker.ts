import { realpathSync, statSync } from 'node:fs'
import { basename, join, relative, sep } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import type { Words } from '../../src-core/wording/words'
import { answersBeside, answersPath, type AnswersRead } from './folderAnswers'
import { optionsKey } from './folderRun'
import { folderThreads } from './folderThreads'
import type { FolderJob } from './folderWorker'
import { logFault } from '../program/programLog'
import { PROGRAM } from '../program/program'
import { connectQueue, queueFault, type QueueTold } from './queueConnection'
import { QueueFault } from './queueFault'
import {
  OTHER_INPUTS,
  outcomesIn,
  QUEUE_JOB,
  type QueueDone,
  type QueueJob,
  queueName,
  readSettings,
} from './queueFolder'

// A computer that makes reports another one asks for. The reports are made in threads of their own: whoever computes where
// the lock of a job is renewed loses it.

/** Without a renewal so long, a job is another worker's: its own was killed. */
const LOCK_MS = 5_000
const STALLED_MS = 2_000
/** A log is tried by so many workers that end under it: one that ends all of them is told as a fault. */
const MOST_STALLED = 5
/** Jobs that are known as done, so that none is done twice; more are never between two that ask for the same. */
const KEPT_DONE = 100_000
const KEPT_FAILED = 10_000
/** Until a job of another version is looked at again, by whoever comes. */
const OTHER_VERSION_MS = 5_000

/** Makes reports until the process is told to end; gives how many logs were done. Throws `QueueFault`. */
export async function queueWorker(
  words: Words,
  { each, out, queue: text }: { readonly each: string; readonly out: string; readonly queue: string },
  built: string,
  told: QueueTold & { readonly begun: (atOnce: number) => void },
): Promise<number> {
  const root = realpathSync(each)
  const { bullmq, client, lost, disconnect } = await connectQueue(text, process.env, told)
  const name = queueName(out)
  const keep = outcomesIn(out)
  const threads = folderThreads(built)
  const answersOf = answersAsTheyStand(words, root)
  let done = 0
  let end: (fault: QueueFault | null) => void = () => undefined
  const ended = new Promise<void>((resolve, reject) => {
    end = (fault) => (fault === null ? resolve() : reject(fault))
  })

  async function take(
    job: InstanceType<typeof bullmq.Job<QueueJob, QueueDone>>,
    token?: string,
  ): Promise<QueueDone> {
    const { version } = job.data
    if (version !== PROGRAM.version) {
      await job.moveToDelayed(Date.now() + OTHER_VERSION_MS, token)
      const isNewer = version.localeCompare(PROGRAM.version, 'en', { numeric: true }) > 0
      if (isNewer) end(new QueueFault('older', version))
      throw new bullmq.DelayedError()
    }
    const asked = jobHere(job.data)
    if (asked === null) throw withoutStack(OTHER_INPUTS)
    const outcome = await threads.make(asked).catch((error: unknown) => {
      logFault('worker', error)
      // Of a fault no text goes over the network: it may hold a part of the log.
      throw withoutStack('fault')
    })
    if (outcome.state === 'other-inputs') throw withoutStack(OTHER_INPUTS)
    done++
    return keep(outcome)
  }

  /** The job with the paths of this computer; null where it does not stand here as it was asked for. */
  function jobHere(data: unknown): FolderJob | null {
    const read = QUEUE_JOB.safeParse(data)
    if (!read.success) return null
    const { log, meant, options, settings: hash } = read.data
    const settings = readSettings(out, hash)
    const answers = answersOf()
    if (settings === null || 'wrong' in answers) return null
    const { command, kit, nowMs, zones } = settings
    const answered = answers.answers.get(log.name.normalize('NFC')) ?? null
    const paths = log.paths.map((path) => join(root, path))
    const isReport = basename(log.report) === log.report && /^[^.].*\.pdf$/.test(log.report)
    if (!isReport || !paths.every(isWithin) || optionsKey(command, kit, answered) !== options) return null
    return {
      ...{ log: { ...log, paths, isOutside: false }, out, command, kit, told: answered, nowMs, zones },
      ...{ options, times: 0, meant, known: null },
    }
  }

  function isWithin(path: string): boolean {
    try {
      return relative(root, realpathSync(path)).split(sep)[0] !== '..'
    } catch {
      return false
    }
  }

  const worker = new bullmq.Worker<QueueJob, QueueDone>(name, take, {
    ...{ connection: client, concurrency: threads.atOnce },
    ...{ lockDuration: LOCK_MS, stalledInterval: STALLED_MS, maxStalledCount: MOST_STALLED },
    ...{ removeOnComplete: { count: KEPT_DONE }, removeOnFail: { count: KEPT_FAILED } },
  })
  worker.on('error', (error) => {
    const fault = queueFault(error)
    if (fault !== null) end(fault)
  })
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => end(null))
  told.begun(threads.atOnce)
  try {
    await Promise.race([ended, lost])
    await Promise.race([worker.close(), lost])
  } catch (error) {
    // What others may still take is given back, where the Redis takes anything.
    await Promise.race([worker.close(), setTimeout(LOCK_MS), lost]).catch(() => undefined)
    throw error
  } finally {
    disconnect()
    await threads.end()
  }
  return done
}

/** Fails a job: stack and message of an error go over the network. */
function withoutStack(message: string): Error {
  return Object.assign(new Error(message), { stack: '' })
}

/** The answers beside the logs, read anew only where the file has changed. */
function answersAsTheyStand(words: Words, folder: string): () => AnswersRead {
  let read: { readonly at: number | undefined; readonly answers: AnswersRead } | null = null
  return () => {
    const at = statSync(answersPath(folder), { throwIfNoEntry: false })?.mtimeMs
    if (read === null || read.at !== at) read = { at, answers: answersBeside(words, folder) }
    return read.answers
  }
}
