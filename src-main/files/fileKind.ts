import { closeSync, openSync, readFileSync, readSync, statSync } from 'node:fs'
import { READINGS_HEADER } from '../../src-core/log/ownReadings'
import { beginsAsVisit } from '../../src-core/visit/format'
import { OWN_BUNDLE_START } from '../../src-core/reference/fhir'
import { isSealed } from './pdfSeal'
import { PROGRAM } from '../program/program'

/** What stands at a path: `output` as this program wrote it, as far as can be told; `other` is somebody else's. */
export type FileKind = 'nothing' | 'folder' | 'device' | 'empty' | 'visit' | 'output' | 'other'

/** Enough of a file to tell what it is. */
const START = 1024
/** No report comes near it. */
const LARGEST_PDF = 256 * 1024 * 1024

const JSON_START = new RegExp(
  String.raw`^\{\s*"schemaVersion":\s*\d+,\s*"program":\s*\{\s*"name":\s*"${PROGRAM.name}"`,
)

/** Tells what stands at a path, links followed. A file that may not be read is somebody else's. Throws as `stat` does. */
export function fileKind(path: string): FileKind {
  const standing = statSync(path, { throwIfNoEntry: false })
  if (standing === undefined) return 'nothing'
  if (standing.isDirectory()) return 'folder'
  if (!standing.isFile()) return 'device'
  if (standing.size === 0) return 'empty'
  try {
    return kindOfContent(path, standing.size)
  } catch {
    return 'other'
  }
}

function kindOfContent(path: string, size: number): FileKind {
  const start = beginningOf(path)
  if (beginsAsVisit(start)) return 'visit'
  if ([`${READINGS_HEADER}\n`, OWN_BUNDLE_START].some((own) => start.startsWith(own))) return 'output'
  if (JSON_START.test(start)) return 'output'
  const isPdf = start.startsWith('%PDF-') && size <= LARGEST_PDF
  return isPdf && isSealed(readFileSync(path)) ? 'output' : 'other'
}

/** The first bytes of a file as text. */
export function beginningOf(path: string): string {
  const file = openSync(path, 'r')
  try {
    const start = Buffer.alloc(START)
    return start.toString('utf8', 0, readSync(file, start))
  } finally {
    closeSync(file)
  }
}
