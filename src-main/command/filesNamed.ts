import { readFileSync, statSync } from 'node:fs'
import { basename } from 'node:path'
import type { LogFile } from '../../src-core/bridge/contract'
import type { Problem } from '../../src-core/bridge/visitState'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { isVisitFile } from './commandVisit'
import type { Words } from '../../src-core/wording/words'

/** What a window is started with. */
export interface FilesNamed {
  readonly visitPath: string | null
  readonly logs: readonly LogFile[]
  readonly problems: readonly Problem[]
}

/** Looks into the files that a command line or the desktop names: one visit, and logs. */
export function filesNamed(words: Words, paths: readonly string[]): FilesNamed {
  const problems: Problem[] = []
  const logs: LogFile[] = []
  const visits: string[] = []
  const unreadable = (path: string) =>
    void problems.push({ about: path, message: words.visitWindow.NOT_READABLE })
  for (const path of paths) {
    try {
      if (isVisitFile(path)) visits.push(path)
      else if (statSync(path).size > MESSAGE_LIMITS.bytes) unreadable(path)
      else logs.push({ name: basename(path), bytes: new Uint8Array(readFileSync(path)) })
    } catch {
      unreadable(path)
    }
  }
  if (visits.length > 1) problems.push({ about: null, message: words.visitWindow.VISIT_ALONE })
  return { visitPath: visits.at(0) ?? null, logs, problems }
}
