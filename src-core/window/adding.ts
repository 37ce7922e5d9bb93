import type { LogFile } from '../bridge/contract'
import { MESSAGE_LIMITS } from '../bridge/limits'
import type { Edit } from '../visit/edits'
import { done } from '../visit/history'
import { addingOwn, addingSample, isUntouchedSample } from '../visit/sample'
import type { Visit, VisitLog } from '../visit/visit'
import { perform, type Work } from './effects'
import { made, settle } from './making'
import type { WindowState } from './state'
import { type Outcome, type Saying, telling, type Trouble, trouble } from './told'
import type { Words } from '../wording/words'

/** Adds the log to try the window with. */
export function* addSample(words: Words, state: WindowState): Work<Outcome> {
  const log = yield* perform(state, 'sample')
  return yield* addRead(words, state, [log], (visit) => addingSample(visit, log, words.window.SAMPLE_LABEL))
}

/** Adds a person's own logs. */
export function* addLogs(words: Words, state: WindowState, files: readonly LogFile[]): Work<Outcome> {
  const sample = yield* perform(state, 'sample')
  const own = yield* perform(state, 'logsOf', files)
  const added = yield* addRead(words, state, own, (before, logs) => addingOwn(before, logs, sample))
  const notices = addedNotices(state.history.visit, added.state, sample)
  return { ...added, told: { ...added.told, notices } }
}

/** Adds logs by an edit; what is no log is told and left out, what leaves something open is asked. */
function* addRead(
  words: Words,
  state: WindowState,
  logs: readonly VisitLog[],
  adding: (visit: Visit, logs: readonly VisitLog[]) => Edit,
): Work<Outcome> {
  const { history, report } = state
  const problems: Trouble[] = []
  const held = new Set(history.visit.logs.map(({ sha256 }) => sha256))
  let fresh: readonly VisitLog[] = logs.flatMap((log) => {
    if (held.has(log.sha256)) {
      problems.push({ about: log.name, why: { code: 'log-held-already' } })
      return []
    }
    held.add(log.sha256)
    return [log]
  })
  if (held.size > MESSAGE_LIMITS.logs)
    return trouble(state, null, { code: 'too-many-logs', most: MESSAGE_LIMITS.logs })
  const anew = { ...state, readAt: yield* perform(state, 'now') }
  while (fresh.length > 0) {
    const next = done(history, adding(history.visit, fresh))
    const view = yield* made(anew, next)
    if (view.kind === 'refused') throw new Error('Logs bring no targets')
    if (view.kind === 'cancelled') return telling(anew, { cancelled: true })
    const refused = view.kind === 'stopped' ? view.refusals.filter(({ question }) => question === null) : []
    const of = (log: VisitLog) =>
      refused.find(({ sha256 }) => sha256 === log.sha256 || (sha256 === null && report.kind !== 'opened'))
    const bad = fresh.filter((log) => of(log) !== undefined)
    if (bad.length === 0) return telling(yield* settle(words, anew, next, view), { problems })
    const why = (log: VisitLog): Saying => ({ code: 'in-words', text: of(log)?.message ?? '' })
    problems.push(...bad.map((log) => ({ about: log.name, why: why(log) })))
    fresh = fresh.filter((log) => of(log) === undefined)
  }
  return telling(anew, { problems })
}

/** What is to be known of logs or readings that were added to a visit. */
export function addedNotices(
  before: Visit,
  { history, report }: WindowState,
  sample: VisitLog,
): readonly Saying[] {
  const { logs, typed } = history.visit
  if (history.visit === before) return []
  const outside = outsideNotice(before, report)
  if (logs.some(({ sha256 }) => sha256 === sample.sha256))
    return logs.length + typed.length > 1 ? [{ code: 'sample-among-logs' }, ...outside] : []
  if (isUntouchedSample(before, sample)) return [{ code: 'sample-put-away' }]
  return before.logs.length > 0 && logs !== before.logs ? [{ code: 'added-to-others' }, ...outside] : []
}

/** Says where the days chosen before leave readings of new logs out. */
function outsideNotice(before: Visit, report: WindowState['report']): readonly Saying[] {
  if (report.kind !== 'opened') return []
  const had = new Set(before.logs.map(({ sha256 }) => sha256))
  const added = report.logs.filter(({ sha256 }) => !had.has(sha256))
  const readings = added.reduce((sum, log) => sum + log.outside, 0)
  return readings === 0 ? [] : [{ code: 'new-outside', readings }]
}
