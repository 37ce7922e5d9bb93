import type { ReportView } from '../../src-core/bridge/visitState'
import { EMPTY_VISIT, type Visit, type VisitLog } from '../../src-core/visit/visit'
import type {
  Content,
  Effect,
  EffectName,
  Effects,
  StandsThere,
  ToKeep,
  Work,
} from '../../src-core/window/effects'
import type { Lock, Opening, Place, WindowState } from '../../src-core/window/state'
import { visitLog } from './visits'

// A host of the program behind the window without a disk, a thread or a page: what it holds is a few maps.

type Host = { readonly [N in EffectName]: (...of: Parameters<Effects[N]>) => ReturnType<Effects[N]> }

export interface StoredFile extends Content {
  readonly sha256: string
  readonly what: StandsThere
}

/** What the host holds, for a test to set and to look at. */
export interface Memory {
  readonly files: Map<string, StoredFile>
  /** Paths that another program has open. */
  readonly elsewhere: Set<string>
  /** Locks held by the window. */
  readonly locks: Map<Lock, string>
  /** What the window keeps while it is not saved, and for which file. */
  kept: ToKeep | null
  keptFor: string | null
  handed: (ToKeep & { readonly name: string; readonly sha256: string }) | null
  /** What earlier programs left unsaved, by mark. */
  readonly unsaved: Map<string, { readonly opening: Opening; readonly content: Content }>
  /** What the dialogs give; null where the person chooses nothing. */
  chosen: Place | null
  /** Makes one kind of effect come out in another way. */
  readonly instead: { -readonly [N in EffectName]?: Host[N] }
  /** All effects that were asked for, in their order. */
  readonly asked: Effect[]
  /** Stores a visit as a program would that saves it. */
  store(path: string, visit: Visit, passphrase?: string | null, what?: StandsThere): StoredFile
}

export const NOON = { nowMs: Date.UTC(2026, 5, 30, 12), zone: 'Europe/Berlin' }
export const SAMPLE: VisitLog = visitLog('sample.csv', 'the sample')
/** Figures are not what the host is for: it makes none, and stops no edit. */
export const NO_FIGURES: ReportView = { kind: 'stopped', refusals: [] }

export function placeAt(name: string): Place {
  return { path: `/visits/${name}`, name, folder: '/visits' }
}

export function memoryHost(): Memory & { readonly host: Host } {
  let saves = 0
  let taken = 0
  const memory: Memory = {
    files: new Map(),
    elsewhere: new Set(),
    locks: new Map(),
    kept: null,
    keptFor: null,
    handed: null,
    unsaved: new Map(),
    chosen: null,
    instead: {},
    asked: [],
    store(path, visit, passphrase = null, what = 'visit') {
      const file = { visit, passphrase, sha256: `saved-${++saves}`, what }
      memory.files.set(path, file)
      return file
    },
  }

  function found(
    { visit, passphrase }: Content,
    given: string | null,
    sha256: string,
    openedAs: string | null,
  ) {
    if (passphrase !== null && given === null) return { kind: 'protected' as const, again: null }
    if (passphrase !== null && given !== passphrase) return { kind: 'protected' as const, again: 'wrong' }
    return { kind: 'loaded' as const, visit, damage: [], passphrase, sha256, openedAs }
  }

  const host: Host = {
    now: () => NOON,
    sample: () => SAMPLE,
    unpack: never('unpack'),
    logsOf: (files) => files.map(({ name, bytes }) => visitLog(name, bytes)),
    report: () => ({ kind: 'stopped', refusals: [] }),
    rows: never('rows'),
    reading: never('reading'),
    picture: never('picture'),
    waysToRead: never('waysToRead'),
    pdf: never('pdf'),
    chooseVisit: () => memory.chosen,
    choosePlace: () => memory.chosen,
    recent: (mark) => (memory.files.has(mark) ? placeAt(mark.replace('/visits/', '')) : null),
    unsaved: (mark) => memory.unsaved.get(mark)?.opening ?? null,
    remember: () => undefined,
    read: ({ source, passphrase }) => {
      if (source.kind === 'empty') return found({ visit: EMPTY_VISIT, passphrase: null }, null, '', null)
      if (source.kind === 'unsaved') {
        const left = [...memory.unsaved.values()].find(
          ({ opening }) => opening.source.kind === 'unsaved' && opening.source.file === source.file,
        )
        const standing = memory.files.get(source.path ?? '')
        return left === undefined
          ? { kind: 'gone' }
          : found(left.content, passphrase, 'unsaved', standing?.sha256 ?? null)
      }
      const file = source.kind === 'file' ? memory.files.get(source.path) : undefined
      return file === undefined ? { kind: 'gone' } : found(file, passphrase, file.sha256, file.sha256)
    },
    isSameFile: ([a, b]) => a === b,
    lock: (path) => {
      if (memory.elsewhere.has(path) || [...memory.locks.values()].includes(path)) return null
      memory.locks.set(++taken, path)
      return taken
    },
    release: (lock) => void memory.locks.delete(lock),
    changedOutside: ({ path, openedAs }) => {
      const file = memory.files.get(path)
      return file === undefined ? 'gone' : file.sha256 === openedAs ? null : 'changed'
    },
    kindAt: (path) => ({ kind: 'stands', what: memory.files.get(path)?.what ?? 'nothing' }),
    save: ({ path, visit, passphrase }) => ({
      kind: 'saved',
      sha256: memory.store(path, visit, passphrase).sha256,
    }),
    contentOf: () => ({ bytes: new Uint8Array([1]), sha256: `given-${++saves}` }),
    keep: (what) => void (memory.kept = what),
    forget: () => void (memory.kept = null),
    keepFor: (path) => {
      memory.kept = null
      memory.keptFor = path
    },
    isKept: () => true,
    endKept: (remove) => {
      if (remove) memory.kept = null
    },
    keepHanded: (what) => void (memory.handed = what),
    endHanded: (remove) => {
      if (remove) memory.handed = null
    },
    discard: (file) => {
      for (const [mark, { opening }] of memory.unsaved)
        if (opening.source.kind === 'unsaved' && opening.source.file === file) memory.unsaved.delete(mark)
    },
    discardHanded: () => undefined,
    removeTraces: () => ({
      folder: '/own',
      removed: { recent: 0, unsaved: 0, log: false, stillOpen: 0, stay: [] },
    }),
  }
  return Object.assign(memory, { host })
}

function never(name: string) {
  return (): never => {
    throw new Error(`${name} is not for this host`)
  }
}

/** Takes a step to its end with a host's outcomes. `onState` sees each state that stands while an effect is done. */
export function taken<T>(
  work: Work<T>,
  { host, instead, asked }: ReturnType<typeof memoryHost>,
  onState: (state: WindowState) => void = () => undefined,
): T {
  let next = work.next()
  while (!next.done) {
    const { state, effect } = next.value
    frozen(state)
    onState(state)
    asked.push(effect)
    const does = (instead[effect.does] ?? host[effect.does]) as (of: unknown) => unknown
    let outcome: unknown
    try {
      outcome = does(effect.of)
    } catch (fault) {
      next = work.throw(fault)
      continue
    }
    next = work.next(outcome)
  }
  return next.value
}

/** Freezes all of a value, so that a step that changes a state instead of making another fails. */
export function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || Object.isFrozen(value))
    return value
  Object.freeze(value)
  Object.values(value).forEach(frozen)
  return value
}
