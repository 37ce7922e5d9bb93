import type { Analysis } from '../src-core/analysis/analysis'
import { pageDocument } from '../src-core/report/pageDocument'
import { wallSeconds, zoneOffsets } from '../src-core/units/timeZone'
import { dayOf } from '../src-core/units/wallClock'
import { zoneOfMaking } from './now'
import { renderPdf } from './pdf'
import { PROGRAM } from './program'

export interface ReportOptions {
  readonly paper: 'A4' | 'Letter'
  /** What stands at the head of the report; '' prints nothing. */
  readonly label: string
  /** As in `PageOptions`. */
  readonly diaryDays?: number
  /** The moment of making, milliseconds since 1970. */
  readonly madeAtMs: number
}

/** The report as the bytes of a PDF: the same for the command line, the desktop window and the browser. */
export function reportPdf(
  analysis: Analysis,
  { paper, label, diaryDays, madeAtMs }: ReportOptions,
): Promise<Uint8Array> {
  const madeAt = dayOf(wallSeconds(madeAtMs, zoneOffsets(zoneOfMaking())(madeAtMs)))
  const document = pageDocument(analysis, {
    paper,
    label: label === '' ? null : label,
    madeAt,
    ...(diaryDays !== undefined && { diaryDays }),
    programVersion: PROGRAM.version,
  })
  return renderPdf(document, { madeAtMs })
}
