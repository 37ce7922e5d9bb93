import { createHash } from 'node:crypto'
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { Tinypool } from 'tinypool'
import { overviewCsv, overviewJsonLines } from '../../src-core/exchange/overviewCsv'
import type { Kit } from '../../src-core/kit/kit'
import { byLows, type Overview, type OverviewRow } from '../../src-core/told/overview'
import { wallSeconds, zoneOffsets } from '../../src-core/units/timeZone'
import { dayOf } from '../../src-core/units/wallClock'
import type { Words } from '../../src-core/wording/words'
import type { Command } from './commandLine'
import { writeOutputs } from '../files/writeFiles'
import { overviewPdf } from '../pdf/report'
import { zoneOfMaking } from '../program/now'
import { PROGRAM } from '../program/program'
import { ANSWERS_FILE, answersIn, type AnswersRead, type FolderAnswers } from './folderAnswers'
import { type FolderLog, logsIn } from './folderLogs'
import type { FolderJob, FolderOutcome } from './folderWorker'

/** What was made of a log, with all that it was made of: what is the same again is not made anew. */
interface Made {
  readonly log: string
  readonly options: string
  readonly inputs: string
  readonly overview: Overview
}

/** In the folder of the reports; one line for each that was made, so that a run that was stopped goes on where it was. */
const MADE_FILE = '.made.jsonl'
/** Bytes that a thread may hold after a log before another takes its place. */
const MOST_BYTES_HELD = 600_000_000

export interface FolderRun {
  readonly made: number
  readonly kept: number
  readonly rows: readonly OverviewRow[]
  /** The list for programs. */
  readonly jsonLines: string
}

/** What is told while a folder is worked at: how many logs are done, how many of them have no report. */
export type FolderWatch = (done: number, of: number, without: number) => void

/**
 * One report for each log in a folder, side by side in threads, and the list of all of them. A log that asks, is refused or
 * cannot be written stops nothing. Throws `WriteFailed` where the list cannot be written.
 */
export async function runFolder(
  words: Words,
  command: Command & { readonly each: string; readonly outputs: { readonly out: string } },
  {
    kit,
    nowMs,
    built,
    threads = availableParallelism(),
    watch,
  }: {
    readonly kit: Kit | null
    readonly nowMs: number
    /** Folder in which the thread’s program lies. */
    readonly built: string
    readonly threads?: number
    readonly watch: FolderWatch
  },
): Promise<FolderRun | { readonly wrong: string }> {
  const { each: folder, outputs } = command
  const { out } = outputs
  const logs = logsIn(folder, out)
  if (logs.length === 0) return { wrong: `${folder} ${words.overview.NO_LOGS}` }
  const answered = answersBeside(words, folder)
  if ('wrong' in answered) return answered
  const { answers } = answered
  mkdirSync(out, { recursive: true })
  const before = madeBefore(out)
  // A list that earlier runs wrote is written anew; one of somebody else is left alone.
  const sparesOthers = !command.replace && !existsSync(join(out, MADE_FILE))
  const pool = new Tinypool({
    filename: join(built, 'folderWorker.js'),
    maxThreads: Math.min(threads, logs.length),
    minThreads: Math.min(threads, logs.length),
    maxMemoryLimitBeforeRecycle: MOST_BYTES_HELD,
  })
  const rows = new Map<string, OverviewRow>()
  const count = { made: 0, kept: 0, without: 0 }
  const next = logs[Symbol.iterator]()
  /** Takes one log after the other: all at once would hold all of them in memory. */
  async function workThrough(): Promise<void> {
    for (let step = next.next(); !step.done; step = next.next()) {
      const log = step.value
      const row = await rowOf(log)
      rows.set(log.name, row)
      if (row.overview === null) count.without++
      watch(rows.size, logs.length, count.without)
    }
  }
  async function rowOf(log: FolderLog): Promise<OverviewRow> {
    const without = (state: 'asks-or-refused' | 'not-written', why: string): OverviewRow => ({
      ...{ log: log.name, report: '', state, overview: null, why },
    })
    if (log.isOutside) return without('asks-or-refused', words.overview.OUTSIDE)
    const told = answers.get(log.name.normalize('NFC')) ?? null
    const options = optionsKey(command, kit, told)
    const stands = before.get(log.name)
    const known = stands?.options === options && existsSync(join(out, log.report)) ? stands : undefined
    const job: FolderJob = { log, out, command, kit, told, nowMs, known: known?.inputs ?? null }
    let outcome: FolderOutcome
    try {
      outcome = (await pool.run(job)) as FolderOutcome
    } catch {
      // Of a fault no text is told: it may hold a part of the log.
      return without('asks-or-refused', words.overview.FAULT)
    }
    if ('why' in outcome) return without(outcome.state, outcome.why)
    const { overview = null } = outcome.state === 'made' ? outcome : (known ?? {})
    if (outcome.state === 'made') {
      count.made++
      const made: Made = { log: log.name, options, inputs: outcome.inputs, overview: outcome.overview }
      appendFileSync(join(out, MADE_FILE), `${JSON.stringify(made)}\n`)
    } else count.kept++
    return { log: log.name, report: log.report, state: 'made', overview, why: '' }
  }
  try {
    await Promise.all(Array.from({ length: Math.min(threads, logs.length) }, workThrough))
  } finally {
    await pool.destroy()
  }
  const inOrder = byLows(logs.flatMap(({ name }) => rows.get(name) ?? []))
  const today = dayOf(wallSeconds(nowMs, zoneOffsets(zoneOfMaking())(nowMs)))
  const paper = command.paper ?? 'A4'
  await writeOutputs([
    { path: join(out, 'overview.csv'), content: overviewCsv(inOrder, today), sparesOthers },
    {
      path: join(out, 'overview.pdf'),
      content: await overviewPdf(words, inOrder, { paper, today, nowMs }),
      sparesOthers,
    },
  ])
  return { made: count.made, kept: count.kept, rows: inOrder, jsonLines: overviewJsonLines(inOrder, today) }
}

function answersBeside(words: Words, folder: string): AnswersRead {
  const path = join(folder, ANSWERS_FILE)
  return existsSync(path)
    ? answersIn(words, readFileSync(path, 'utf8'))
    : { answers: new Map<string, FolderAnswers>() }
}

/** What earlier runs made, by log; a line that was cut off by a stop is passed over. */
function madeBefore(out: string): ReadonlyMap<string, Made> {
  const path = join(out, MADE_FILE)
  if (!existsSync(path)) return new Map()
  const made = new Map<string, Made>()
  for (const line of readFileSync(path, 'utf8').split('\n')) {
    try {
      const one = JSON.parse(line) as Made
      made.set(one.log, one)
    } catch {
      continue
    }
  }
  return made
}

/** All that a report depends on besides its logs and the day of making. */
function optionsKey(command: Command, kit: Kit | null, told: FolderAnswers | null): string {
  const options = { ...command, outputs: null, each: null, replace: null, quiet: null, jsonl: null }
  return createHash('sha256')
    .update(JSON.stringify([options, kit, told, PROGRAM.version]))
    .digest('hex')
}
