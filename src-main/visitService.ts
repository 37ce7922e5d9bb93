import { randomUUID } from 'node:crypto'
import type { Analysis } from '../src-core/analysis/analysis'
import type { VisitOptions, VisitOutcome } from '../src-core/analysis/openVisit'
import type { About, Argument, Handlers, PdfOutcome } from '../src-core/bridge/contract'
import { stoppedView } from '../src-core/bridge/stoppedView'
import { reportFileName, visitView, type VisitView } from '../src-core/bridge/visitView'
import type { ImportContext, LogSource } from '../src-core/log/logSource'
import { logInMemory } from './logFiles'
import type { ReportOptions } from './report'

/** What the service works with; each is a plain function or value. */
export interface Collaborators {
  readonly about: About
  openVisit(sources: readonly LogSource[], options: VisitOptions, context: ImportContext): VisitOutcome
  reportPdf(analysis: Analysis, options: ReportOptions): Promise<Uint8Array>
  /** The moment and the zone now. */
  now(): ImportContext
}

/**
 * The program behind one window. It holds the visit that the window opened last; whatever carries the
 * messages (the desktop program or the browser host) makes one for each window.
 */
export function createVisitService(collaborators: Collaborators): Handlers {
  let open: { readonly id: string; readonly analysis: Analysis } | null = null

  function openLogs({ logs, answers }: Argument<'openLogs'>): VisitView {
    const now = collaborators.now()
    const outcome = collaborators.openVisit(
      logs.map(({ name, bytes }) => logInMemory(name, bytes)),
      // In the window columns are named in answer to one log's question; the others have said theirs.
      { answers, columnsWhereAsked: true },
      now,
    )
    // The window asks for no targets.
    if (outcome.kind === 'wrong-targets') throw new Error(outcome.message)
    if (outcome.kind === 'stopped') {
      open = null
      return stoppedView(outcome.refusals)
    }
    open = { id: randomUUID(), analysis: outcome.analysis }
    return visitView(open.analysis, { visit: open.id, now })
  }

  async function makePdf({ visit, paper, label }: Argument<'makePdf'>): Promise<PdfOutcome> {
    if (open?.id !== visit) return { kind: 'closed' }
    const { analysis } = open
    const madeAtMs = collaborators.now().nowMs
    const pdf = await collaborators.reportPdf(analysis, { paper, label, madeAtMs })
    return { kind: 'made', fileName: reportFileName(analysis), bytes: new Uint8Array(pdf) }
  }

  return { about: () => collaborators.about, openLogs, makePdf }
}
