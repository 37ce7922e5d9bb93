import { randomUUID } from 'node:crypto'
import { rmSync } from 'node:fs'
import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { programFolder } from '../program/programFolder'
import { writeOutputs } from '../files/writeFiles'

/** Opens a PDF in the desktop's own viewer, which prints it; whether it could. */
export type PdfOpener = (fileName: string, bytes: Uint8Array) => Promise<boolean>

/** A viewer that has not failed by then is taken as opened: some desktops answer only once it is closed. */
const FAILS_WITHIN_MS = 3_000

/** Where the pages stand while a viewer has them. */
export const printingFolder = (folder = programFolder()) => join(folder, 'printing')

/**
 * `openPath`: the desktop's way of opening a file, '' where it did (Electron's shell.openPath). Each PDF stands in a
 * folder of its own, for its owner alone: a viewer may still hold the one before.
 */
export function pdfOpener(openPath: (path: string) => Promise<string>, folder = programFolder()): PdfOpener {
  return async (fileName, bytes) => {
    const own = join(printingFolder(folder), randomUUID())
    await mkdir(own, { recursive: true, mode: 0o700 })
    const path = join(own, fileName)
    await writeOutputs([{ path, content: bytes, ownerOnly: true }])
    return (await Promise.race([openPath(path), setTimeout(FAILS_WITHIN_MS, '', { ref: false })])) === ''
  }
}

/** Removes what was opened to be printed, also by a program that was killed. What a viewer locks stays until the next time. */
export function clearPrinting(folder = programFolder()): void {
  try {
    rmSync(printingFolder(folder), { recursive: true, force: true })
  } catch {
    // Tried again at the next start.
  }
}
