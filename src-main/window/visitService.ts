import { webcrypto } from 'node:crypto'
import type {
  About,
  Argument,
  Changed,
  FileOutcome,
  FormOutcome,
  Handlers,
  LogFile,
  PdfOutcome,
  Stale,
} from '../../src-core/bridge/contract'
import { rangesIn } from '../../src-core/analysis/targets'
import { formEdit } from '../../src-core/bridge/forms/formEdit'
import type { FormRequest } from '../../src-core/bridge/forms/formRequest'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import {
  documentView,
  type Problem,
  type ReportView,
  type VisitState,
} from '../../src-core/bridge/visitState'
import type { OpenedView } from '../../src-core/bridge/visitView'
import type { WindowEdit } from '../../src-core/bridge/windowEdit'
import type { ImportContext } from '../../src-core/log/logSource'
import { wallSeconds, zoneOffsets } from '../../src-core/units/timeZone'
import { isoMoment } from '../../src-core/units/wallClock'
import type { Edit } from '../../src-core/visit/edits'
import { beginsAsVisit } from '../../src-core/visit/format'
import { done, type History, historyOf, redone, undone } from '../../src-core/visit/history'
import { addingOwn, addingSample, isUntouchedSample, removing } from '../../src-core/visit/sample'
import { EMPTY_VISIT, type Visit, type VisitLog } from '../../src-core/visit/visit'
import {
  ADDED_TO_OTHERS,
  LOG_HELD_ALREADY,
  newOutsideText,
  SAMPLE_AMONG_LOGS,
  SAMPLE_PUT_AWAY,
  STALE,
  TOO_MANY_LOGS,
} from '../../src-core/wording/window'
import { OPENING_CANCELLED, VISIT_ALONE } from '../../src-core/wording/visitWindow'
import type { StoppableCalculator } from './calculationThread'
import type { Made } from './calculator'
import type { PdfOpener } from './openPdf'
import { type Opening, openingOfBytes, openingOfFile } from './opening'
import { createKeeping, type FileDone, type FileTools } from './visitKeeping'

/** What the service works with; each is a plain function or value. */
export interface Collaborators {
  readonly about: About
  readonly calculator: StoppableCalculator
  /** A log to try the window with. */
  readonly sample: () => LogFile
  /** The moment and the zone now. */
  readonly now: () => ImportContext
  readonly files: FileTools
  /** Opens a PDF where the desktop prints it; null where the window prints by itself, in the browser. */
  readonly openPdf: PdfOpener | null
}

/** The program behind one window, with what its host needs besides. */
export interface VisitService extends Handlers {
  /** Opens what the host was started with: a visit, logs, or both. Gives what could not be opened. */
  openWith(visitPath: string | null, logs: readonly LogFile[]): Promise<readonly Problem[]>
  /** Has the window tell what could not be opened before it was there. */
  tellUnopened(problems: readonly Problem[]): void
  isEdited(): boolean
  /** Ends it. What is not saved stays to be recovered, unless it is meant to go. */
  end(discard: boolean): Promise<void>
}

const EMPTY: ReportView = { kind: 'empty' }
/** Bytes that tell a visit file from a log. */
const START = 64
/** Requests that answer what an opening asked. */
const GOES_ON: ReadonlySet<string> = new Set(['go-on', 'save-first', 'open-with'])
const STALE_ANSWER: Stale = { kind: 'stale' }

/**
 * The program behind one window: it holds the one visit with its history, applies what the window asks for, and gives
 * back what is to be shown. Requests that change the visit follow one another.
 */
