import type { Paper } from '../../src-core/reference/paper'
import type { Analysis } from '../../src-core/analysis/analysis'
import { readingsCsv } from '../../src-core/exchange/readingsCsv'
import { reportJson } from '../../src-core/exchange/reportJson'
import type { LogSource } from '../../src-core/log/logSource'
import { refusalLine } from '../../src-core/wording/importMessages'
import { kitProblemText } from '../../src-core/wording/kitMessages'
import { messageText } from '../../src-core/wording/message'
import { wrongRangeUnitMessage } from '../../src-core/wording/targets'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import {
  ASK_AGAIN,
  ASK_NEW_PASSPHRASE,
  ASK_PASSPHRASE,
  EMPTY_PASSPHRASE,
  NO_TERMINAL,
  NOT_THE_SAME,
  unreadablePassphrase,
  VISIT_ON_STANDARD_INPUT,
} from '../../src-core/wording/visitFile'
import type { Visit } from '../../src-core/visit/visit'
import { reportKeeper } from '../../src-core/visit/visitReport'
import { sinceLastVisit } from '../../src-core/visit/visitRequest'
import { neverSaved, removedTracesText } from '../../src-core/wording/traces'
import { OR_REPLACE } from '../../src-core/wording/outputs'
import { terminalSummary } from '../../src-core/wording/terminalSummary'
import { readFileSync } from 'node:fs'
import type { Kit } from '../../src-core/kit/kit'
import { type Command, HELP, parseCommand } from './commandLine'
import { OUTPUT_NAMES, type OutputName } from './options'
import { faultTrace } from '../program/faultTrace'
import { askPassphrase, canAsk } from './askPassphrase'
import { BYTE_TOOLS } from '../files/byteTools'
import { askedOf, isVisit, isVisitFile, openLog, passphraseFrom } from './commandVisit'
import type { LoadedVisit } from '../files/visitStore'
import { computersZone, minuteOf, nowMs } from '../program/now'
import { PROGRAM } from '../program/program'
import { programFolder } from '../program/programFolder'
import { logFault } from '../program/programLog'
import { complain, say, sayJson } from './terminal'
import { terminalProgress } from './terminalProgress'
import {
  checkWritable,
  isDevice,
  isSameFile,
  isStandardInput,
  type Output,
  Spared,
  WriteFailed,
  writeOutputs,
} from '../files/writeFiles'

/** Exit statuses of the command line. */
const EXIT = { done: 0, fault: 1, wrongCommand: 2, refused: 3, notWritten: 4 } as const
type Exit = (typeof EXIT)[keyof typeof EXIT]

async function main(args: readonly string[]): Promise<Exit> {
  const parsed = parseCommand(args)
  switch (parsed.kind) {
    case 'help':
      say(...HELP)
      return EXIT.done
    case 'version':
      say(PROGRAM.version)
      return EXIT.done
    case 'remove-traces':
      return removeOwnTraces()
    case 'wrong':
      return wrongCommand(parsed.message)
    case 'run':
      return run(parsed.command)
  }
}

async function removeOwnTraces(): Promise<Exit> {
  const { removeTraces } = await import('../window/traces')
  const removed = await removeTraces()
  say(...removedTracesText(programFolder(), removed))
  return removed.stay.length === 0 ? EXIT.done : EXIT.notWritten
}

