import type { Paper } from '../../src-core/reference/paper'
import type { Analysis } from '../../src-core/analysis/analysis'
import { pageDocument } from '../../src-core/report/pageDocument'
import { overviewDocument } from '../../src-core/report/overview'
import type { OverviewRow } from '../../src-core/told/overview'
import { handout } from '../../src-core/report/handout'
import type { Printed } from '../../src-core/model/printed'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import { wallSeconds, zoneOffsets } from '../../src-core/units/timeZone'
import { dayOf } from '../../src-core/units/wallClock'
import { zoneOfMaking } from '../program/now'
import { renderPdf } from './pdf'
import type { Attach } from '../../src-core/window/effects'
import type { LogFile } from '../../src-core/bridge/contract'
import { readingsCsv } from '../../src-core/exchange/readingsCsv'
import { PROGRAM } from '../program/program'
import type { Words } from '../../src-core/wording/words'

/** The sheets to hand out as the bytes of a PDF. */
export function handoutPdf(
  words: Words,
  paper: Paper,
  unit: GlucoseUnit,
  madeAtMs: number,
): Promise<Uint8Array> {
  const document = handout(words, {
    paper,
    unit,
    madeAt: dayOfMaking(madeAtMs),
    programVersion: PROGRAM.version,
  })
  return renderPdf(words, document, { madeAtMs })
}

/** The list of a folder's logs as the bytes of a PDF. */
export function overviewPdf(
  words: Words,
  rows: readonly OverviewRow[],
  {
    paper,
    today,
    nowMs: madeAtMs,
  }: { readonly paper: Paper; readonly today: number; readonly nowMs: number },
): Promise<Uint8Array> {
  return renderPdf(words, overviewDocument(words, rows, { paper, today, programVersion: PROGRAM.version }), {
    madeAtMs,
  })
}

export interface ReportOptions {
  readonly printed?: Printed
  readonly paper: 'A4' | 'Letter'
  /** What stands at the head of the report; '' prints nothing. */
  readonly label: string
  /** As in `PageOptions`. */
  readonly diaryDays?: number
  /** Null carries nothing. */
  readonly attach?: Attach | null
  /** The moment of making, milliseconds since 1970. */
  readonly madeAtMs: number
  /** Where the day of making is told; the computer's own where it is left out. */
  readonly zone?: string
}

/** The report as the bytes of a PDF: the same for the command line, the desktop window and the browser. */
export function reportPdf(
  words: Words,
  analysis: Analysis,
  { paper, label, diaryDays, printed = {}, attach = null, madeAtMs, zone }: ReportOptions,
): Promise<Uint8Array> {
  const document = pageDocument(words, analysis, {
    paper,
    label: label === '' ? null : label,
    madeAt: dayOfMaking(madeAtMs, zone),
    ...(diaryDays !== undefined && { diaryDays }),
    ...printed,
    carries: attach && (attach.visitFile === null ? 'readings' : 'visit'),
    programVersion: PROGRAM.version,
  })
  return renderPdf(words, document, { madeAtMs, files: attach ? carried(analysis, attach) : [] })
}

function carried(analysis: Analysis, { visitFile }: Attach): readonly LogFile[] {
  const readings = new TextEncoder().encode([...readingsCsv(analysis)].join(''))
  return [
    { name: 'readings.csv', bytes: readings },
    ...(visitFile === null ? [] : [{ name: 'report.visit', bytes: visitFile }]),
  ]
}

function dayOfMaking(madeAtMs: number, zone = zoneOfMaking()): number {
  return dayOf(wallSeconds(madeAtMs, zoneOffsets(zone)(madeAtMs)))
}
