import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { threadCalculator } from './calculationThread'
import { computersZone, minuteOf, nowMs } from '../program/now'
import type { PdfOpener } from './openPdf'
import { PROGRAM } from '../program/program'
import { programFolder } from '../program/programFolder'
import type { FileDialogs } from './fileEffects'
import { createVisitService, type VisitService } from './visitService'
import type { Words } from '../../src-core/wording/words'

const SAMPLE = 'season-two-meters.csv'

/**
 * The program behind one window, with its real collaborators. `built`: the folder of the built program; `dialogs` and
 * `openPdf`: the desktop's own, null in the browser.
 */
export function visitService(
  words: Words,
  built: string,
  dialogs: FileDialogs | null,
  openPdf: PdfOpener | null,
): VisitService {
  return createVisitService(words, {
    about: PROGRAM,
    calculator: threadCalculator(join(built, 'calculationWorker.js')),
    sample: () => ({
      name: SAMPLE,
      bytes: new Uint8Array(readFileSync(join(built, '../../samples', SAMPLE))),
    }),
    now: () => ({ nowMs: nowMs(), zone: computersZone() }),
    files: { programFolder: programFolder(), dialogs, minuteOf },
    openPdf,
  })
}
