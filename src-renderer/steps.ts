import type { ReportView, VisitState } from '../src-core/bridge/visitState'
import type { WindowWords } from '../src-core/wording/words'

/** The way through the window. */
export const STEPS = ['visit', 'logs', 'readings', 'picture', 'pages'] as const
export type Step = (typeof STEPS)[number]

/** The step that is shown: where a log leaves something open, that comes first. */
export function stepShown(chosen: Step, report: ReportView | null): Step {
  return report?.kind === 'opened' || chosen === 'visit' ? chosen : 'logs'
}

/** What stands beside a step's name. */
export function stepCount(
  { windowFrame }: WindowWords,
  step: Step,
  { visit, report, file }: VisitState,
): string {
  if (step === 'visit') return file.edited ? windowFrame.EDITED : ''
  if (step === 'logs') return visit.logs.length > 0 ? String(visit.logs.length) : ''
  if (step !== 'readings' || report.kind !== 'opened') return ''
  return windowFrame.readingsCount(report.counts.readings, report.counts.doubtful)
}

/** Whether there is anything to go through; else the start alone is shown. */
export function isStarted({ report, file, visit }: VisitState, step: Step): boolean {
  return (
    report.kind !== 'empty' || step === 'visit' || file.name !== null || (file.edited && visit.undo !== null)
  )
}
