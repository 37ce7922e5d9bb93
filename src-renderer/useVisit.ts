import { useCallback, useEffect, useRef, useState } from 'react'
import type { Changed, ProgressView } from '../src-core/bridge/contract'
import type { Problem, VisitState } from '../src-core/bridge/visitState'
import type { WindowEdit } from '../src-core/bridge/windowEdit'
import { HostLost, type WindowBridge } from './bridge'
import { LogFileError } from './logFiles'
import { useProgress } from './useProgress'
import { useWords } from './words'
import type { WindowWords } from '../src-core/wording/words'

/** What the window waits for; '' where it waits for nothing. */
export type Busy = keyof WindowWords['windowWork']['BUSY']

/** How a piece of work is done. */
interface WorkOptions {
  /** Not where something before it, still unseen by the person, was not done. */
  readonly onlyAfterAll?: boolean
  /** Also where another visit has come into the window since it was asked for. */
  readonly ofAnyVisit?: boolean
}

/** The visit as this window knows it, and the ways to change it. */
export interface VisitHold {
  /** Null until the program behind the window has answered. */
  readonly state: VisitState | null
  readonly busy: Busy
  readonly problems: readonly Problem[]
  readonly fault: string
  /** What the person should know of what has just been done. */
  readonly notices: readonly string[]
  /** What has just been done, for a screen reader too. */
  readonly done: string
  readonly add: (files: readonly File[]) => void
  readonly addSample: () => void
  /** `said` is told once the edit is made; gives whether it was. */
  readonly edit: (edit: WindowEdit, said?: string) => Promise<boolean>
  readonly undo: () => void
  readonly redo: () => void
  /** How far the reading has come, once it takes a while. */
  readonly progress: ProgressView
  /** Stops what is being read or computed. */
  readonly cancel: () => void
  /** Looks at the visit anew. */
  readonly refresh: () => void
  /** The visit as it stands when this is asked, however many renderings later. */
  readonly now: () => VisitState | null
  /**
   * Does pieces of work one after the other; what goes wrong is told at the top of the window. The work gives what is
   * told once it is done, null where it was not done; this gives whether it was.
   */
  readonly run: (busy: Busy, does: () => Promise<string | null>, options?: WorkOptions) => Promise<boolean>
  /** Takes a state, and what is told with it, that work of `run` was given. */
  readonly show: (state: VisitState) => void
  readonly tell: (told: Told) => void
}

type Told = Pick<Changed, 'problems' | 'notices'> & Partial<Pick<Changed, 'cancelled'>>

/** Work that was asked for before the person could see what came of the work before it. */
interface Queue {
  pending: number
  /** Whether all of it so far was done. */
  allDone: boolean
  last: Promise<unknown>
}

export function useVisit(bridge: WindowBridge): VisitHold {
  const words = useWords()
  const { windowWork } = words
  const [state, setState] = useState<VisitState | null>(null)
  const [busy, setBusy] = useState<Busy>('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [fault, setFault] = useState('')
  const [notices, setNotices] = useState<readonly string[]>([])
  const [done, setDone] = useState('')
  const held = useRef<VisitState | null>(null)
  const queue = useRef<Queue>({ pending: 0, allDone: true, last: Promise.resolve() })

  const show = useCallback((given: VisitState) => {
    // The answer to a look begun before a change may come after that of the change.
    if (held.current && given.revision < held.current.revision) return
    held.current = given
    setState(given)
  }, [])

  const run = useCallback(
    (work: Busy, does: () => Promise<string | null>, options: WorkOptions = {}): Promise<boolean> => {
      const waiting = queue.current
      const { onlyAfterAll = false, ofAnyVisit = false } = options
      const of = held.current?.visitNumber
      if (waiting.pending++ === 0) {
        waiting.allDone = true
        setBusy(work)
      }
      async function take(): Promise<boolean> {
        setBusy(work)
        // What went wrong stays told until the person has seen it.
        if (waiting.allDone) {
          setFault('')
          setProblems([])
          setNotices([])
        }
        setDone('')
        let said: string | null = null
        try {
          if (onlyAfterAll && !waiting.allDone) setDone(windowWork.NOT_GONE_ON)
          else if (!ofAnyVisit && held.current?.visitNumber !== of) {
            setProblems((before) => [...before, { about: null, message: windowWork.OTHER_VISIT }])
          } else said = await does()
          if (said !== null) setDone(said)
        } catch (error) {
          setFault(faultSentence(words, error))
        }
        if (said === null) waiting.allDone = false
        if (--waiting.pending === 0) setBusy('')
        return said !== null
      }
      const taken = waiting.last.then(take)
      waiting.last = taken
      return taken
    },
    [words, windowWork],
  )

  const refresh = useCallback(() => {
    bridge.show(null).then(show, (error: unknown) => setFault(faultSentence(words, error)))
  }, [bridge, show, words])
  useEffect(refresh, [refresh])
  // Another window, or a file that the desktop opens, may have changed it meanwhile.
  useEffect(() => {
    window.addEventListener('focus', refresh)
    return () => window.removeEventListener('focus', refresh)
  }, [refresh])

  function tell({ problems, notices, cancelled }: Told) {
    setProblems((before) => [...before, ...problems])
    setNotices((before) => [...before, ...notices])
    if (cancelled) setDone(windowWork.CANCELLED)
  }

  function change(
    work: Busy,
    ask: (revision: number) => Promise<Changed>,
    said: (changed: Changed, before: VisitState | null) => string,
    options?: WorkOptions,
  ): Promise<boolean> {
    return run(
      work,
      async () => {
        const before = held.current
        const changed = await ask(before?.revision ?? 0)
        show(changed.state)
        tell(changed)
        return changed.cancelled || changed.problems.length > 0 ? null : said(changed, before)
      },
      options,
    )
  }

  const { progress, cancel } = useProgress(
    bridge,
    state === null || busy === 'reading' || busy === 'computing',
  )

  const read = ({ state: { report } }: Changed) =>
    report.kind === 'opened' ? windowWork.readText(report.extent) : ''
  const OF_ANY = { ofAnyVisit: true } as const
  return {
    state,
    busy,
    problems,
    fault,
    notices,
    done,
    now: () => held.current,
    add: (files) => {
      if (files.length > 0) void change('reading', () => bridge.addFiles(files), read, OF_ANY)
    },
    addSample: () => void change('reading', () => bridge.addSample(null), read, OF_ANY),
    edit: (edit, said = '') =>
      change(
        'computing',
        (revision) => bridge.edit({ revision, edit }),
        (changed) => said || read(changed),
      ),
    undo: () =>
      void change(
        'computing',
        (revision) => bridge.undo({ revision }),
        (_, before) =>
          before?.visit.undo ? windowWork.undoneText(before.visit.undo) : windowWork.NOTHING_TO_UNDO,
      ),
    redo: () =>
      void change(
        'computing',
        (revision) => bridge.redo({ revision }),
        (_, before) =>
          before?.visit.redo ? windowWork.redoneText(before.visit.redo) : windowWork.NOTHING_TO_REDO,
      ),
    progress,
    cancel,
    refresh,
    run,
    show,
    tell,
  }
}

export function faultSentence({ windowWork }: WindowWords, error: unknown): string {
  if (error instanceof LogFileError) return error.message
  if (!(error instanceof HostLost)) return windowWork.FAULT
  return error.why === 'ended' ? windowWork.HOST_ENDED : windowWork.NOT_LET_IN
}
