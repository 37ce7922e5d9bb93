import { webcrypto } from 'node:crypto'
import type { About, Argument, Handlers, LogFile } from '../../src-core/bridge/contract'
import type { Problem } from '../../src-core/bridge/visitState'
import type { ImportContext } from '../../src-core/log/logSource'
import type { VisitLog } from '../../src-core/visit/visit'
import type { Effect, Performers, Work } from '../../src-core/window/effects'
import { notKept } from '../../src-core/window/sentences'
import { emptyWindow, isEdited } from '../../src-core/window/state'
import {
  end,
  openWith,
  type Step,
  type SteppedChannel,
  stepsWith,
  tellUnopened,
} from '../../src-core/window/steps'
import type { StoppableCalculator } from './calculationThread'
import { unpacked } from '../files/attachments'
import { fileEffects, type FileTools } from './fileEffects'
import { placeOf } from './opening'
import type { PdfOpener } from './openPdf'
import type { Words } from '../../src-core/wording/words'

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

/**
 * The program behind one window, in Node: it holds the one state, takes the steps of `src-core/window` one after the
 * other, and has their effects done by the disk, the dialogs and the thread that computes.
 */
export function createVisitService(words: Words, collaborators: Collaborators): VisitService {
  const { about, calculator, sample, now, openPdf } = collaborators
  const files = fileEffects(words, collaborators.files)
  const steps = stepsWith(words)
  let state = emptyWindow(now(), collaborators.files.dialogs !== null)
  let last: Promise<unknown> = Promise.resolve()
  let sampleLog: Promise<VisitLog> | null = null

  const perform: Performers = {
    ...files.perform,
    now,
    sample: () => (sampleLog ??= visitLog(sample())),
    unpack: unpacked,
    logsOf: (chosen) => Promise.all(chosen.map(visitLog)),
    report: ({ visit, moments }) => calculator.report(visit, moments),
    rows: ({ filter, from, count }) => calculator.rows(filter, from, count),
    reading: (index) => calculator.reading(index),
    picture: () => calculator.picture(),
    waysToRead: ({ visit, moments, sha256, subject }) =>
      calculator.waysToRead(visit, moments, sha256, subject),
    pdf: ({ settings, nowMs }) => calculator.pdf(settings, nowMs),
  }

  /** Has an effect done; its argument is its own, which the union of all effects hides. */
  const outcomeOf = ({ does, of }: Effect) => (perform[does] as (argument: unknown) => unknown)(of)

  /** Takes a step with all its effects. A fault in one is the step's, which may have to end what it began. */
  async function take<A>(work: Work<Step<A>>): Promise<A> {
    let next = work.next()
    while (!next.done) {
      const { effect } = next.value
      state = next.value.state
      let outcome: unknown
      try {
        outcome = await outcomeOf(effect)
      } catch (fault) {
        next = work.throw(fault)
        continue
      }
      next = work.next(outcome)
    }
    state = next.value.state
    return next.value.answer
  }

  /** Takes a step once those before it are at their end. */
  function inTurn<A>(step: () => Work<Step<A>>): Promise<A> {
    const next = last.then(() => take(step()))
    last = next.catch(() => undefined)
    return next
  }

  const stepped = <C extends SteppedChannel>(channel: C) =>
    ((argument: Argument<C>) => inTurn(() => steps[channel](state, argument))) as Handlers[C]
  const makePdf = stepped('makePdf')

  return {
    ...(Object.fromEntries(
      (Object.keys(steps) as SteppedChannel[]).map((channel) => [channel, stepped(channel)]),
    ) as Pick<Handlers, SteppedChannel>),
    about: () => about,
    print: async (argument) => {
      const pages = await makePdf(argument)
      if (openPdf === null || pages.kind === 'stale') return pages
      // Out of turn: a viewer that takes its time holds nothing up.
      return { kind: (await openPdf(pages.fileName, pages.bytes)) ? 'opened' : 'not-opened' }
    },
    beginning: () => files.beginning(),
    openWith: (visitPath, logs) =>
      inTurn(() => openWith(words, state, visitPath === null ? null : placeOf(visitPath), logs)),
    tellUnopened: (problems) => void inTurn(() => tellUnopened(state, problems)),
    isEdited: () => isEdited(state),
    end: (discard) => inTurn(() => end(state, discard)),
    // These three are answered at once, whatever else is under way.
    kept: async () => notKept(words, await files.whyNotKept()),
    progress: () => calculator.progress(),
    cancel: () => {
      calculator.cancel()
      return null
    },
  }
}

/** Its hash is computed beside the program's own work: 100 MB take a while. */
async function visitLog({ name, bytes }: LogFile): Promise<VisitLog> {
  const hash = await webcrypto.subtle.digest('SHA-256', bytes)
  return { name, sha256: Buffer.from(hash).toString('hex'), bytes, answers: {} }
}
