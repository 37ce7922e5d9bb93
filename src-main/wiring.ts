import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { openVisit } from '../src-core/analysis/openVisit'
import { createCalculator } from './calculator'
import { computersZone, minuteOf, nowMs } from './now'
import { PROGRAM } from './program'
import { programFolder } from './programFolder'
import type { FileDialogs } from './visitKeeping'
import { createVisitService, type VisitService } from './visitService'

const SAMPLE = 'season-two-meters.csv'

/**
 * The program behind one window, with its real collaborators. `samples`: the folder of the sample logs; `dialogs`: the
 * desktop's own, null in the browser.
 */
export function visitService(samples: string, dialogs: FileDialogs | null): VisitService {
  return createVisitService({
    about: PROGRAM,
    calculator: createCalculator({
      openVisit,
      // Loaded when first needed: the PDF library takes longer to start than all the figures.
      reportPdf: async (analysis, options) => (await import('./report')).reportPdf(analysis, options),
    }),
    sample: () => ({
      name: SAMPLE,
      bytes: new Uint8Array(readFileSync(join(samples, SAMPLE))),
    }),
    now: () => ({ nowMs: nowMs(), zone: computersZone() }),
    files: { programFolder: programFolder(), dialogs, minuteOf, zone: computersZone },
  })
}
