import type { DaySpan } from '../log/readings'
import { isoDay } from '../units/wallClock'

// Names under which files are offered for saving. The person may write any other.

/** Not in a file's name on one of the systems: separators, marks with a meaning of their own, what is not seen. */
const FORBIDDEN = /[\p{C}\p{Zl}\p{Zp}<>:"/\\|?*]+/gu
/** Names that one of the systems keeps for devices, whatever follows the first point. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)(?=\.|$)/i
/** Bytes of a label in a file's name; whole names may have 255. */
const MOST_BYTES = 80

/** 'Anna, Thursday visit-report-2026-03-02-to-2026-05-30.pdf'; without a label it tells the days and nothing of the person. */
export function reportFileName({ from, to }: DaySpan, label: string): string {
  const days = `visit-report-${isoDay(from)}-to-${isoDay(to)}.pdf`
  const name = safeLabel(label)
  return name === '' ? days : `${name} ${days}`
}

/** 'Anna, Thursday.visit'; 'visit.visit' without a label. */
export function visitFileName(label: string): string {
  return `${safeLabel(label) || 'visit'}.visit`
}

/** A label as a part of a file's name, without what a system refuses or reads otherwise; '' where nothing is left. */
export function safeLabel(label: string): string {
  const plain = label.normalize('NFC').replace(FORBIDDEN, ' ').replace(/\s+/g, ' ')
  let cut = ''
  let bytes = 0
  for (const character of plain.trimStart()) {
    bytes += new TextEncoder().encode(character).length
    if (bytes > MOST_BYTES) break
    cut += character
  }
  // A point in front hides a file; points and spaces at the end are dropped by one of the systems.
  const trimmed = cut.replace(/^[.\s]+|[.\s]+$/g, '')
  return DEVICE.test(trimmed) ? `_${trimmed}` : trimmed
}
