import type { NotWritten, WriteFault } from '../../model/notWritten'
import { listed } from './numbers'
import { VISIT_FILE } from './visitFile'

// What is said of files that could not be written.

/** Which file could not be written, why, what to do, and which files of the same run are in place. */
export function notWrittenText({ path, why, run }: NotWritten): string {
  const inPlace = run === null ? '' : ` ${whatIsInPlace(run.inPlace, run.missing)}`
  return `${path} could not be written: ${whyNotWritten(why)}${inPlace}`
}

/** For the command line, behind what is said of a file that is left as it is. */
export const OR_REPLACE = 'To overwrite what is there, add --replace.'

function whyNotWritten(why: WriteFault): string {
  switch (why.code) {
    case 'system': {
      const what = why.folder === null ? 'it' : `the folder ${why.folder}`
      return (
        SYSTEM_FAULTS[why.errno]?.(what) ?? `the system reports ${why.errno}. Choose another name or folder.`
      )
    }
    case 'spared':
      return SPARED[why.stands]
    case 'folder-stands':
      return 'there is a folder of that name. Choose another name.'
    case 'read-only':
      return 'the file there is read-only. Choose another name.'
    case 'disk':
      return 'it is a disk, not a file. Choose another name.'
    case 'changedOutside':
    case 'goneOutside':
    case 'beingSaved':
    case 'clearVersionStays':
      return VISIT_FILE[why.code]
  }
}

const SPARED = {
  visit:
    'a visit that was not opened is there already, and its decisions would be lost. Open it first, or choose another name.',
  other:
    'a file is there already that this program did not write, or that was changed since. Choose another name, or move that file.',
} as const

const SYSTEM_FAULTS: Readonly<Record<string, (what: string) => string>> = {
  ENOENT: (what) => `${what} does not exist. Create the folder first or choose another.`,
  EACCES: (what) => `you do not have permission to write to ${what}. Choose another folder.`,
  EPERM: (what) =>
    `you do not have permission to write to ${what}, or another program has it open. Close it there, or choose another name.`,
  EROFS: (what) => `${what} is read-only. Choose another folder.`,
  ENOSPC: () => 'the disk is full. Free some space, or choose another disk.',
  EDQUOT: () => 'your share of the disk is full. Free some space, or choose another disk.',
  ENOTDIR: (what) => `${what} is not a folder. Choose another place.`,
  ELOOP: (what) => `${what} is a link that leads back to itself. Choose another name.`,
  ENAMETOOLONG: (what) => `${what} has too long a name. Choose a shorter one.`,
}

/** Which files of one run stand in their places after one of them failed. */
function whatIsInPlace(inPlace: readonly string[], missing: readonly string[]): string {
  if (inPlace.length === 0) return 'This run wrote no file; files that were there before are unchanged.'
  return `Already written: ${listed(inPlace)}. Not written: ${listed(missing)}.`
}
