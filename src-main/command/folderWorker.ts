import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Refusal } from '../../src-core/log/refusal'
import type { Kit } from '../../src-core/kit/kit'
import { type Overview, overviewOf } from '../../src-core/told/overview'
import { reportKeeper } from '../../src-core/visit/visitReport'
import { messageText } from '../../src-core/wording/message'
import { ENGLISH } from '../../src-core/wording/english'
import type { Command } from './commandLine'
import { askedOf, openNamed } from './commandVisit'
import { BYTE_TOOLS } from '../files/byteTools'
import { WriteFailed, writeOutputs } from '../files/writeFiles'
import { reportPdf } from '../pdf/report'
import { COLUMN_OF, type FolderAnswers } from './folderAnswers'
import type { FolderLog } from './folderLogs'

// One report of a folder, in a thread of its own: it reads the log, computes, and writes one file.

/** What a thread is given: plain data. */
export interface FolderJob {
  readonly log: FolderLog
  readonly out: string
  readonly command: Command
  readonly kit: Kit | null
  readonly told: FolderAnswers | null
  readonly nowMs: number
  /** Time zones of the computer that asks: for times of an instant, and for the day of making. */
  readonly zones: { readonly reading: string; readonly making: string }
  /** SHA-256 of all that its report depends on besides its logs and the day of making. */
  readonly options: string
  /** How often it was made before. */
  readonly times: number
  /** SHA-256 of the bytes that are meant; null where whatever stands there is. */
  readonly meant: string | null
  /** SHA-256 of what its report was made of, where that stands and would be made alike; null elsewhere. */
  readonly known: string | null
}

export type FolderOutcome =
  | { readonly state: 'kept' }
  | { readonly state: 'made'; readonly overview: Overview; readonly inputs: string }
  | { readonly state: 'asks-or-refused' | 'not-written'; readonly why: string; readonly inputs: string }

const WORDS = ENGLISH
const report = reportKeeper(WORDS, BYTE_TOOLS)

/** Of a log that is not the one that was meant. */
export interface OtherInputs {
  readonly state: 'other-inputs'
}

export default async function makeOne(job: FolderJob): Promise<FolderOutcome | OtherInputs> {
  const { log, out, command, kit, told, nowMs, zones } = job
  const inputs = inputsOf(log.paths)
  if (inputs === job.known) return { state: 'kept' }
  if (job.meant !== null && inputs !== job.meant) return { state: 'other-inputs' }
  const without = (why: string): FolderOutcome => ({ state: 'asks-or-refused', why, inputs })
  const named = await openNamed(WORDS, log.paths)
  if (named.isRefused) return without(named.told.join(' '))
  const { overview: own } = WORDS
  const [visit, ...others] = named.visits
  if (others.length > 0) return without(own.SEVERAL_VISITS)
  const { visitIn } = await import('../files/visitStore')
  const loaded = visit === undefined ? null : await visitIn(WORDS, visit.bytes, () => Promise.resolve(null))
  if (loaded?.kind === 'protected') return without(own.PROTECTED)
  if (loaded?.kind === 'refused') return without(loaded.message)
  const asked = askedOf(
    WORDS,
    loaded?.visit ?? null,
    named.logs,
    {
      ...command,
      answers: { ...command.answers, ...told?.answers },
      label: told?.label ?? command.label,
    },
    kit,
  )
  const outcome = report(
    asked.visit,
    { nowMs, zone: asked.visit.zone ?? zones.reading },
    { sources: asked.sources },
  )
  if (outcome.kind === 'wrong-targets')
    return without(messageText(WORDS.targets.wrongRangeUnitMessage(outcome.wrong, outcome.unit), 'terminal'))
  if (outcome.kind === 'stopped') {
    return without(outcome.refusals.map(toldInFolder).join(' '))
  }
  const { paper, label, diary } = asked.visit
  const pdf = await reportPdf(WORDS, outcome.analysis, {
    paper,
    label,
    ...(diary !== null && { diaryDays: diary === 'all' ? Infinity : diary }),
    printed: command.printed,
    madeAtMs: nowMs,
    zone: zones.making,
  })
  // What the figures are made of may have been written into meanwhile: then they are of neither file.
  if (inputsOf(log.paths) !== inputs) return without(own.CHANGED_MEANWHILE)
  try {
    await writeOutputs([{ path: join(out, log.report), content: pdf, sparesOthers: !command.replace }])
  } catch (error) {
    if (!(error instanceof WriteFailed)) throw error
    return { state: 'not-written', why: WORDS.outputs.notWrittenText(error.fault), inputs }
  }
  return { state: 'made', overview: overviewOf(outcome.analysis), inputs }
}

/** A refusal, and where one log of many is answered. */
function toldInFolder(refusal: Refusal): string {
  const line = WORDS.importMessages.refusalLine(refusal)
  return refusal.question === null
    ? line
    : `${line} ${WORDS.overview.answeredUnder(COLUMN_OF[refusal.question.option])}`
}

/** SHA-256 over the bytes of all files. */
export function inputsOf(paths: readonly string[]): string {
  const hash = createHash('sha256')
  for (const path of paths) {
    try {
      hash.update(createHash('sha256').update(readFileSync(path)).digest())
    } catch {
      hash.update('unreadable')
    }
  }
  return hash.digest('hex')
}
