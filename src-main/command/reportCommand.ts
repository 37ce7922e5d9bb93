import { createHash } from 'node:crypto'
import { dirname, isAbsolute, relative, sep } from 'node:path'
import type { Paper } from '../../src-core/reference/paper'
import type { Analysis } from '../../src-core/analysis/analysis'
import { fhirBundle } from '../../src-core/exchange/fhirBundle'
import { readingsCsv } from '../../src-core/exchange/readingsCsv'
import { reportJson } from '../../src-core/exchange/reportJson'
import { messageText } from '../../src-core/wording/message'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import { terminalSummary } from '../../src-core/report/terminalSummary'
import type { Visit } from '../../src-core/visit/visit'
import { reportKeeper } from '../../src-core/visit/visitReport'
import { sinceLastVisit } from '../../src-core/visit/visitRequest'
import { type Command, helpLines, parseCommand } from './commandLine'
import { OUTPUT_NAMES, type OutputName } from './options'
import { faultTrace } from '../program/faultTrace'
import { askPassphrase, canAsk } from './askPassphrase'
import { BYTE_TOOLS } from '../files/byteTools'
import { askedOf, isVisitFile, type NamedVisit, openNamed, passphraseFrom } from './commandVisit'
import type { Attach } from '../../src-core/window/effects'
import type { LoadedVisit } from '../files/visitStore'
import { computersZone, minuteOf, nowMs } from '../program/now'
import { PROGRAM } from '../program/program'
import { programFolder } from '../program/programFolder'
import { logFault } from '../program/programLog'
import { kitInFile } from './kitInFile'
import { complain, say, sayJson } from './terminal'
import { terminalProgress } from './terminalProgress'
import {
  checkWritable,
  isDevice,
  isSameFile,
  isStandardInput,
  type Output,
  WriteFailed,
  writeOutputs,
} from '../files/writeFiles'
import type { Words } from '../../src-core/wording/words'
import { ENGLISH } from '../../src-core/wording/english'

/** Exit statuses of the command line. */
const EXIT = { done: 0, fault: 1, wrongCommand: 2, refused: 3, notWritten: 4 } as const
type Exit = (typeof EXIT)[keyof typeof EXIT]

async function main(words: Words, args: readonly string[]): Promise<Exit> {
  const parsed = parseCommand(words, args)
  switch (parsed.kind) {
    case 'help':
      say(...helpLines(words))
      return EXIT.done
    case 'version':
      say(PROGRAM.version)
      return EXIT.done
    case 'remove-traces':
      return removeOwnTraces(words)
    case 'wrong':
      return wrongCommand(words, parsed.message)
    case 'run':
      return run(words, parsed.command)
  }
}

async function removeOwnTraces(words: Words): Promise<Exit> {
  const { removeTraces } = await import('../window/traces')
  const removed = await removeTraces()
  say(...words.traces.removedTracesText(programFolder(), removed))
  return removed.stay.length === 0 ? EXIT.done : EXIT.notWritten
}

