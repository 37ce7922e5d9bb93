import type { Analysis } from '../src-core/analysis/analysis'
import { openVisit } from '../src-core/analysis/openVisit'
import { readingsCsv } from '../src-core/exchange/readingsCsv'
import { reportJson } from '../src-core/exchange/reportJson'
import type { LogSource } from '../src-core/log/logSource'
import { refusalLine } from '../src-core/wording/importMessages'
import type { GlucoseUnit } from '../src-core/units/glucose'
import { terminalSummary } from '../src-core/wording/terminalSummary'
import { readFileSync } from 'node:fs'
import type { Kit } from '../src-core/kit/kit'
import { type Command, HELP, parseCommand } from './commandLine'
import { faultTrace } from './faultTrace'
import { logInFile, logOnStandardInput } from './logFiles'
import { nowMs } from './now'
import { PROGRAM } from './program'
import { terminalProgress } from './terminalProgress'
import {
  checkWritable,
  isSameFile,
  isStandardInput,
  type Output,
  WriteFailed,
  writeOutputs,
} from './writeFiles'

/** Exit statuses of the command line. */
const EXIT = { done: 0, fault: 1, wrongCommand: 2, refused: 3, notWritten: 4 } as const
type Exit = (typeof EXIT)[keyof typeof EXIT]

async function main(args: readonly string[]): Promise<Exit> {
  const parsed = parseCommand(args)
  switch (parsed.kind) {
    case 'help':
      process.stdout.write(HELP)
      return EXIT.done
    case 'version':
      process.stdout.write(`${PROGRAM.version}\n`)
      return EXIT.done
    case 'wrong':
      return wrongCommand(parsed.message)
    case 'run':
      return run(parsed.command)
  }
}

async function run(command: Command): Promise<Exit> {
  const clash = clashOfFiles(command)
  if (clash !== null) return wrongCommand(clash)
  if (command.logs.length === 0) return handOut(command)
  const sources: LogSource[] = []
  for (const log of command.logs) {
    try {
      sources.push(log === '-' ? await logOnStandardInput() : logInFile(log))
    } catch (error) {
      process.stderr.write(`${log}: ${cannotOpen(error)} (unreadable-file)\n`)
      return EXIT.refused
    }
  }
  const kit = command.kit === null ? {} : await kitInFile(command.kit)
  if (kit === null) return EXIT.refused
  for (const path of outputPaths(command)) checkWritable(path)
  const outcome = openVisit(
    sources,
    {
      answers: command.answers,
      shifts: command.shifts,
      kit,
      ...(command.unit && { unit: command.unit }),
      ...(command.targets && { targets: command.targets }),
      ...(command.period && { period: command.period }),
      ...(command.versus && { versus: command.versus }),
    },
    { nowMs: nowMs(), zone: command.zone },
    terminalProgress(process.stderr),
  )
  if (outcome.kind === 'wrong-targets') return wrongCommand(outcome.message)
  if (outcome.kind === 'stopped') {
    for (const refusal of outcome.refusals) process.stderr.write(`${refusalLine(refusal)}\n`)
    return EXIT.refused
  }
  await writeOutputs(await outputsOf(outcome.analysis, command))
  if (command.json === '-') process.stdout.write(jsonText(outcome.analysis))
  else process.stdout.write(terminalSummary(outcome.analysis, outputPaths(command)))
  return EXIT.done
}

/** The sheets to hand out alone, without any log. */
async function handOut(command: Command): Promise<Exit> {
  for (const path of outputPaths(command)) checkWritable(path)
  await writeOutputs(await handoutOf(command, command.unit ?? 'mg/dL'))
  for (const path of outputPaths(command)) process.stdout.write(`Wrote ${path}\n`)
  return EXIT.done
}

async function handoutOf({ handout, paper }: Command, unit: GlucoseUnit): Promise<readonly Output[]> {
  if (handout === null) return []
  const { handoutPdf } = await import('./report')
  return [{ path: handout, content: await handoutPdf(paper, unit, nowMs()) }]
}

