import type { BeginningView } from '../../src-core/bridge/fileView'
import type { NotWritten } from '../../src-core/model/notWritten'
import type { EffectName, Failed, Performers } from '../../src-core/window/effects'
import type { Lock } from '../../src-core/window/state'
import { discardHanded, discardUnsaved, unsavedVisits } from './autosave'
import { BYTE_TOOLS } from '../files/byteTools'
import { keptWhileUnsaved, type KeptWhileUnsaved } from './keptWhileUnsaved'
import { markOf, openingOfUnsaved, placeOf, read } from './opening'
import { recentVisits, rememberVisit } from './recentVisits'
import { removeTraces } from './traces'
import { lockVisit, type Release } from '../files/visitLock'
import { changedOutside, fileContent, saveVisit } from '../files/visitStore'
import { isSameFile, kindAt, WriteFailed } from '../files/writeFiles'
import type { Words } from '../../src-core/wording/words'

/** What effects on files work with. */
export interface FileTools {
  /** Where the program keeps what is its own. */
  readonly programFolder: string
  /** Null where the program has no dialogs of its own, in the browser. */
  readonly dialogs: FileDialogs | null
  /** 'YYYY-MM-DD HH:MM' by the computer's own clock. */
  readonly minuteOf: (ms: number) => string
}

/** Dialogs of the desktop; each gives a path, null where the person chose none. */
export interface FileDialogs {
  openVisit(): Promise<string | null>
  saveVisit(name: string): Promise<string | null>
}

/** Effects on the disk and in the desktop's dialogs. */
type FileEffect = Exclude<
  EffectName,
  'now' | 'sample' | 'unpack' | 'logsOf' | 'report' | 'rows' | 'reading' | 'picture' | 'waysToRead' | 'pdf'
>

export interface FileEffects {
  readonly perform: Pick<Performers, FileEffect>
  /** What there is to begin with. */
  beginning(): Promise<BeginningView>
  /** Once what is not saved was written: why it could not be kept; null where it is or all is saved. */
  whyNotKept(): Promise<NotWritten | 'unknown' | null>
}

/** The effects on files of one window, with what they hold: its locks, and what it keeps while it is not saved. */
export function fileEffects(words: Words, { programFolder, dialogs, minuteOf }: FileTools): FileEffects {
  const locks = new Map<Lock, Release>()
  let locksTaken = 0
  let kept = keptWhileUnsaved(programFolder, null)
  let handed: KeptWhileUnsaved | null = null

  const place = (path: string | null | undefined) => (typeof path === 'string' ? placeOf(path) : null)

  async function unsaved(mark: string) {
    return (await unsavedVisits(programFolder)).find(({ file }) => markOf(file) === mark)
  }

  return {
    perform: {
      chooseVisit: async () => place(await dialogs?.openVisit()),
      choosePlace: async (name) => place(await dialogs?.saveVisit(name)),
      recent: async (mark) =>
        place((await recentVisits(programFolder)).find((path) => markOf(path) === mark)),
      unsaved: async (mark) => {
        const found = await unsaved(mark)
        return found === undefined ? null : openingOfUnsaved(found)
      },
      remember: (path) => rememberVisit(path, programFolder),
      read: ({ source, passphrase }) => read(words, source, passphrase),
      isSameFile: ([a, b]) => isSameFile(a, b),
      lock: async (path) => {
        const release = await lockVisit(path)
        if (release === null) return null
        const lock = ++locksTaken
        locks.set(lock, release)
        return lock
      },
      release: async (lock) => {
        await locks.get(lock)?.()
        locks.delete(lock)
      },
      changedOutside: ({ path, openedAs }) => changedOutside(path, openedAs),
      kindAt: (path) => orFailed(() => ({ kind: 'stands', what: kindAt(path) })),
      save: (order) => orFailed(async () => ({ kind: 'saved', sha256: await saveVisit(order) })),
      contentOf: async ({ visit, passphrase }) => {
        const bytes = new TextEncoder().encode(await fileContent(visit, passphrase))
        return { bytes, sha256: BYTE_TOOLS.sha256(bytes) }
      },
      keep: ({ visit, passphrase, holds }) => kept.keep(visit, passphrase, holds),
      forget: () => kept.forget(),
      keepFor: async (path) => {
        await kept.end(true)
        kept = keptWhileUnsaved(programFolder, path)
      },
      isKept: async () => (await kept.settled()) === null,
      endKept: (remove) => kept.end(remove),
      keepHanded: async ({ visit, passphrase, holds, name, sha256 }) => {
        const next = keptWhileUnsaved(programFolder, null, { name, sha256 })
        next.keep(visit, passphrase, holds)
        await next.settled()
        await handed?.end(true)
        handed = next
      },
      endHanded: async (remove) => handed?.end(remove),
      discard: (file) => discardUnsaved(file),
      discardHanded: (sha256) => discardHanded(programFolder, sha256),
      removeTraces: async () => ({ folder: programFolder, removed: await removeTraces(programFolder) }),
    },
    beginning: async () => ({
      recent: (await recentVisits(programFolder)).map((path) => {
        const { name, folder } = placeOf(path)
        return { mark: markOf(path), name, folder }
      }),
      unsaved: (await unsavedVisits(programFolder)).map((one) => ({
        mark: markOf(one.file),
        name: openingOfUnsaved(one).name,
        handed: one.handed !== null,
        when: minuteOf(one.keptAtMs),
        isProtected: one.isProtected,
        holds: one.holds,
      })),
    }),
    whyNotKept: () => kept.settled(),
  }
}

/** A file that cannot be written is an outcome, any other error is a fault. */
async function orFailed<T>(does: () => T | Promise<T>): Promise<T | Failed> {
  try {
    return await does()
  } catch (error) {
    if (!(error instanceof WriteFailed)) throw error
    return { kind: 'failed', fault: error.fault }
  }
}
