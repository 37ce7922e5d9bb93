import { createHash } from 'node:crypto'
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { overviewCsv, overviewJsonLines } from '../../src-core/exchange/overviewCsv'
import type { Kit } from '../../src-core/kit/kit'
import { byLows, type Overview, type OverviewRow } from '../../src-core/told/overview'
import { wallSeconds, zoneOffsets } from '../../src-core/units/timeZone'
import { dayOf } from '../../src-core/units/wallClock'
import type { Words } from '../../src-core/wording/words'
import type { Command } from './commandLine'
import { writeOutputs } from '../files/writeFiles'
import { overviewPdf } from '../pdf/report'
import { computersZone, zoneOfMaking } from '../program/now'
import { PROGRAM } from '../program/program'
import { answersBeside, type FolderAnswers, unusedAnswers } from './folderAnswers'
import { type FolderLog, logsIn } from './folderLogs'
import type { FolderJob, FolderOutcome, OtherInputs } from './folderWorker'
import { QueueFault } from './queueFault'

/** What was made of a log, with all that it was made of: what is the same again is not made anew. */
interface Made {
  readonly log: string
  readonly options: string
  readonly inputs: string
  readonly overview: Overview
}

/** In the folder of the reports; one line for each that was made, so that a run that was stopped goes on where it was. */
const MADE_FILE = '.made.jsonl'
/** All logs, as a table and printed. */
const LISTS = ['overview.csv', 'overview.pdf'] as const

export interface FolderRun {
  readonly made: number
  readonly kept: number
  readonly rows: readonly OverviewRow[]
  /** Files and folders that are no logs. */
  readonly passedOver: readonly string[]
  /** The list for programs. */
  readonly jsonLines: string
}

/** How far a folder is worked at, in logs. */
export interface FolderProgress {
  readonly done: number
  readonly of: number
  /** Done, and have no report. */
  readonly without: number
  /** Reports made by this run. */
  readonly made: number
  /** Not done, and likely to be made anew: no report stands that was made alike. */
  readonly toMake: number
}

export type FolderWatch = (progress: FolderProgress) => void

/** Makes the reports of a folder: threads of this computer, or others through a queue. */
export interface FolderMaker {
  /** How many it is given at a time: all at once would hold all of them in memory. */
  readonly atOnce: number
  /** Rejects with `QueueFault` where it can make none. */
  readonly make: (job: FolderJob) => Promise<FolderOutcome | OtherInputs>
  readonly end: () => Promise<void>
}

/**
 * One report for each log in a folder, several side by side, and the list of all of them. A log that asks, is refused or
 * cannot be written stops nothing. Throws `WriteFailed` where the list cannot be written, `QueueFault` where the queue is lost.
 */
