import { useCallback, useEffect, useRef, useState } from 'react'
import type { Changed, ProgressView } from '../src-core/bridge/contract'
import type { Problem, VisitState } from '../src-core/bridge/visitState'
import type { WindowEdit } from '../src-core/bridge/windowEdit'
import { HostLost, type WindowBridge } from './bridge'
import { LogFileError } from './logFiles'
import { useProgress } from './useProgress'

const FAULT =
  'The program met a fault of its own. What was open stays as it was. Try again, or start it anew.'

const CANCELLED = 'Cancelled. The visit is as it was before.'

/** What the window waits for, in words; '' where it waits for nothing. */
export const BUSY_WORDS = {
  '': '',
  reading: 'Reading …',
  computing: 'Computing …',
  pages: 'Making the pages …',
  opening: 'Opening …',
  saving: 'Saving …',
} as const
export type Busy = keyof typeof BUSY_WORDS

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
  /** `said` is told once the edit is made. */
  readonly edit: (edit: WindowEdit, said?: string) => void
  readonly undo: () => void
  readonly redo: () => void
  /** How far the reading has come, once it takes a while. */
  readonly progress: ProgressView
  /** Stops what is being read or computed. */
  readonly cancel: () => void
  /** Looks at the visit anew. */
  readonly refresh: () => void
  /** Of the visit as it stands when this is asked. */
  readonly revision: () => number
  /** Does pieces of work one after the other; what goes wrong is told at the top of the window. */
  readonly run: (busy: Busy, does: () => Promise<string>) => void
  /** Takes a state, and what is told with it, that work of `run` was given. */
  readonly show: (state: VisitState) => void
  readonly tell: (told: Pick<Changed, 'problems' | 'notices'>) => void
}

export function useVisit(bridge: WindowBridge): VisitHold {
  const [state, setState] = useState<VisitState | null>(null)
  const [busy, setBusy] = useState<Busy>('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [fault, setFault] = useState('')
  const [notices, setNotices] = useState<readonly string[]>([])
  const [done, setDone] = useState('')
  /** The state as work in turn finds it, however many renderings later. */
  const held = useRef<VisitState | null>(null)
  const last = useRef<Promise<void>>(Promise.resolve())

  const show = useCallback((given: VisitState) => {
    // The answer to a look begun before a change may come after that of the change.
    if (held.current && given.revision < held.current.revision) return
    held.current = given
    setState(given)
  }, [])

  const run = useCallback((work: Busy, does: () => Promise<string>) => {
    last.current = last.current.then(async () => {
      setBusy(work)
      setFault('')
      setProblems([])
      setNotices([])
      setDone('')
      try {
        setDone(await does())
      } catch (error) {
        setFault(faultSentence(error))
      } finally {
        setBusy('')
      }
    })
  }, [])

  const refresh = useCallback(() => {
    bridge.show(null).then(show, (error: unknown) => setFault(faultSentence(error)))
  }, [bridge, show])
  useEffect(refresh, [refresh])
  // Another window, or a file that the desktop opens, may have changed it meanwhile.
  useEffect(() => {
    window.addEventListener('focus', refresh)
    return () => window.removeEventListener('focus', refresh)
  }, [refresh])

  function tell({ problems, notices }: Pick<Changed, 'problems' | 'notices'>) {
    setProblems(problems)
    setNotices(notices)
  }

  function change(
    work: Busy,
    ask: (revision: number) => Promise<Changed>,
    said: (changed: Changed, before: VisitState | null) => string,
  ) {
    run(work, async () => {
      const before = held.current
      const changed = await ask(before?.revision ?? 0)
      show(changed.state)
      tell(changed)
      if (changed.cancelled) return CANCELLED
      return changed.problems.length > 0 ? '' : said(changed, before)
    })
  }

  const { progress, cancel } = useProgress(
    bridge,
    state === null || busy === 'reading' || busy === 'computing',
  )

  const read = ({ state: { report } }: Changed) => (report.kind === 'opened' ? `Read: ${report.extent}.` : '')
  return {
    state,
    busy,
    problems,
    fault,
    notices,
    done,
    revision: () => held.current?.revision ?? 0,
    add: (files) => {
      if (files.length === 0) return
      change('reading', () => bridge.addFiles(files), read)
    },
    addSample: () => change('reading', () => bridge.addSample(null), read),
    edit: (edit, said = '') =>
      change(
        'computing',
        (revision) => bridge.edit({ revision, edit }),
        (changed) => said || read(changed),
      ),
    undo: () =>
      change(
        'computing',
        (revision) => bridge.undo({ revision }),
        (_, before) => (before?.visit.undo ? `Undone: ${before.visit.undo}.` : 'Nothing to undo.'),
      ),
    redo: () =>
      change(
        'computing',
        (revision) => bridge.redo({ revision }),
        (_, before) => (before?.visit.redo ? `Done again: ${before.visit.redo}.` : 'Nothing to do again.'),
      ),
    progress,
    cancel,
    refresh,
    run,
    show,
    tell,
  }
}

export function faultSentence(error: unknown): string {
  return error instanceof LogFileError || error instanceof HostLost ? error.message : FAULT
}
