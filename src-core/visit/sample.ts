import type { Edit } from './edits'
import type { Visit, VisitLog } from './visit'

/** Adds the sample. Where it is all that the visit holds, `label` tells window and pages that it is invented. */
export function addingSample({ logs, typed }: Visit, sample: VisitLog, label: string): Edit {
  const isAlone = logs.length + typed.length === 0
  return {
    kind: 'add-logs',
    logs: [sample],
    ...(isAlone && { settings: { label, sampleLabel: true } }),
  }
}

/** Whether the visit holds nothing but the sample, of which nothing was decided and beside which nothing was told. */
export function isUntouchedSample(visit: Visit, sample: VisitLog): boolean {
  const { logs, typed, decisions, kit, sampleLabel } = visit
  return (
    logs.length === 1 &&
    logs[0].sha256 === sample.sha256 &&
    sampleLabel === true &&
    typed.length + decisions.length + Object.keys(kit).length === 0
  )
}

/** Removes a log; with the sample goes the label that tells of it. */
export function removing({ sampleLabel }: Visit, sha256: string, sample: VisitLog): Edit {
  const isTold = sha256 === sample.sha256 && sampleLabel === true
  return { kind: 'remove-log', sha256, ...(isTold && { settings: { label: '' } }) }
}

/** Adds a person's own logs. An untouched sample goes away for them, with its label and the days chosen in it. */
export function addingOwn(visit: Visit, own: readonly VisitLog[], sample: VisitLog): Edit {
  if (!isUntouchedSample(visit, sample)) return { kind: 'add-logs', logs: own }
  const settings = { label: '', period: null, versus: null }
  return { kind: 'add-logs', logs: own, insteadOf: sample.sha256, settings }
}