export async function runFolder(
  words: Words,
  command: Command & { readonly each: string; readonly outputs: { readonly out: string } },
  {
    kit,
    nowMs,
    maker,
    watch,
    tell,
  }: {
    readonly kit: Kit | null
    readonly nowMs: number
    /** Makes so many reports. */
    readonly maker: (reports: number) => FolderMaker
    readonly watch: FolderWatch
    /** Told before the first report is made: what of the answers is not used. */
    readonly tell: (text: string) => void
  },
): Promise<FolderRun | { readonly wrong: string }> {
  const { each: folder, outputs } = command
  const { out } = outputs
  const { logs, passedOver } = logsIn(folder, out)
  if (logs.length === 0) return { wrong: `${folder} ${words.overview.NO_LOGS}` }
  const answered = answersBeside(words, folder)
  if ('wrong' in answered) return answered
  const { answers } = answered
  const names = logs.map(({ name }) => name)
  for (const text of unusedAnswers(words, answered.lines, names, { folder, out })) tell(text)
  mkdirSync(out, { recursive: true })
  const before = madeBefore(out)
  // A list that earlier runs wrote, or another one meanwhile by a queue, is written anew; one of somebody else is left alone.
  const isOwnFolder = existsSync(join(out, MADE_FILE))
  const spared = LISTS.filter((name) => !command.replace && !isOwnFolder && existsSync(join(out, name)))
  const { atOnce, make, end } = maker(logs.length)
  const rows = new Map<string, OverviewRow>()
  const count = { made: 0, kept: 0, without: 0 }
  const alike = new Map(logs.map((log) => [log.name, madeAlike(log)]))
  let toMake = logs.filter(({ name }) => alike.get(name)?.known === undefined).length
  const next = logs[Symbol.iterator]()
  /** Takes one log after the other. */
  async function workThrough(): Promise<void> {
    for (let step = next.next(); !step.done; step = next.next()) {
      const log = step.value
      const row = await rowOf(log)
      rows.set(log.name, row)
      if (row.overview === null) count.without++
      if (alike.get(log.name)?.known === undefined) toMake--
      watch({ done: rows.size, of: logs.length, without: count.without, made: count.made, toMake })
    }
  }
  /** What a log's report depends on besides the log, and what stands that was made of it alike. */
  function madeAlike(log: FolderLog) {
    const told = answers.get(log.name.normalize('NFC')) ?? null
    const options = optionsKey(command, kit, told)
    const { last, times = 0 } = before.get(log.name) ?? {}
    const stands = last !== undefined && existsSync(join(out, log.report))
    return { told, options, times, stands, known: stands && last.options === options ? last : undefined }
  }
  async function rowOf(log: FolderLog): Promise<OverviewRow> {
    const without = (state: 'asks-or-refused' | 'not-written', why: string): OverviewRow => ({
      ...{ log: log.name, report: '', state, overview: null, why },
    })
    const { told, options, times, stands, known } = alike.get(log.name) ?? madeAlike(log)
    // Beside a log that asks now, its former report would be taken for its own.
    const refused = (why: string) =>
      without('asks-or-refused', stands ? `${words.overview.olderReport(log.report)} ${why}` : why)
    if (log.isOutside) return refused(words.overview.OUTSIDE)
    const job: FolderJob = {
      ...{ log, out, command, kit, told, nowMs, options, times },
      known: known?.inputs ?? null,
      meant: null,
      zones: { reading: computersZone(), making: zoneOfMaking() },
    }
    let outcome: FolderOutcome | OtherInputs
    try {
      outcome = await make(job)
    } catch (error) {
      if (error instanceof QueueFault) throw error
      // Of a fault no text is told: it may hold a part of the log.
      return refused(words.overview.FAULT)
    }
    if (outcome.state === 'other-inputs') return refused(words.queue.OTHER_FOLDER)
    if (outcome.state === 'asks-or-refused') return refused(outcome.why)
    if (outcome.state === 'not-written') return without(outcome.state, outcome.why)
    const { overview = null } = outcome.state === 'made' ? outcome : (known ?? {})
    if (outcome.state === 'made') {
      count.made++
      const made: Made = { log: log.name, options, inputs: outcome.inputs, overview: outcome.overview }
      appendFileSync(join(out, MADE_FILE), `${JSON.stringify(made)}\n`)
    } else count.kept++
    return { log: log.name, report: log.report, state: 'made', overview, why: '' }
  }
  try {
    await Promise.all(Array.from({ length: Math.min(atOnce, logs.length) }, workThrough))
  } finally {
    await end()
  }
  const inOrder = byLows(logs.flatMap(({ name }) => rows.get(name) ?? []))
  const today = dayOf(wallSeconds(nowMs, zoneOffsets(zoneOfMaking())(nowMs)))
  const paper = command.paper ?? 'A4'
  await writeOutputs([
    {
      path: join(out, 'overview.csv'),
      content: overviewCsv(inOrder, today),
      sparesOthers: spared.includes('overview.csv'),
    },
    {
      path: join(out, 'overview.pdf'),
      content: await overviewPdf(words, inOrder, { paper, today, nowMs }),
      sparesOthers: spared.includes('overview.pdf'),
    },
  ])
  return {
    ...{ made: count.made, kept: count.kept, rows: inOrder, passedOver },
    jsonLines: overviewJsonLines(inOrder, today),
  }
}

/** What earlier runs made of a log last, and how often they made it. */
interface MadeBefore {
  readonly last: Made
  readonly times: number
}

/** What earlier runs made, by log; a line that was cut off by a stop is passed over. */
function madeBefore(out: string): ReadonlyMap<string, MadeBefore> {
  const path = join(out, MADE_FILE)
  if (!existsSync(path)) return new Map()
  const made = new Map<string, MadeBefore>()
  for (const line of readFileSync(path, 'utf8').split('\n')) {
    try {
      const one = JSON.parse(line) as Made
      made.set(one.log, { last: one, times: (made.get(one.log)?.times ?? 0) + 1 })
    } catch {
      continue
    }
  }
  return made
}

/** All that a report depends on besides its logs and the day of making. */
export function optionsKey(command: Command, kit: Kit | null, told: FolderAnswers | null): string {
  const options = {
    ...{ ...command, outputs: null, each: null, replace: null, quiet: null, jsonl: null },
    ...{ queue: undefined, worker: undefined },
    // Written as JSON it would be null, as where nothing is asked.
    diaryDays: command.diaryDays === Infinity ? 'all' : command.diaryDays,
  }
  return createHash('sha256')
    .update(JSON.stringify([options, kit, told, PROGRAM.version]))
    .digest('hex')
}