async function run(words: Words, command: Command): Promise<Exit> {
  const clash = clashOfFiles(words, command)
  if (clash !== null) return wrongCommand(words, clash)
  if (command.logs.length === 0) return handOut(words, command)
  const named = await openNamed(words, command.logs)
  for (const message of named.told) complain(message)
  if (named.isRefused) return EXIT.refused
  const { logs, visits } = named
  if (visits.length > 1) return wrongCommand(words, words.commandLine.SEVERAL_VISITS)
  const visitNamed = visits.at(0)
  const visitPath = visitNamed?.path ?? null
  const ownSave =
    command.outputs.save !== null && visitPath !== null && isSameFile(command.outputs.save, visitPath)
  checkPlaces(command, ownSave)
  const told = command.kit === null ? null : await kitInFile(words, command.kit)
  if (told !== null && 'problems' in told) {
    complain(...told.problems)
    return EXIT.refused
  }
  const kit = told === null ? null : told.kit
  const opened = visitNamed === undefined ? null : await openedVisit(words, visitNamed, command)
  if (opened === 'refused') return EXIT.refused
  const asked = askedOf(words, opened?.visit ?? null, logs, command, kit)
  let { visit } = asked
  const zone = visit.zone ?? computersZone()
  const context = { nowMs: nowMs(), zone }
  const report = reportKeeper(words, BYTE_TOOLS)
  const analysed = () =>
    report(visit, context, {
      sources: asked.sources,
      ...(!command.quiet && { watch: terminalProgress(words, process.stderr) }),
    })
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
    return wrongCommand(
      words,
      messageText(words.targets.wrongRangeUnitMessage(outcome.wrong, outcome.unit), 'terminal'),
    )
  }
  if (outcome.kind === 'stopped') {
    for (const refusal of outcome.refusals) complain(`${words.importMessages.refusalLine(refusal)}`)
    return EXIT.refused
  }
  const { analysis } = outcome
  const visitFile = opened && command.attach ? await fileOf(opened, visit, zone) : null
  const attach = command.attach ? { visitFile } : null
  const outputs = await outputsOf(words, analysis, command, visit, attach)
  if (command.outputs.save !== null) {
    const passphrase = await passphraseToSaveWith(words, command, opened?.passphrase ?? null)
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
  for (const option of withoutEffect(command, analysis)) complain(words.commandLine.noEffect(option))
  if (command.outputs.json === '-') sayJson(jsonText(words, analysis))
  else if (!command.quiet) {
    say(...terminalSummary(words, analysis, outputPaths(command)))
    const isProtected = typeof opened?.passphrase === 'string'
    if (attach) say(words.attachments.carriedText(opened === null ? 'readings' : 'visit', isProtected))
  }
  return EXIT.done
}

/** Options that were said and changed nothing, because the logs tell by themselves, or hold nothing of these days. */
function withoutEffect(
  { logs, answers, shifts }: Command,
  { sources }: Analysis,
): readonly ('log-unit' | 'dates' | 'shift')[] {
  if (logs.length === 0) return []
  const isAnswered = sources.some(({ unit }) => unit.basis === 'answer' || unit.value === 'mixed')
  const moved = sources.flatMap(({ notes }) => notes.filter(({ code }) => code === 'moved'))
  return [
    ...(answers.unit !== undefined && !isAnswered ? ['log-unit' as const] : []),
    ...(answers.dates !== undefined && sources.every(({ dateOrder }) => dateOrder.basis !== 'answer')
      ? ['dates' as const]
      : []),
    ...(shifts.length > moved.length ? ['shift' as const] : []),
  ]
}

type Opened = Extract<LoadedVisit, { kind: 'loaded' }> & Pick<NamedVisit, 'bytes'>

/** The visit in a file; what is not sound in it is said. */
async function openedVisit(
  words: Words,
  { name, path, bytes }: NamedVisit,
  command: Command,
): Promise<Opened | 'refused'> {
  // Loaded only where needed: the shapes take longer to set up than most logs to read.
  const { visitIn } = await import('../files/visitStore')
  const loaded = await visitIn(words, bytes, () => passphraseToOpen(words, command))
  if (loaded.kind === 'protected') throw new WrongCommand(words.visitFile.NO_TERMINAL)
  if (loaded.kind === 'refused') {
    const orReadings = path === null ? ` ${words.attachments.READINGS_WITHOUT_PASSPHRASE}` : ''
    refuse(name, loaded.message + orReadings)
    return 'refused'
  }
  for (const message of loaded.damage) complain(`${name}: ${message}`)
  if (path === null) return { ...loaded, bytes }
  const { newerUnsaved } = await import('../window/autosave')
  const unsaved = await newerUnsaved(programFolder(), path)
  if (unsaved !== null) complain(`${path}: ${words.traces.neverSaved(minuteOf(unsaved.keptAtMs))}`)
  return { ...loaded, bytes }
}

