import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { openVisit } from '../src-core/analysis/openVisit'
import type { Handlers } from '../src-core/bridge/contract'
import { createCalculator } from './calculator'
import { computersZone, nowMs } from './now'
import { PROGRAM } from './program'
import { createVisitService } from './visitService'

const SAMPLE = 'season-two-meters.csv'

/** The program behind one window, with its real collaborators. `samples`: the folder of the sample logs. */
export function visitService(samples: string): Handlers {
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
  })
}
