import type { Named } from '../../model/named'

/** What is said of a visit file that is damaged or unknown. Each names the line and what to do. */
export const VISIT_FILE = {
  notAVisit:
    'This is not a visit file of this program, or its first line is damaged. Choose a file that it saved, the previous version that was kept beside it, or a log.',
  newer:
    'The file was saved by a newer version of this program, which this one cannot read. Install the newer version; the file stays as it is.',
  'wrong-passphrase':
    'This is not the passphrase of the file, or the first line of the file is damaged. Try again; without the passphrase nobody can open it.',
  damaged:
    'The file is damaged, and nothing of it can be trusted. Open the previous version that was kept beside it.',
  changedOutside:
    'another program has changed it since it was opened. Save under another name, or open it again.',
  goneOutside:
    'it has been moved or removed since it was opened. Save under another name, or open it where it is.',
  'too-little-memory':
    'There is too little memory to open the file. Close other programs and try again; the file stays as it is.',
  beingSaved: 'another program is saving it at this moment. Try again.',
  clearVersionStays:
    'an earlier version, which is not protected, is still there and cannot be removed. Remove it yourself.',
  nothingSound:
    'Nothing in the file can be read any more. Open the previous version that was kept beside it.',
} as const

const PARTS = {
  log: 'a log',
  typed: 'a reading typed by hand',
  decision: 'a decision on a reading',
  kit: 'the measuring kit',
  settings: 'the settings',
  end: 'the end of the visit',
} as const

/** `part`: null where it is not known. */
export function damagedPart(line: number, part: keyof typeof PARTS | null): string {
  const what = part === null ? 'a part of the visit' : PARTS[part]
  return `Line ${line} is damaged and was left out: ${what}.${part === 'log' ? ' Add the log’s own file again.' : ''}`
}

export function unknownKeys(line: number, { named, more }: Named<string>): string {
  const keys = `${named.map((key) => `‘${key}’`).join(', ')}${more > 0 ? ` and ${more} more` : ''}`
  return `Line ${line}: this version does not know ${keys}; saving will not keep it.`
}

export function afterTheEnd(line: number): string {
  return `Line ${line}: what comes after the end of the visit was left out.`
}

export const CUT_OFF =
  'The file ends too early: whatever came after its last line is lost. Look for the previous version that was kept beside it.'
export const PART_MISSING =
  'A part of the file is missing. Look for the previous version that was kept beside it.'
export const PARTS_CHANGED =
  'Parts of the file were moved, added or changed since it was saved. Check what you see, or look for the previous version that was kept beside it.'
export const SETTINGS_MISSING = 'The settings are missing; the usual ones are used.'

export const VISIT_ON_STANDARD_INPUT = 'This is a visit, not a log. Name its file instead of -.'

export const ASK_PASSPHRASE = 'Passphrase of the visit: '
export const ASK_NEW_PASSPHRASE = 'New passphrase for the visit (without it nobody can open the file): '
export const ASK_AGAIN = 'Passphrase again: '
export const NOT_THE_SAME = 'The two passphrases differ; nothing was saved.'
export const NO_TERMINAL =
  'A passphrase is needed and there is no terminal to ask on: give it with --passphrase-fd N.'
export const EMPTY_PASSPHRASE = 'The passphrase is empty: give one of at least one character.'
export function unreadablePassphrase(descriptor: number): string {
  return `--passphrase-fd: no UTF-8 text can be read from the file descriptor ${descriptor}. Open it in the shell: ${descriptor}< FILE.`
}