/** The file for a report to carry: as it was opened where nothing is new, for enciphered again it would be other bytes. */
async function fileOf(
  { visit: before, damage, passphrase, bytes }: Opened,
  visit: Visit,
  zone: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const { fileContent } = await import('../files/visitStore')
  const isSame = (await fileContent(visit, null)) === (await fileContent(before, null)) && damage.length === 0
  return Uint8Array.from(isSame ? bytes : Buffer.from(await fileContent({ ...visit, zone }, passphrase)))
}

function refuse(name: string, message: string): Exit {
  complain(`${name}: ${message} (visit-unreadable)`)
  return EXIT.refused
}

/** A fault that the person can mend on the command line. */
class WrongCommand extends Error {}

async function passphraseToOpen(words: Words, { passphraseFd }: Command): Promise<string | null> {
  if (passphraseFd !== null) return passphraseIn(words, passphraseFd)
  return canAsk() ? askPassphrase(words.visitFile.ASK_PASSPHRASE) : null
}

/** Null where the visit is saved in clear. One that was protected stays so, with the same passphrase. */
async function passphraseToSaveWith(
  words: Words,
  command: Command,
  known: string | null,
): Promise<string | null> {
  if (known !== null) return known
  if (command.passphraseFd !== null) return notEmpty(words, passphraseIn(words, command.passphraseFd))
  if (!command.protect) return null
  if (!canAsk()) throw new WrongCommand(words.visitFile.NO_TERMINAL)
  const passphrase = notEmpty(words, await askPassphrase(words.visitFile.ASK_NEW_PASSPHRASE))
  if ((await askPassphrase(words.visitFile.ASK_AGAIN)) !== passphrase)
    throw new WrongCommand(words.visitFile.NOT_THE_SAME)
  return passphrase
}

function passphraseIn(words: Words, descriptor: number): string {
  try {
    return passphraseFrom(descriptor)
  } catch {
    throw new WrongCommand(words.visitFile.unreadablePassphrase(descriptor))
  }
}

function notEmpty(words: Words, passphrase: string): string {
  if (passphrase === '') throw new WrongCommand(words.visitFile.EMPTY_PASSPHRASE)
  return passphrase
}

/** The sheets to hand out alone, without any log. */
async function handOut(words: Words, command: Command): Promise<Exit> {
  checkPlaces(command, false)
  const content = await handout(words, command.paper ?? 'A4', command.unit ?? 'mg/dL')
  await writeOutputs([{ path: command.outputs.handout ?? '', content, sparesOthers: !command.replace }])
  for (const path of command.quiet ? [] : outputPaths(command)) say(words.commandLine.wroteText(path))
  return EXIT.done
}

/** How each output but the visit is made; a new one is a row here and one of the options. */
const MAKERS: Readonly<
  Record<
    Exclude<OutputName, 'save'>,
    (
      words: Words,
      analysis: Analysis,
      visit: Visit,
      command: Command,
      attach: Attach | null,
      /** Those before it. */
      made: readonly Output[],
    ) => Output['content'] | Promise<Output['content']>
  >
> = {
  out: async (words, analysis, { paper, label, diary }, { printed }, attach) => {
    // Loaded only here: the PDF library takes longer to start than all the figures.
    const { reportPdf } = await import('../pdf/report')
    const diaryDays = diary === 'all' ? Infinity : diary
    return reportPdf(words, analysis, {
      paper,
      label,
      ...(diaryDays !== null && { diaryDays }),
      printed,
      attach,
      madeAtMs: nowMs(),
    })
  },
  json: jsonText,
  readings: (_words, analysis) => readingsCsv(analysis),
  fhir: (words, analysis, { label }, { outputs, printed }, _attach, made) =>
    fhirBundle(words, analysis, {
      program: PROGRAM,
      madeAtMs: nowMs(),
      label,
      withoutNotes: printed.withoutNotes ?? false,
      pdf: printedBeside(outputs.fhir, made.find(({ path }) => path === outputs.out) ?? null),
      sha1: (bytes) => createHash('sha1').update(bytes).digest('hex'),
    }),
  handout: (words, { settings }, { paper }) => handout(words, paper, settings.unit),
}

