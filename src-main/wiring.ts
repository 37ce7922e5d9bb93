import { openVisit } from '../src-core/analysis/openVisit'
import type { Handlers } from '../src-core/bridge/contract'
import { computersZone, nowMs } from './now'
import { PROGRAM } from './program'
import { createVisitService } from './visitService'

/** The program behind one window, with its real collaborators. */
export function visitService(): Handlers {
  return createVisitService({
    about: PROGRAM,
    openVisit,
    // Loaded when first needed: the PDF library takes longer to start than all the figures.
    reportPdf: async (analysis, options) => (await import('./report')).reportPdf(analysis, options),
    now: () => ({ nowMs: nowMs(), zone: computersZone() }),
  })
}
