import type { LogFile } from '../../src-core/bridge/contract'
import type { Unpacked } from '../../src-core/window/effects'
import { isPdf } from '../../src-core/log/encoding'
import { beginsAsVisit } from '../../src-core/visit/format'
import { BYTE_TOOLS } from './byteTools'

// Files that a report carries (ISO 32000-1, 7.11.4), so that who gets it can open it here. Readers of PDFs hand out what
// they could make of a damaged attachment without a word; so each one's description lists all of them with length and hash,
// and one that does not fit is not read.

/** Grows with every change that an older program would misread. */
const VERSION = 1
const FORMAT = 'visit-report-attachments'
const MANIFEST = new RegExp(`^${FORMAT} (\\d+): (.*)$`)
/** Whatever ends a PDF stands within so many bytes of its end (ISO 32000-1, annex H, note 18). */
const TAIL = 1024

/** The description that each of a PDF's own attachments is given. */
export function manifestOf(files: readonly LogFile[]): string {
  const all = files.map(({ name, bytes }) => `${name} ${bytes.length} ${BYTE_TOOLS.sha256(bytes)}`)
  return `${FORMAT} ${VERSION}: ${all.join(', ')}`
}

/** What a report carries, in its place: its visit, else its readings. Any other file is given back as it is. */
export async function unpacked(file: LogFile): Promise<Unpacked> {
  if (!isPdf(file.bytes)) return { files: [file] }
  const carried = await carriedBy(Buffer.from(file.bytes))
  if ('fault' in carried) return carried
  const { files } = carried
  if (files.length === 0) return { files: [file] }
  const visit = files.find(({ bytes }) => beginsAsVisit(Buffer.from(bytes).toString('utf8', 0, TAIL)))
  if (visit) return { files: [{ name: file.name.replace(/(\.pdf)?$/i, '.visit'), bytes: visit.bytes }] }
  return { files: files.map(({ name, bytes }) => ({ name: `${name} (${file.name})`, bytes })) }
}

async function carriedBy(pdf: Buffer): Promise<Unpacked> {
  if (!pdf.subarray(-TAIL).includes('startxref')) return { fault: 'unreadable' }
  // Loaded only here: no other log needs it.
  const { attachmentsIn } = await import('./pdfReader')
  const attached = await attachmentsIn(pdf)
  if (attached === null) return { fault: 'unreadable' }
  const own = attached.filter(({ description }) => description.startsWith(FORMAT))
  // A list that no reader finds any more stands in the bytes as it was written.
  if (own.length === 0) return pdf.includes(FORMAT) ? { fault: 'damaged' } : { files: [] }
  const [manifest, ...others] = new Set(own.map(({ description }) => description))
  const [, version, list = ''] = MANIFEST.exec(manifest) ?? []
  if (others.length > 0 || version === undefined) return { fault: 'damaged' }
  if (Number(version) !== VERSION) return { fault: 'other-version' }
  const files = list.split(', ').flatMap((one) => attached.filter(({ name }) => one.startsWith(`${name} `)))
  return manifestOf(files) === manifest ? { files } : { fault: 'damaged' }
}