async function outputsOf(
  words: Words,
  analysis: Analysis,
  command: Command,
  visit: Visit,
  attach: Attach | null,
): Promise<readonly Output[]> {
  const outputs: Output[] = []
  for (const name of OUTPUT_NAMES) {
    const path = command.outputs[name]
    if (name === 'save' || path === null || path === '-') continue
    outputs.push({
      path,
      content: await MAKERS[name](words, analysis, visit, command, attach, outputs),
      sparesOthers: !command.replace,
    })
  }
  return outputs
}

/** What a file beside the report tells of it; null where it is no file, or lies on another drive. */
function printedBeside(path: string | null, report: Output | null) {
  if (path === null || report === null || !(report.content instanceof Uint8Array)) return null
  const way = relative(dirname(path), report.path)
  if (isDevice(report.path) || isAbsolute(way)) return null
  return {
    url: way.split(sep).map(encodeURIComponent).join('/'),
    bytes: report.content.length,
    sha1: createHash('sha1').update(report.content).digest('base64'),
  }
}

async function handout(words: Words, paper: Paper, unit: GlucoseUnit): Promise<Uint8Array> {
  const { handoutPdf } = await import('../pdf/report')
  return handoutPdf(words, paper, unit, nowMs())
}

function jsonText(words: Words, analysis: Analysis): string {
  return `${JSON.stringify(reportJson(words, analysis, PROGRAM), null, 2)}\n`
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
function clashOfFiles(words: Words, command: Command): string | null {
  const outputs = outputPaths(command)
  for (const [index, path] of outputs.entries()) {
    if (command.kit !== null && isSameFile(command.kit, path)) {
      return words.commandLine.isKitToRead(path)
    }
    // A visit may be saved over itself.
    const isKept = (log: string) => path === command.outputs.save && holdsVisit(log)
    if (
      command.logs.some(
        (log) => !isKept(log) && (log === '-' ? isStandardInput(path) : isSameFile(log, path)),
      )
    ) {
      return words.commandLine.isLogToRead(path)
    }
    if (!isDevice(path) && outputs.slice(index + 1).some((other) => isSameFile(other, path))) {
      return words.commandLine.outputsClash(path)
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

function wrongCommand(words: Words, message: string): Exit {
  complain(message, '', words.commandLine.USAGE)
  return EXIT.wrongCommand
}

/** The language of the command line, chosen here. */
const WORDS: Words = ENGLISH

/** Does what the arguments of the command line ask for; gives the exit status. It throws nothing. */
export async function reportCommand(args: readonly string[]): Promise<Exit> {
  try {
    return await main(WORDS, args)
  } catch (error) {
    return toldFault(error)
  }
}

function toldFault(error: unknown): Exit {
  if (error instanceof WrongCommand) return wrongCommand(WORDS, error.message)
  if (error instanceof WriteFailed) {
    const { notWrittenText, OR_REPLACE } = WORDS.outputs
    const told = notWrittenText(error.fault)
    complain(error.fault.why.code === 'spared' ? `${told} ${OR_REPLACE}` : told)
    return EXIT.notWritten
  }
  logFault('report', error)
  // Only names and places of the program: a message may hold a part of the log.
  const trace = faultTrace('report', error)
  complain(WORDS.commandLine.PROGRAM_FAILED, ...trace)
  return EXIT.fault
}

/** Runs the command line of this process, and sets its exit status. */
export async function runReportCommand(): Promise<void> {
  // A reader that stops listening (such as `head`) is no fault.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return
    process.exitCode = EXIT.notWritten
    complain(WORDS.commandLine.noOutputText(error.code ?? error.name))
  })
  process.stderr.on('error', () => undefined)
  const exit = await reportCommand(process.argv.slice(2))
  process.exitCode ??= exit
}
