import type { ReportView } from '../src-core/bridge/visitState'

/** The way through the window. */
export const STEPS = ['logs', 'readings', 'picture', 'pages'] as const
export type Step = (typeof STEPS)[number]

export const STEP_NAMES: Readonly<Record<Step, string>> = {
  logs: 'Logs',
  readings: 'Readings',
  picture: 'Picture',
  pages: 'Pages',
}

/** The step that is shown: where a log leaves something open, that comes first. */
export function stepShown(chosen: Step, report: ReportView | null): Step {
  return report?.kind === 'opened' ? chosen : 'logs'
}

/** What stands beside a step's name. */
export function stepCount(step: Step, logs: number, report: ReportView | null): string {
  if (step === 'logs') return logs > 0 ? String(logs) : ''
  if (step !== 'readings' || report?.kind !== 'opened') return ''
  const { readings, doubtful } = report.counts
  return doubtful > 0 ? `${readings} · ${doubtful} doubtful` : String(readings)
}
