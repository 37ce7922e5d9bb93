import { createKeeper, type Keep } from '../model/keep'
import { openVisit, type VisitOutcome } from '../analysis/openVisit'
import type { ImportContext, LogSource, Watch } from '../log/logSource'
import type { Visit } from './visit'
import type { ByteTools } from './visitFile'
import { requestOf } from './visitRequest'
import type { Words } from '../wording/words'

/** Where other logs than the visit's own are read, and who is told how far the reading has come. */
export interface ReportOptions {
  readonly sources?: readonly LogSource[]
  readonly watch?: Watch
  /** Called before each stage that is computed; throws where the person has had enough. */
  readonly beforeStage?: () => void
}

/** Makes a visit's report. */
export type VisitReport = (visit: Visit, context: ImportContext, options?: ReportOptions) => VisitOutcome

/**
 * Makes the reports of one visit after another and computes only what changed between them; command line and windows
 * call it alike. What it gives is that of `openVisit`, and nobody may change it. The moment counts as a part of the
 * visit (rows of the future are set aside): a window keeps to the one at which it opened.
 */
export function reportKeeper(words: Words, tools: ByteTools): VisitReport {
  const { keep, forgetUnused } = createKeeper()
  return (visit, context, { sources, watch, beforeStage } = {}) => {
    const keepInStages: Keep = (stage, of, compute) =>
      keep(stage, of, () => {
        beforeStage?.()
        return compute()
      })
    try {
      const request = requestOf(words, visit, tools, keepInStages)
      return openVisit(sources ?? request.sources, request.options, context, watch, keepInStages)
    } finally {
      forgetUnused()
    }
  }
}
