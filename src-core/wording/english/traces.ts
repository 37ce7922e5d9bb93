/** What of the program's own notes was removed. */
export interface RemovedTraces {
  readonly recent: number
  readonly unsaved: number
  readonly log: boolean
  /** Unsaved visits of windows that are open at this moment. */
  readonly stillOpen: number
  /** Files that could not be removed. */
  readonly stay: readonly string[]
}

/** What ‘remove traces’ did, in sentences. */
export function removedTracesText(
  folder: string,
  { recent, unsaved, log, stillOpen, stay }: RemovedTraces,
): readonly [string, ...string[]] {
  const removed = [
    ...(recent > 0 ? [`the list of recent visits (${recent})`] : []),
    ...(unsaved > 0 ? [`the unsaved changes of ${visits(unsaved)}`] : []),
    ...(log ? ['the program log'] : []),
  ]
  return [
    removed.length > 0
      ? `Removed from ${folder}: ${removed.join('; ')}.`
      : `There was nothing to remove in ${folder}.`,
    ...(stillOpen === 0
      ? []
      : [`Unsaved changes of ${visits(stillOpen)} stay while a window is open; close it and do this again.`]),
    ...stay.map((path) => `${path} could not be removed; remove it yourself.`),
    'Visits that you saved are still where you saved them.',
  ]
}

function visits(n: number): string {
  return n === 1 ? 'one visit' : `${n} visits`
}

/** `when`: 'YYYY-MM-DD HH:MM'. */
export function neverSaved(when: string): string {
  return `Changes made to this visit on ${when} were never saved. This run leaves them out; the window offers to recover them.`
}
