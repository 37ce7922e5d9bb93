import { ENGLISH } from '../../src-core/wording/english'
import type { Words } from '../../src-core/wording/words'
import { parseCommand } from './commandLine'
import { kitInFile } from './kitInFile'
import { complain, progressLine, say, sayJson } from './terminal'
import { WriteFailed } from '../files/writeFiles'
import { faultTrace } from '../program/faultTrace'
import { nowMs } from '../program/now'
import { logFault } from '../program/programLog'
import { runFolder } from './folderRun'

// `--each`: the command line of a folder of logs.

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
  if (parsed.kind !== 'run') throw new Error('a folder is named beside what stands alone')
  const { command } = parsed
  const { each, outputs } = command
  if (each === null || outputs.out === null) throw new Error('no folder is named')
  const kit = command.kit === null ? null : await kitInFile(words, command.kit)
  if (kit !== null && 'problems' in kit) {
    complain(...kit.problems)
    return EXIT.someRefused
  }
  const begun = Date.now()
  const run = await runFolder(
    words,
    { ...command, each, outputs: { ...outputs, out: outputs.out } },
    {
      kit: kit === null ? null : kit.kit,
      nowMs: nowMs(),
      built,
      watch: (done, of, without) => {
        if (command.quiet) return
        const minutesLeft =
          done < FEWEST_TO_TELL_TIME ? null : ((Date.now() - begun) / done / 60_000) * (of - done)
        progressLine(
          words.overview.progressText(
            done,
            of,
            without,
            minutesLeft === null ? null : Math.round(minutesLeft),
          ),
        )
      },
    },
  )
  progressLine('')
  if ('wrong' in run) return wrongCommand(run.wrong)
  const lacking = run.rows.filter(({ overview }) => overview === null)
  for (const { log, why } of lacking) complain(why.startsWith(log) ? why : `${log}: ${why}`)
  const notWritten = lacking.filter(({ state }) => state === 'not-written').length
  if (command.jsonl) sayJson(run.jsonLines)
  else if (!command.quiet) {
    say(words.overview.endText(run.made, run.kept, lacking.length - notWritten, notWritten, outputs.out))
  }
  if (notWritten > 0) return EXIT.notWritten
  return lacking.length > 0 ? EXIT.someRefused : EXIT.done
}

/** Fewer reports do not tell how long the others take. */
const FEWEST_TO_TELL_TIME = 5

/** Runs `--each` as the arguments say, and sets the status; `built`: the folder in which the thread's program lies. */
export async function folderCommand(built: string): Promise<void> {
  // A reader that stops listening is no fault.
  process.stderr.on('error', () => undefined)
  process.stdout.on('error', () => undefined)
  try {
    process.exitCode = await main(WORDS, process.argv.slice(2), built)
  } catch (error) {
    process.exitCode = toldFault(error)
  }
}

function toldFault(error: unknown): number {
  if (error instanceof WriteFailed) {
    complain(WORDS.outputs.notWrittenText(error.fault))
    return EXIT.notWritten
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
