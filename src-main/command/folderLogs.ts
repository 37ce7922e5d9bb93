import { readdirSync, realpathSync, statSync } from 'node:fs'
import { isAnswersFile } from './folderAnswers'
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

/** Logs, visits, reports that carry their readings; and workbooks, which are refused with what to do. */
const KINDS = new Set(['.csv', '.tsv', '.txt', '.visit', '.pdf', '.ndjson', '.xlsx', '.xls', '.ods'])
/** Such a file may be many things: it is a log where it says so. */
const MAYBE_FHIR = '.json'

export interface FolderListing {
  readonly logs: readonly FolderLog[]
  /** Paths within the folder of what is no log by its kind, or lies too deep: nobody's readings go missing unsaid. */
  readonly passedOver: readonly string[]
}

/**
 * The logs in a folder, by name: each file, and each folder in it as the logs of one person. What the program writes there
 * itself (`out`) and hidden files are left out. Throws where the folder cannot be read.
 */
export function logsIn(folder: string, out: string): FolderListing {
  const root = realpathSync(folder)
  const found: Omit<FolderLog, 'report'>[] = []
  const passedOver: string[] = []
  for (const name of readdirSync(root).sort()) {
    const path = join(root, name)
    if (name.startsWith('.') || isAnswersFile(name) || resolve(path) === resolve(out)) continue
    const of = statSync(path, { throwIfNoEntry: false })
    if (of?.isDirectory()) {
      const files = readdirSync(path)
        .sort()
        .filter((file) => !file.startsWith('.'))
        .map((file) => join(path, file))
      const paths = files.filter((file) => isLog(file))
      passedOver.push(
        ...(files.length === 0
          ? [name]
          : files.filter((file) => !isLog(file)).map((file) => relative(root, file))),
      )
      if (paths.length > 0) found.push({ name, paths, isOutside: [path, ...paths].some(leadsOut) })
    } else if (of?.isFile() && isLog(path)) found.push({ name, paths: [path], isOutside: leadsOut(path) })
    else passedOver.push(name)
  }
  return { logs: withReports(found), passedOver }

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