async function run(command: Command): Promise<Exit> {
  const clash = clashOfFiles(command)
  if (clash !== null) return wrongCommand(clash)
  if (command.logs.length === 0) return handOut(command)
  const logs: LogSource[] = []
  const visits: string[] = []
  for (const path of command.logs) {
    try {
      if (path !== '-' && isVisitFile(path)) visits.push(path)
      else {
        const log = await openLog(path)
        if (isVisit(log)) return refuse(log.name, VISIT_ON_STANDARD_INPUT)
        logs.push(log)
      }
    } catch (error) {
      complain(`${path}: ${cannotOpen(error)} (unreadable-file)`)
      return EXIT.refused
    }
  }
  if (visits.length > 1)
    return wrongCommand('Several visits are named; open one, with the logs to add to it.')
  const [visitPath] = visits
  const ownSave =
    command.outputs.save !== null && visitPath !== undefined && isSameFile(command.outputs.save, visitPath)
  checkPlaces(command, ownSave)
  const kit = command.kit === null ? null : await kitInFile(command.kit)
  if (kit === 'refused') return EXIT.refused
  const opened = visitPath === undefined ? null : await openedVisit(visitPath, command)
  if (opened === 'refused') return EXIT.refused
  const asked = askedOf(opened?.visit ?? null, logs, command, kit)
  let { visit } = asked
  const zone = visit.zone ?? computersZone()
  const context = { nowMs: nowMs(), zone }
  const report = reportKeeper(BYTE_TOOLS)
  const analysed = () =>
    report(visit, context, { sources: asked.sources, watch: terminalProgress(process.stderr) })
  const isAdded = (source: number) =>
    opened !== null && source >= opened.visit.logs.length && source < visit.logs.length
  if (isAdded(visit.logs.length - 1) && command.period === null) {
    visit = { ...visit, period: null, versus: null }
    const whole = analysed()
    const periods =
      whole.kind === 'analysed' ? sinceLastVisit(whole.analysis.readings, (source) => !isAdded(source)) : null
    if (periods !== null) visit = { ...visit, ...periods }
  }
  const outcome = analysed()
  if (outcome.kind === 'wrong-targets') {
    return wrongCommand(messageText(wrongRangeUnitMessage(outcome.wrong, outcome.unit), 'terminal'))
  }
  if (outcome.kind === 'stopped') {
    for (const refusal of outcome.refusals) complain(`${refusalLine(refusal)}`)
    return EXIT.refused
  }
  const { analysis } = outcome
  const outputs = await outputsOf(analysis, command, visit)
  if (command.outputs.save !== null) {
    const passphrase = await passphraseToSaveWith(command, opened?.passphrase ?? null)
    const { saveVisit } = await import('../files/visitStore')
    const own = ownSave ? opened : null
    const request = {
      path: command.outputs.save,
      visit: { ...visit, zone },
      passphrase,
      openedAs: own?.sha256 ?? null,
      damagedAs: own && own.damage.length > 0 ? own.sha256 : null,
      sparesOthers: !command.replace,
    }
    await saveVisit(request, outputs)
  } else await writeOutputs(outputs)
  if (command.outputs.json === '-') sayJson(jsonText(analysis))
  else say(...terminalSummary(analysis, outputPaths(command)))
  return EXIT.done
}

type Opened = Extract<LoadedVisit, { kind: 'loaded' }>

/** The visit in a file; what is not sound in it is said. */
async function openedVisit(path: string, command: Command): Promise<Opened | 'refused'> {
  // Loaded only where needed: the shapes take longer to set up than most logs to read.
  const { loadVisit } = await import('../files/visitStore')
  const loaded = await loadVisit(path, () => passphraseToOpen(command))
  if (loaded.kind === 'protected') throw new WrongCommand(NO_TERMINAL)
  if (loaded.kind === 'refused') {
    refuse(path, loaded.message)
    return 'refused'
  }
  for (const message of loaded.damage) complain(`${path}: ${message}`)
  const { newerUnsaved } = await import('../window/autosave')
  const unsaved = await newerUnsaved(programFolder(), path)
  if (unsaved !== null) complain(`${path}: ${neverSaved(minuteOf(unsaved.keptAtMs))}`)
  return loaded
}

function refuse(name: string, message: string): Exit {
  complain(`${name}: ${message} (visit-unreadable)`)
  return EXIT.refused
}

/** A fault that the person can mend on the command line. */
class WrongCommand extends Error {}

async function passphraseToOpen({ passphraseFd }: Command): Promise<string | null> {
  if (passphraseFd !== null) return passphraseIn(passphraseFd)
  return canAsk() ? askPassphrase(ASK_PASSPHRASE) : null
}

/** Null where the visit is saved in clear. One that was protected stays so, with the same passphrase. */
async function passphraseToSaveWith(command: Command, known: string | null): Promise<string | null> {
  if (known !== null) return known
  if (command.passphraseFd !== null) return notEmpty(passphraseIn(command.passphraseFd))
  if (!command.protect) return null
  if (!canAsk()) throw new WrongCommand(NO_TERMINAL)
  const passphrase = notEmpty(await askPassphrase(ASK_NEW_PASSPHRASE))
  if ((await askPassphrase(ASK_AGAIN)) !== passphrase) throw new WrongCommand(NOT_THE_SAME)
  return passphrase
}

function passphraseIn(descriptor: number): string {
  try {
    return passphraseFrom(descriptor)
  } catch {
    throw new WrongCommand(unreadablePassphrase(descriptor))
  }
}

function notEmpty(passphrase: string): string {
  if (passphrase === '') throw new WrongCommand(EMPTY_PASSPHRASE)
  return passphrase
}

/** The sheets to hand out alone, without any log. */
async function handOut(command: Command): Promise<Exit> {
  checkPlaces(command, false)
  const content = await handout(command.paper ?? 'A4', command.unit ?? 'mg/dL')
  await writeOutputs([{ path: command.outputs.handout ?? '', content, sparesOthers: !command.replace }])
  for (const path of outputPaths(command)) say(`Wrote ${path}`)
  return EXIT.done
}