/** What the kit file tells; null where it cannot be read, which is said. */
async function kitInFile(path: string): Promise<Kit | null> {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    process.stderr.write(`${path}: ${cannotOpen(error)} (kit-unreadable)\n`)
    return null
  }
  // Loaded only here: the shapes take longer to set up than most logs to read.
  const { readKit } = await import('../src-core/kit/readKit')
  const read = readKit(new TextDecoder().decode(bytes))
  if ('kit' in read) return read.kit
  for (const { line, message } of read.problems) {
    process.stderr.write(`${path}, line ${line}: ${message} (kit-unreadable)\n`)
  }
  return null
}

async function outputsOf(analysis: Analysis, command: Command): Promise<readonly Output[]> {
  const outputs: Output[] = []
  if (command.out !== null) {
    // Loaded only here: the PDF library takes longer to start than all the figures.
    const { reportPdf } = await import('./report')
    const content = await reportPdf(analysis, {
      paper: command.paper,
      label: command.label ?? '',
      ...(command.diaryDays !== null && { diaryDays: command.diaryDays }),
      madeAtMs: nowMs(),
    })
    outputs.push({ path: command.out, content })
  }
  if (command.json !== null && command.json !== '-')
    outputs.push({ path: command.json, content: jsonText(analysis) })
  if (command.readings !== null) outputs.push({ path: command.readings, content: readingsCsv(analysis) })
  return [...outputs, ...(await handoutOf(command, analysis.settings.unit))]
}

function jsonText(analysis: Analysis): string {
  return `${JSON.stringify(reportJson(analysis, PROGRAM), null, 2)}\n`
}

function outputPaths(command: Command): readonly string[] {
  return [command.out, command.json, command.readings, command.handout].filter(
    (path) => path !== null && path !== '-',
  ) as string[]
}

/** Two outputs in one file, or an output over a log; null where the files are distinct. */
function clashOfFiles(command: Command): string | null {
  const outputs = outputPaths(command)
  for (const [index, path] of outputs.entries()) {
    if (command.kit !== null && isSameFile(command.kit, path)) {
      return `${path} is the kit to read; writing there would destroy it. Choose another name.`
    }
    if (command.logs.some((log) => (log === '-' ? isStandardInput(path) : isSameFile(log, path)))) {
      return `${path} is a log to read; writing there would destroy it. Choose another name.`
    }
    if (outputs.slice(index + 1).some((other) => isSameFile(other, path))) {
      return `Two outputs would go to ${path}. Choose another name for one of them.`
    }
  }
  return null
}

function cannotOpen(error: unknown): string {
  const { code } = error as NodeJS.ErrnoException
  if (code === 'ENOENT') return 'there is no such file. Check the name and the folder.'
  if (code === 'EACCES') return 'the file may not be read by this user.'
  return `the file cannot be opened (${code ?? (error as Error).message}).`
}

function wrongCommand(message: string): Exit {
  process.stderr.write(`${message}\n\nUsage: npm run report -- LOG [LOG ...] [options]; --help lists them.\n`)
  return EXIT.wrongCommand
}

// A reader that stops listening (such as `head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return
  process.exitCode = EXIT.notWritten
  process.stderr.write(`Standard output could not be written (${error.code ?? error.name}).\n`)
})
process.stderr.on('error', () => undefined)

main(process.argv.slice(2)).then(
  (exit) => {
    process.exitCode ??= exit
  },
  (error: unknown) => {
    if (error instanceof WriteFailed) {
      process.stderr.write(`${error.message}\n`)
      process.exitCode = EXIT.notWritten
      return
    }
    // Only names and places of the program: a message may hold a part of the log.
    const trace = faultTrace('report', error)
    process.stderr.write(
      `The program failed; nothing of your log was changed. Please report these lines:\n${trace}\n`,
    )
    process.exitCode = EXIT.fault
  },
)
