import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Handlers } from '../src-core/bridge/contract'
import { threadCalculator } from './calculationThread'
import { computersZone, nowMs } from './now'
import { PROGRAM } from './program'
import { createVisitService } from './visitService'

const SAMPLE = 'season-two-meters.csv'

/** The program behind one window, with its real collaborators. `built`: the folder of the built program. */
export function visitService(built: string): Handlers {
  return createVisitService({
    about: PROGRAM,
    calculator: threadCalculator(join(built, 'calculationWorker.js')),
    sample: () => ({
      name: SAMPLE,
      bytes: new Uint8Array(readFileSync(join(built, '../../samples', SAMPLE))),
    }),
    now: () => ({ nowMs: nowMs(), zone: computersZone() }),
  })
}