export function createVisitService(collaborators: Collaborators): VisitService {
  const { about, calculator, sample, now, files, openPdf } = collaborators
  let history: History = historyOf(EMPTY_VISIT)
  let report: ReportView = EMPTY
  let revision = 0
  let visitNumber = 0
  let unopened: readonly Problem[] = []
  /** The moment as of which logs are read, the same for all figures until logs are added. */
  let readAt = now()
  let broughtAlong: readonly string[] | null = null
  let last: Promise<unknown> = Promise.resolve()

  function inTurn<T>(does: () => Promise<T>): Promise<T> {
    const next = last.then(does)
    last = next.catch(() => undefined)
    return next
  }

  const keeping = createKeeping(files, {
    visit: () => history.visit,
    days: () => (report.kind === 'opened' ? report.period : null),
    replace,
  })
  /** Logs that came with a visit that is not open yet: it may ask for its passphrase first. */
  let waiting: readonly LogFile[] = []

  const state = (): VisitState => ({
    revision,
    visitNumber,
    visit: documentView(history),
    report,
    file: keeping.view(),
    unopened,
  })
  const changed = (
    problems: readonly Problem[] = [],
    { notices = [], cancelled = false }: Partial<Pick<Changed, 'notices' | 'cancelled'>> = {},
  ): Changed => ({ state: state(), problems, notices, cancelled })

  async function made(next: History): Promise<Made | ReportView> {
    const { visit } = next
    if (visit.logs.length + visit.typed.length === 0) return EMPTY
    return sameFigures(history.visit, visit)
      ? report
      : calculator.report(visit, { readAt, now: now(), broughtAlong })
  }

  function settle(next: History, view: ReportView): void {
    if (next === history) return
    history = next
    report = view
    revision++
    unopened = []
    keeping.changed()
  }

  /** Puts another visit in place of this one, with nothing to undo. */
  async function replace(visit: Visit): Promise<readonly Problem[]> {
    const next = historyOf(visit)
    const before = broughtAlong
    readAt = now()
    broughtAlong = visit === EMPTY_VISIT ? null : visit.logs.map(({ sha256 }) => sha256)
    const view = await made(next)
    if (view.kind === 'refused' || view.kind === 'cancelled') broughtAlong = before
    if (view.kind === 'refused') return [{ about: null, message: view.message }]
    if (view.kind === 'cancelled') return [{ about: null, message: OPENING_CANCELLED }]
    history = next
    report = view
    revision++
    visitNumber++
    unopened = []
    return []
  }

  /** Takes a history as it is, also one whose logs stop the report: a person goes back where they were. */
  async function goTo(next: History): Promise<Changed> {
    const view = await made(next)
    // Figures that were made once can be made again: only an edit brings what cannot be.
    if (view.kind === 'refused') throw new Error('A visit of the history cannot be made')
    if (view.kind === 'cancelled') return changed([], { cancelled: true })
    settle(next, view)
    return changed()
  }

  /** Makes an edit, unless what it asks for cannot be: then the visit stays and the reason is told. */
  async function make(edit: Edit): Promise<Changed> {
    const next = done(history, edit)
    const view = await made(next)
    if (view.kind === 'cancelled') return changed([], { cancelled: true })
    if (view.kind === 'refused') return changed([{ about: null, message: view.message }])
    const hopeless = view.kind === 'stopped' && view.refusals.find(({ question }) => question === null)
    if (hopeless && edit.kind !== 'remove-log') {
      return changed([{ about: hopeless.log, message: hopeless.message }])
    }
    settle(next, view)
    return changed()
  }

  let sampleLog: Promise<VisitLog> | null = null
  const theSample = () => (sampleLog ??= visitLog(sample()))

  async function addSample(): Promise<Changed> {
    const log = await theSample()
    return addRead([log], (visit) => addingSample(visit, log))
  }

  async function add(files: readonly LogFile[]): Promise<Changed> {
    const { visit } = history
    const log = await theSample()
    const own = await Promise.all(files.map(visitLog))
    const added = await addRead(own, (before, logs) => addingOwn(before, logs, log))
    return { ...added, notices: addedNotices(visit, log) }
  }

  /** What is to be known of logs or readings that were added to a visit. */
  function addedNotices(before: Visit, sampleLog: VisitLog): readonly string[] {
    const { logs, typed } = history.visit
    const holdsSample = logs.some(({ sha256 }) => sha256 === sampleLog.sha256)
    if (history.visit === before) return []
    if (holdsSample)
      return logs.length + typed.length > 1 ? [SAMPLE_AMONG_LOGS, ...outsideNotice(before)] : []
    if (isUntouchedSample(before, sampleLog)) return [SAMPLE_PUT_AWAY]
    return before.logs.length > 0 && logs !== before.logs ? [ADDED_TO_OTHERS, ...outsideNotice(before)] : []
  }

  /** Says where the days chosen before leave readings of new logs out. */
  function outsideNotice(before: Visit): readonly string[] {
    if (report.kind !== 'opened') return []
    const had = new Set(before.logs.map(({ sha256 }) => sha256))
    const added = report.logs.filter(({ sha256 }) => !had.has(sha256))
    const outside = added.reduce((sum, log) => sum + log.outside, 0)
    return outside === 0 ? [] : [newOutsideText(outside)]
  }

  /** Adds logs by an edit; what is no log is told and left out, what leaves something open is asked. */
  async function addRead(
    logs: readonly VisitLog[],
    adding: (visit: Visit, logs: readonly VisitLog[]) => Edit,
  ): Promise<Changed> {
    const problems: Problem[] = []
    const held = new Set(history.visit.logs.map(({ sha256 }) => sha256))
    readAt = now()
    let fresh: readonly VisitLog[] = logs.flatMap((log) => {
      if (held.has(log.sha256)) {
        problems.push({ about: log.name, message: LOG_HELD_ALREADY })
        return []
      }
      held.add(log.sha256)
      return [log]
    })
    if (held.size > MESSAGE_LIMITS.logs) {
      return changed([{ about: null, message: TOO_MANY_LOGS(MESSAGE_LIMITS.logs) }])
    }
    while (fresh.length > 0) {
      const next = done(history, adding(history.visit, fresh))
      const view = await made(next)
      if (view.kind === 'refused') throw new Error('Logs bring no targets')
      if (view.kind === 'cancelled') return changed([], { cancelled: true })
      const refused = view.kind === 'stopped' ? view.refusals.filter(({ question }) => question === null) : []
      const of = (log: VisitLog) =>
        refused.find(({ sha256 }) => sha256 === log.sha256 || (sha256 === null && !isOpened(report)))
      const bad = fresh.filter((log) => of(log) !== undefined)
      if (bad.length === 0) {
        settle(next, view)
        break
      }
      problems.push(...bad.map((log) => ({ about: log.name, message: of(log)?.message ?? '' })))
      fresh = fresh.filter((log) => of(log) === undefined)
    }
    return changed(problems)
  }

  /** A visit among the files is opened, and the logs added to it. */
  async function take(files: readonly LogFile[]): Promise<Changed> {
    const visits = files.filter(({ bytes }) =>
      beginsAsVisit(Buffer.from(bytes.subarray(0, START)).toString()),
    )
    if (visits.length === 0) return add(files)
    if (visits.length > 1) return changed([{ about: null, message: VISIT_ALONE }])
    const logs = files.filter((file) => file !== visits[0])
    return open(openingOfBytes(visits[0].name, visits[0].bytes), logs)
  }

  function open(opening: Opening, logs: readonly LogFile[]): Promise<FileOutcome> {
    waiting = logs
    return fileDone(keeping.open(opening))
  }

  /** What came of a file's request; once a visit is open, the logs that came with it are added. */
  async function fileDone(work: Promise<FileDone>): Promise<FileOutcome> {
    const { problems, said, notices, download } = await work
    if (keeping.view().asked !== null) return { ...changed(problems, { notices }), said, download }
    const logs = waiting
    waiting = []
    const added = problems.length === 0 && logs.length > 0 ? await add(logs) : changed()
    return {
      ...added,
      problems: [...problems, ...added.problems],
      notices: [...notices, ...added.notices],
      said,
      download,
    }
  }

  function minuteNow(): string {
    const { nowMs, zone } = now()
    return isoMoment(wallSeconds(nowMs, zoneOffsets(zone)(nowMs)))
  }

  /** The unit printed now, and the one where the person names none. */
  function units(): Pick<OpenedView, 'unit' | 'unitOfLogs'> {
    if (report.kind === 'opened') return report
    const unit = history.visit.unit ?? 'mg/dL'
    return { unit, unitOfLogs: unit }
  }

  /** The visit's own words for an edit of the window. */
  async function editOf(edit: WindowEdit): Promise<Edit> {
    if (edit.kind === 'set' && edit.settings.unit !== undefined) {
      const { unit, unitOfLogs } = units()
      const ranges = rangesIn(history.visit, unit, edit.settings.unit ?? unitOfLogs)
      return { kind: 'set', settings: { ...edit.settings, ...ranges } }
    }
    if (edit.kind === 'remove-log') return removing(history.visit, edit.sha256, await theSample())
    if (edit.kind !== 'decide') return edit
    const decidedAt = minuteNow()
    const { reading, choice, reason } = edit
    return { kind: 'decide', decision: { reading, choice, reason: reason.trim(), decidedAt } }
  }

  async function fill(form: FormRequest): Promise<FormOutcome> {
    const read = formEdit(history.visit, form, { ...units(), now: minuteNow() })
    if ('faults' in read) return { ...changed(), faults: read.faults }
    const { visit } = history
    const made = await make(read.edit)
    const isOwn = read.edit.kind === 'type-reading' && read.edit.insteadOf === undefined
    return { ...made, notices: isOwn ? addedNotices(visit, await theSample()) : [], faults: [] }
  }

  function ofRevision(asked: number, does: () => Promise<Changed>): Promise<Changed> {
    return inTurn(async () => (asked === revision ? does() : changed([{ about: null, message: STALE }])))
  }

  /** Looks at the figures, where they are still those that the window means. */
  function look<T>(asked: number, does: () => Promise<T | null>): Promise<T | Stale> {
    return inTurn(async () => {
      if (asked !== revision || !isOpened(report)) return STALE_ANSWER
      return (await does()) ?? STALE_ANSWER
    })
  }

  function pagesOf(asked: number): Promise<PdfOutcome> {
    return look(asked, async () => {
      const pdf = await calculator.pdf(history.visit, now().nowMs)
      return { kind: 'made', revision: asked, ...pdf }
    })
  }

  return {
    about: () => about,
    show: () => inTurn(async () => Promise.resolve(state())),
    addLogs: ({ logs }) => inTurn(() => take(logs)),
    addSample: () => inTurn(addSample),
    edit: ({ revision: asked, edit }) => ofRevision(asked, async () => make(await editOf(edit))),
    form: ({ revision: asked, form }) =>
      inTurn(async () =>
        asked === revision ? fill(form) : { ...changed([{ about: null, message: STALE }]), faults: [] },
      ),
    undo: ({ revision: asked }) => ofRevision(asked, () => goTo(undone(history))),
    redo: ({ revision: asked }) => ofRevision(asked, () => goTo(redone(history))),
    readings: ({ revision: asked, filter, from, count }: Argument<'readings'>) =>
      look(asked, () => calculator.rows(filter, from, count)),
    reading: ({ revision: asked, index }) => look(asked, () => calculator.reading(index)),
    picture: ({ revision: asked }) => look(asked, () => calculator.picture()),
    waysToRead: ({ revision: asked, sha256, subject }) =>
      look(asked, () =>
        calculator.waysToRead(history.visit, { readAt, now: now(), broughtAlong }, sha256, subject),
      ),
    makePdf: ({ revision: asked }) => pagesOf(asked),
    print: async ({ revision: asked }) => {
      const pages = await pagesOf(asked)
      if (openPdf === null || pages.kind === 'stale') return pages
      // Out of turn: a viewer that takes its time holds nothing up.
      return { kind: (await openPdf(pages.fileName, pages.bytes)) ? 'opened' : 'not-opened' }
    },
    beginning: () => keeping.beginning(),
    file: (request) =>
      inTurn(() => {
        if (!GOES_ON.has(request.does)) waiting = []
        return fileDone(keeping.request(request))
      }),
    openWith: (visitPath, logs) =>
      inTurn(async () => {
        const opened = visitPath === null ? add(logs) : open(openingOfFile(visitPath), logs)
        return (await opened).problems
      }),
    tellUnopened: (problems) => {
      unopened = problems
    },
    isEdited: () => keeping.view().edited,
    end: (discard) => inTurn(() => keeping.end(discard)),
    // These three are answered at once, whatever else is under way.
    kept: () => keeping.kept(),
    progress: () => calculator.progress(),
    cancel: () => {
      calculator.cancel()
      return null
    },
  }
}

function isOpened({ kind }: ReportView): boolean {
  return kind === 'opened'
}

/** Its hash is computed beside the program's own work: 100 MB take a while. */
async function visitLog({ name, bytes }: LogFile): Promise<VisitLog> {
  const hash = await webcrypto.subtle.digest('SHA-256', bytes)
  return { name, sha256: Buffer.from(hash).toString('hex'), bytes, answers: {} }
}

/** Whether each part of a visit bears on its figures, or on its pages alone. */
const BEARS_ON_FIGURES: Readonly<Record<keyof Visit, boolean>> = {
  logs: true,
  typed: true,
  decisions: true,
  kit: true,
  shifts: true,
  period: true,
  versus: true,
  targets: true,
  goal: true,
  unit: true,
  zone: true,
  paper: false,
  label: false,
  sampleLabel: false,
  diary: false,
}

function sameFigures(a: Visit, b: Visit): boolean {
  return (Object.keys(BEARS_ON_FIGURES) as readonly (keyof Visit)[]).every(
    (part) => !BEARS_ON_FIGURES[part] || a[part] === b[part],
  )
}
