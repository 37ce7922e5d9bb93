/** What a visit file calls itself on its first line. */
export const FORMAT = 'visit-report visit'
/** Grows with every change that an older program would misread. */
export const VERSION = 1

/** Whether a file begins as a visit file does, protected or not. */
export function beginsAsVisit(start: string): boolean {
  return withoutByteOrderMark(start).startsWith(`{"format":"${FORMAT}"`)
}

/** Some editors put the mark before UTF-8 text when they save it. */
export function withoutByteOrderMark(text: string): string {
  return text.startsWith('\uFEFF') ? text.slice(1) : text
}

/** The first line of a file, if it is JSON of any kind. */
export function firstLineOf(text: string): unknown {
  return parsedJson(text.split('\n', 1)[0])
}

/** Whether a newer version of the program wrote the first line. */
export function isNewer(header: unknown): boolean {
  const { format, version } = (header ?? {}) as { format?: unknown; version?: unknown }
  // eslint-disable-next-line house/no-sentence-read -- what all these files begin with is a code
  return format === FORMAT && typeof version === 'number' && version > VERSION
}

/** The value of a JSON text; undefined where it is none. */
export function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}
