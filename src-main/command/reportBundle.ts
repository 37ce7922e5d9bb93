import { join } from 'node:path'
import { runBundle } from '../program/codeCache'
import type * as Report from './reportCommand'

/** Runs the command line of one file that lies in the folder of what was built; gives how to keep what was compiled. */
export function runReport(built: string): { readonly writeCompiled: () => void } {
  const { exported, writeCompiled } = runBundle(join(built, 'report.cjs'))
  void (exported as typeof Report).runReportCommand()
  return { writeCompiled }
}
