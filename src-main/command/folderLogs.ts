import { readdirSync, realpathSync, statSync } from 'node:fs'
import { ANSWERS_FILE } from './folderAnswers'
import { beginningOf } from '../files/fileKind'
import { extname, join, relative, resolve, sep } from 'node:path'

/** A log of a folder, or a person's logs in a folder of its own. */
export interface FolderLog {
  /** As it is listed: its path within the folder. */
  readonly name: string
  readonly paths: readonly string[]
  /** Name of its report, without the folder. */
  readonly report: string
  /** Whether it leads out of the folder, and is left alone. */
  readonly isOutside: boolean
}

/** Logs, visits, reports that carry their readings. */
const KINDS = new Set(['.csv', '.tsv', '.txt', '.visit', '.pdf', '.ndjson'])
/** Such a file may be many things: it is a log where it says so. */
const MAYBE_FHIR = '.json'

/**
 * The logs in a folder, by name: each file, and each folder in it as the logs of one person. What the program writes there
 * itself (`out`), hidden files and other kinds of files are passed over. Throws where the folder cannot be read.
 */
export function logsIn(folder: string, out: string): readonly FolderLog[] {
  const root = realpathSync(folder)
  const found: Omit<FolderLog, 'report'>[] = []
  for (const name of readdirSync(root).sort()) {
    const path = join(root, name)
    if (name.startsWith('.') || name === ANSWERS_FILE || resolve(path) === resolve(out)) continue
    const of = statSync(path, { throwIfNoEntry: false })
    if (of?.isDirectory()) {
      const paths = readdirSync(path)
        .sort()
        .map((file) => join(path, file))
        .filter((file) => isLog(file))
      if (paths.length > 0) found.push({ name, paths, isOutside: [path, ...paths].some(leadsOut) })
    } else if (of?.isFile() && isLog(path)) found.push({ name, paths: [path], isOutside: leadsOut(path) })
  }
  return withReports(found)

  function leadsOut(path: string): boolean {
    return relative(root, realpathSync(path)).split(sep)[0] === '..'
  }
}

function isLog(path: string): boolean {
  const of = statSync(path, { throwIfNoEntry: false })
  if (of?.isFile() !== true) return false
  const kind = extname(path).toLowerCase()
  return KINDS.has(kind) || (kind === MAYBE_FHIR && beginningOf(path).includes('"resourceType"'))
}

/** Reports by the names of their logs; names that some systems hold for the same are told apart by a number. */
function withReports(logs: readonly Omit<FolderLog, 'report'>[]): readonly FolderLog[] {
  const taken = new Set(['overview.pdf'])
  return logs.map((log) => {
    const stem =
      log.name.slice(0, log.name.length - (log.paths.length > 1 ? 0 : extname(log.name).length)) || log.name
    let report = `${stem}.pdf`
    for (let i = 2; taken.has(key(report)); i++) report = `${stem} (${i}).pdf`
    taken.add(key(report))
    return { ...log, report }
  })
}

function key(name: string): string {
  return name.normalize('NFC').toLowerCase()
}
