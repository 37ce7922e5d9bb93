import type { ReportView, VisitState } from '../src-core/bridge/visitState'

/** The way through the window. */
export const STEPS = ['visit', 'logs', 'readings', 'picture', 'pages'] as const
export type Step = (typeof STEPS)[number]

export const STEP_NAMES: Readonly<Record<Step, string>> = {
  visit: 'Visit',
  logs: 'Logs',
  readings: 'Readings',
  picture: 'Picture',
  pages: 'Pages',
}

/** The step that is shown: where a log leaves something open, that comes first. */
export function stepShown(chosen: Step, report: ReportView | null): Step {
  return report?.kind === 'opened' || chosen === 'visit' ? chosen : 'logs'
}

/** What stands beside a step's name. */
export function stepCount(step: Step, { visit, report, file }: VisitState): string {
  if (step === 'visit') return file.edited ? 'edited' : ''
  if (step === 'logs') return visit.logs.length > 0 ? String(visit.logs.length) : ''
  if (step !== 'readings' || report.kind !== 'opened') return ''
  const { readings, doubtful } = report.counts
  return doubtful > 0 ? `${readings} · ${doubtful} doubtful` : String(readings)
}

/** Whether there is anything to go through; else the start alone is shown. */
export function isStarted({ report, file, visit }: VisitState, step: Step): boolean {
  return (
    report.kind !== 'empty' || step === 'visit' || file.name !== null || (file.edited && visit.undo !== null)
  )
}
