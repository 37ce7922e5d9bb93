import type { Analysis } from '../src-core/analysis/analysis'
import type { openVisit } from '../src-core/analysis/openVisit'
import { pictureScreen, type PictureScreenView } from '../src-core/bridge/pictureScreen'
import { listedReadings, type ReadingFilter, rowsView, type RowsView } from '../src-core/bridge/readingRows'
import { readingView, type ReadingView } from '../src-core/bridge/readingView'
import { stoppedView, type StoppedView } from '../src-core/bridge/stoppedView'
import { reportFileName, visitView, type OpenedView } from '../src-core/bridge/visitView'
import type { ImportContext } from '../src-core/log/logSource'
import type { Visit } from '../src-core/visit/visit'
import { requestOf } from '../src-core/visit/visitRequest'
import { BYTE_TOOLS } from './byteTools'
import type { ReportOptions } from './report'

/** What was made of a visit. One that stops leaves the figures made before as they are. */
export type Made =
  | OpenedView
  | StoppedView
  /** What was asked for cannot be, and why. */
  | { readonly kind: 'refused'; readonly message: string }

/** Makes all that is computed of a visit. It holds the figures made last; the visit itself is the service's. */
export interface Calculator {
  report(visit: Visit, now: ImportContext): Promise<Made>
  rows(filter: ReadingFilter, from: number, count: number): Promise<RowsView>
  reading(index: number): Promise<ReadingView | null>
  picture(): Promise<PictureScreenView>
  pdf(
    visit: Visit,
    now: ImportContext,
  ): Promise<{ readonly fileName: string; readonly bytes: Uint8Array<ArrayBuffer> }>
}

export interface CalculatorTools {
  readonly openVisit: typeof openVisit
  readonly reportPdf: (analysis: Analysis, options: ReportOptions) => Promise<Uint8Array>
}

export function createCalculator({ openVisit, reportPdf }: CalculatorTools): Calculator {
  let analysis: Analysis | null = null
  /** The list asked for last: a person scrolls through one list for long. */
  let listed: { readonly key: string; readonly indexes: Uint32Array } | null = null

  function figures(): Analysis {
    if (analysis === null) throw new Error('No figures were made yet')
    return analysis
  }

  function report(visit: Visit, now: ImportContext): Made {
    const { sources, options } = requestOf(visit, BYTE_TOOLS)
    const outcome = openVisit(sources, options, { ...now, zone: visit.zone ?? now.zone })
    if (outcome.kind === 'wrong-targets') return { kind: 'refused', message: outcome.message }
    if (outcome.kind === 'stopped') return stoppedView(outcome.refusals)
    analysis = outcome.analysis
    listed = null
    return visitView(analysis, now)
  }

  function rows(filter: ReadingFilter, from: number, count: number): RowsView {
    const key = JSON.stringify(filter)
    if (listed?.key !== key) listed = { key, indexes: listedReadings(figures(), filter) }
    return rowsView(figures(), listed.indexes, from, count)
  }

  async function pdf({ paper, label, diary }: Visit, { nowMs }: ImportContext) {
    const bytes = await reportPdf(figures(), {
      paper,
      label,
      ...(diary !== null && { diaryDays: diary === 'all' ? Infinity : diary }),
      madeAtMs: nowMs,
    })
    return { fileName: reportFileName(figures()), bytes: new Uint8Array(bytes) }
  }

  return {
    report: async (visit, now) => Promise.resolve(report(visit, now)),
    rows: async (filter, from, count) => Promise.resolve(rows(filter, from, count)),
    reading: async (index) => Promise.resolve(readingView(figures(), index)),
    picture: async () => Promise.resolve(pictureScreen(figures())),
    pdf,
  }
}