/** What the kit file tells; where it cannot be read, that is said. */
async function kitInFile(path: string): Promise<Kit | 'refused'> {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    complain(`${path}: ${cannotOpen(error)} (kit-unreadable)`)
    return 'refused'
  }
  const { readKit } = await import('../../src-core/kit/readKit')
  const read = readKit(new TextDecoder().decode(bytes))
  if ('kit' in read) return read.kit
  for (const problem of read.problems) {
    complain(`${path}, line ${problem.line}: ${kitProblemText(problem)} (kit-unreadable)`)
  }
  return 'refused'
}

/** How each output but the visit is made; a new one is a row here and one of the options. */
const MAKERS: Readonly<
  Record<
    Exclude<OutputName, 'save'>,
    (analysis: Analysis, visit: Visit) => Output['content'] | Promise<Output['content']>
  >
> = {
  out: async (analysis, { paper, label, diary }) => {
    // Loaded only here: the PDF library takes longer to start than all the figures.
    const { reportPdf } = await import('../pdf/report')
    const diaryDays = diary === 'all' ? Infinity : diary
    return reportPdf(analysis, { paper, label, ...(diaryDays !== null && { diaryDays }), madeAtMs: nowMs() })
  },
  json: jsonText,
  readings: readingsCsv,
  handout: ({ settings }, { paper }) => handout(paper, settings.unit),
}

async function outputsOf(analysis: Analysis, command: Command, visit: Visit): Promise<readonly Output[]> {
  const outputs: Output[] = []
  for (const name of OUTPUT_NAMES) {
    const path = command.outputs[name]
    if (name === 'save' || path === null || path === '-') continue
    outputs.push({ path, content: await MAKERS[name](analysis, visit), sparesOthers: !command.replace })
  }
  return outputs
}

async function handout(paper: Paper, unit: GlucoseUnit): Promise<Uint8Array> {
  const { handoutPdf } = await import('../pdf/report')
  return handoutPdf(paper, unit, nowMs())
}

function jsonText(analysis: Analysis): string {
  return `${JSON.stringify(reportJson(analysis, PROGRAM), null, 2)}\n`
}

function outputPaths(command: Command): readonly string[] {
  return OUTPUT_NAMES.flatMap((name) => command.outputs[name] ?? []).filter((path) => path !== '-')
}

/** Whether every output may be written, before any work is done. Throws `WriteFailed`. */
function checkPlaces(command: Command, ownSave: boolean): void {
  for (const path of outputPaths(command)) {
    const isOwn = ownSave && path === command.outputs.save
    checkWritable({ path, sparesOthers: !command.replace && !isOwn })
  }
}

/** Two outputs in one file, or an output over a log; null where the files are distinct. */
function clashOfFiles(command: Command): string | null {
  const outputs = outputPaths(command)
  for (const [index, path] of outputs.entries()) {
    if (command.kit !== null && isSameFile(command.kit, path)) {
      return `${path} is the kit to read; writing there would destroy it. Choose another name.`
    }
    // A visit may be saved over itself.
    const isKept = (log: string) => path === command.outputs.save && holdsVisit(log)
    if (
      command.logs.some(
        (log) => !isKept(log) && (log === '-' ? isStandardInput(path) : isSameFile(log, path)),
      )
    ) {
      return `${path} is a log to read; writing there would destroy it. Choose another name.`
    }
    if (!isDevice(path) && outputs.slice(index + 1).some((other) => isSameFile(other, path))) {
      return `Two outputs would go to ${path}. Choose another name for one of them.`
    }
  }
  return null
}

function holdsVisit(path: string): boolean {
  try {
    return isVisitFile(path)
  } catch {
    return false
  }
}

function cannotOpen(error: unknown): string {
  const { code } = error as NodeJS.ErrnoException
  if (code === 'ENOENT') return 'there is no such file. Check the name and the folder.'
  if (code === 'EACCES') return 'the file may not be read by this user.'
  return `the file cannot be opened (${code ?? (error as Error).message}).`
}

function wrongCommand(message: string): Exit {
  complain(message, '', 'Usage: npm run report -- LOG [LOG ...] [options]; --help lists them.')
  return EXIT.wrongCommand
}

// A reader that stops listening (such as `head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return
  process.exitCode = EXIT.notWritten
  complain(`Standard output could not be written (${error.code ?? error.name}).`)
})
process.stderr.on('error', () => undefined)

main(process.argv.slice(2)).then(
  (exit) => {
    process.exitCode ??= exit
  },
  (error: unknown) => {
    if (error instanceof WrongCommand) {
      process.exitCode = wrongCommand(error.message)
      return
    }
    if (error instanceof WriteFailed) {
      complain(`${error.message}${error instanceof Spared ? ` ${OR_REPLACE}` : ''}`)
      process.exitCode = EXIT.notWritten
      return
    }
    logFault('report', error)
    // Only names and places of the program: a message may hold a part of the log.
    const trace = faultTrace('report', error)
    complain('The program failed; nothing of your log was changed. Please report these lines:', ...trace)
    process.exitCode = EXIT.fault
  },
)
