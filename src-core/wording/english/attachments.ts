import type { AttachmentFault } from '../../model/attachmentFault'

// What is said of the readings and the visit that the PDF of a report carries.

/** At the foot of the pages. */
export const CARRIES = {
  readings: 'This PDF contains all readings with their notes: they go with the file.',
  visit: 'This PDF contains the visit and all readings with their notes: they go with the file.',
} as const
export type Carried = keyof typeof CARRIES

const OPEN_ANOTHER =
  'Get a fresh copy from where it came from, one that no other program has saved, or open the log itself.'

/** Why what a PDF carries was not read, and what to do. */
export const ATTACHMENT_FAULT: Readonly<Record<AttachmentFault, string>> = {
  unreadable: `The file is a PDF, not a CSV file, and cannot be read: it is damaged, incomplete or protected by a password. ${OPEN_ANOTHER}`,
  damaged: `The data in this PDF are no longer what was attached to it: they were damaged or changed since, and none were read. ${OPEN_ANOTHER}`,
  'other-version':
    'A newer version of this program attached the readings to this PDF, in a form that this one cannot read. ' +
    'Install the newer version, or open the log itself.',
}

/** On the terminal, below the names of the files written. */
export function carriedText(carried: Carried, isProtected: boolean): string {
  const visit = carried === 'visit' ? `the visit${isProtected ? ' under its passphrase' : ''} and ` : ''
  const inClear = isProtected ? ' without a passphrase' : ''
  return `The PDF contains ${visit}every reading with its note${inClear}: whoever gets the file gets them too.`
}

/** Where the readings of a PDF are read, without a visit. */
export const READINGS_ALONE =
  'Only the readings attached to this PDF were read. Rows that were set aside (possible lows among them), decisions and other ' +
  'details are not in them: see the pages of the PDF, or open the log itself.'

/** Behind what is said of a visit that a PDF carries and that could not be opened. */
export const READINGS_WITHOUT_PASSPHRASE =
  'The readings alone need no passphrase: save the attachment readings.csv in a PDF reader, and open that.'
