import { join } from 'node:path'
import { ENGLISH } from '../../src-core/wording/english'
import type { Words } from '../../src-core/wording/words'
import { helpLines, parseCommand } from './commandLine'
import { kitInFile } from './kitInFile'
import { complain, say, sayJson } from './terminal'
import { folderProgress } from './terminalProgress'
import { WriteFailed } from '../files/writeFiles'
import { faultTrace } from '../program/faultTrace'
import { nowMs } from '../program/now'
import { PROGRAM } from '../program/program'
import { logFault } from '../program/programLog'
import { ANSWERS_FILE } from './folderAnswers'
import { runFolder } from './folderRun'
import { folderThreads } from './folderThreads'
import type { QueueTold } from './queueConnection'
import { QueueFault, type QueueFaultCode } from './queueFault'

// `--each`: the command line of a folder of logs.

/** Faults of a queue that are mended on the command line or beside it, before anything was begun. */
const MENDED_FIRST: readonly QueueFaultCode[] = ['packages', 'address', 'login', 'evicts', 'older']

const EXIT = { done: 0, fault: 1, wrongCommand: 2, someRefused: 3, notWritten: 4 } as const

/** The language of the command line, chosen here. */
const WORDS: Words = ENGLISH

async function main(words: Words, args: readonly string[], built: string): Promise<number> {
  const wrongCommand = (message: string) => {
    complain(message, '', words.commandLine.USAGE)
    return EXIT.wrongCommand
  }
  const parsed = parseCommand(words, args)
  if (parsed.kind === 'wrong') return wrongCommand(parsed.message)
  if (parsed.kind !== 'run') {
    // The other kinds stand alone, whatever is named beside them.
    say(...(parsed.kind === 'version' ? [PROGRAM.version] : helpLines(words)))
    return EXIT.done
  }
  const { command } = parsed
  const { each, outputs } = command
  const { out } = outputs
  if (each === null || out === null) throw new Error('no folder is named')
  // Each outage is told; of a fault that ends the run it is told why.
  const told: QueueTold = {
    away: (host) => complain(words.queue.awayText(host)),
    back: () => complain(words.queue.BACK),
    noWorkers: () => complain(words.queue.NO_WORKERS),
  }
  if (command.worker) {
    const { queueWorker } = await import('./queueWorker')
    const begun = (atOnce: number) => {
      if (!command.quiet) say(words.queue.workerText(atOnce, PROGRAM.version))
    }
    const done = await queueWorker(words, { each, out, queue: command.queue ?? '' }, built, {
      ...told,
      begun,
    })
    if (!command.quiet) say(words.queue.workerEndText(done))
    return EXIT.done
  }
  const kit = command.kit === null ? null : await kitInFile(words, command.kit)
  if (kit !== null && 'problems' in kit) {
    complain(...kit.problems)
    return EXIT.someRefused
  }
  const queue = command.queue
  const maker =
    queue === null ? null : await (await import('./queueMaker')).queueMaker({ each, out, queue }, told)
  const progress = folderProgress(words, process.stderr, Date.now)
  const run = await runFolder(
    words,
    { ...command, each, outputs: { ...outputs, out } },
    {
      kit: kit === null ? null : kit.kit,
      nowMs: nowMs(),
      maker: (reports) => maker ?? folderThreads(built, reports),
      watch: (far) => {
        if (!command.quiet) progress.watch(far)
      },
      tell: (text) => complain(text),
    },
  )
  progress.end()
  if ('wrong' in run) return wrongCommand(run.wrong)
  const lacking = run.rows.filter(({ overview }) => overview === null)
  for (const { log, why } of lacking) complain(why.startsWith(log) ? why : `${log}: ${why}`)
  const notWritten = lacking.filter(({ state }) => state === 'not-written').length
  if (command.jsonl) sayJson(run.jsonLines)
  else if (!command.quiet) {
    const { made, kept } = run
    if (run.passedOver.length > 0) say(words.overview.passedOverText(run.passedOver))
    const asking = lacking.length - notWritten
    say(words.overview.endText({ made, kept, asking, notWritten }, out, join(each, ANSWERS_FILE)))
  }
  if (notWritten > 0) return EXIT.notWritten
  return lacking.length > 0 ? EXIT.someRefused : EXIT.done
}

/** Runs `--each` as the arguments say, and sets the status; `built`: the folder in which the thread's program lies. */
export async function folderCommand(built: string): Promise<void> {
  // A reader that stops listening is no fault.
  process.stderr.on('error', () => undefined)
  process.stdout.on('error', () => undefined)
  try {
    process.exitCode = await main(WORDS, process.argv.slice(2), built)
  } catch (error) {
    process.exitCode = toldFault(error)
    // What waits for a queue that is lost would go on.
    if (error instanceof QueueFault) process.exit()
  }
}

function toldFault(error: unknown): number {
  if (error instanceof WriteFailed) {
    complain(WORDS.outputs.notWrittenText(error.fault))
    return EXIT.notWritten
  }
  if (error instanceof QueueFault) {
    complain(WORDS.queue.FAULTS[error.code](error.detail))
    return MENDED_FIRST.includes(error.code) ? EXIT.wrongCommand : EXIT.notWritten
  }
  const { syscall, path = '' } = error as NodeJS.ErrnoException
  if (syscall !== undefined) {
    complain(WORDS.overview.notAFolder(path))
    return EXIT.wrongCommand
  }
  logFault('folder', error)
  complain(WORDS.commandLine.PROGRAM_FAILED, ...faultTrace('folder', error))
  return EXIT.fault
}
