import { readFileSync, statSync } from 'node:fs'
import { basename } from 'node:path'
import type { LogFile } from '../../src-core/bridge/contract'
import type { Problem } from '../../src-core/bridge/visitState'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { NOT_READABLE, VISIT_ALONE } from '../../src-core/wording/visitWindow'
import { isVisitFile } from './commandVisit'

/** What a window is started with. */
export interface FilesNamed {
  readonly visitPath: string | null
  readonly logs: readonly LogFile[]
  readonly problems: readonly Problem[]
}

/** Looks into the files that a command line or the desktop names: one visit, and logs. */
export function filesNamed(paths: readonly string[]): FilesNamed {
  const problems: Problem[] = []
  const logs: LogFile[] = []
  const visits: string[] = []
  for (const path of paths) {
    try {
      if (isVisitFile(path)) visits.push(path)
      else if (statSync(path).size > MESSAGE_LIMITS.bytes) throw new Error('too large')
      else logs.push({ name: basename(path), bytes: new Uint8Array(readFileSync(path)) })
    } catch {
      problems.push({ about: path, message: NOT_READABLE })
    }
  }
  if (visits.length > 1) problems.push({ about: null, message: VISIT_ALONE })
  return { visitPath: visits.at(0) ?? null, logs, problems }
}
