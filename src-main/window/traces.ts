import { existsSync } from 'node:fs'
import { readdir, rm, rmdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { RemovedTraces } from '../../src-core/wording/english/traces'
import { ownerOf, unsavedFolder } from './autosave'
import { clearPrinting } from './openPdf'
import { programFolder } from '../program/programFolder'
import { programLogIn } from '../program/programLog'
import { recentVisits, recentVisitsIn } from './recentVisits'
import { isLeftover } from '../files/writeFiles'

/**
 * Removes what the program keeps for itself and nothing else: the list of recent visits, what was not saved, the program
 * log, pages that were opened to be printed, and what a killed program left half-written.
 */
export async function removeTraces(folder = programFolder()): Promise<RemovedTraces> {
  const inUnsaved = (name: string) => join(unsavedFolder(folder), name)
  const names = await namesIn(unsavedFolder(folder))
  const unsaved = names.filter((name) => ownerOf(name) === 'dead')
  const recent = await recentVisits(folder)
  const log = existsSync(programLogIn(folder))
  const doomed = [
    recentVisitsIn(folder),
    programLogIn(folder),
    ...(await namesIn(folder)).filter((name) => isLeftover(name)).map((name) => join(folder, name)),
    ...[...unsaved, ...names.filter((name) => isLeftover(name))].map(inUnsaved),
  ]
  clearPrinting(folder)
  const stay: string[] = []
  for (const path of doomed) await rm(path, { force: true }).catch(() => stay.push(path))
  // What somebody else put there keeps the folder.
  for (const empty of [unsavedFolder(folder), folder]) await rmdir(empty).catch(() => undefined)
  return {
    recent: stay.includes(recentVisitsIn(folder)) ? 0 : recent.length,
    unsaved: unsaved.filter((name) => !stay.includes(inUnsaved(name))).length,
    log: log && !stay.includes(programLogIn(folder)),
    stillOpen: names.filter((name) => ownerOf(name) === 'living').length,
    stay,
  }
}

async function namesIn(folder: string): Promise<readonly string[]> {
  return readdir(folder).catch(() => [])
}
