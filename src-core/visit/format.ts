/** What a visit file calls itself on its first line. */
export const FORMAT = 'visit-report visit'
/** Grows with every change that an older program would misread. */
export const VERSION = 1

/** Whether a file begins as a visit file does, protected or not. */
export function beginsAsVisit(start: string): boolean {
  return start.startsWith(`{"format":"${FORMAT}"`)
}
