import type { AttachmentFault } from '../../model/attachmentFault'

// What is said of the readings and the visit that the PDF of a report carries.

/** At the foot of the pages. */
export const CARRIES = {
  readings: 'This PDF carries every reading with its note: they go with the file.',
  visit: 'This PDF carries the visit and every reading with its note: they go with the file.',
} as const
export type Carried = keyof typeof CARRIES

const OPEN_ANOTHER =
  'Get the file again from where it came, before another program saves it, or open the log itself.'

/** Why what a PDF carries was not read, and what to do. */
export const ATTACHMENT_FAULT: Readonly<Record<AttachmentFault, string>> = {
  unreadable: `The file is a PDF, not a CSV file, and cannot be read: it is damaged, cut off or protected by a password. ${OPEN_ANOTHER}`,
  damaged: `What this PDF carries is not what was attached to it: it was damaged or changed since, and nothing of it was read. ${OPEN_ANOTHER}`,
  'other-version':
    'A newer version of this program attached the readings to this PDF, in a form that this one cannot read. ' +
    'Install the newer version, or open the log itself.',
}

/** On the terminal, below the names of the files written. */
export function carriedText(carried: Carried, isProtected: boolean): string {
  const visit = carried === 'visit' ? `the visit${isProtected ? ' under its passphrase' : ''} and ` : ''
  const inClear = isProtected ? ' without a passphrase' : ''
  return `The PDF carries ${visit}every reading with its note${inClear}: whoever gets the file has them.`
}

/** Where the readings of a PDF are read, without a visit. */
export const READINGS_ALONE =
  'Of this PDF the readings that it carries are read. Rows that were set aside, possible lows among them, and what was decided or ' +
  'known besides are not among these: see its pages, or open the log itself.'

/** Behind what is said of a visit that a PDF carries and that could not be opened. */
export const READINGS_WITHOUT_PASSPHRASE =
  'The readings alone need no passphrase: save readings.csv from the attachments that a PDF reader lists, and open that.'
