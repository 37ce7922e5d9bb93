import { basename, dirname, resolve } from 'node:path'
import { visitFileName } from '../../src-core/bridge/fileNames'
import type { Problem } from '../../src-core/bridge/visitState'
import type { FileRequest } from '../../src-core/bridge/fileRequest'
import type { AskedOfPerson, BeginningView, FileView } from '../../src-core/bridge/fileView'
import { EMPTY_VISIT, type Visit } from '../../src-core/visit/visit'
import { removedTracesText } from '../../src-core/wording/traces'
import * as WORDS from '../../src-core/wording/visitWindow'
import { discardHanded, discardUnsaved, unsavedVisits } from './autosave'
import { BYTE_TOOLS } from '../files/byteTools'
import type { FileKind } from '../files/fileKind'
import { keptWhileUnsaved, type KeptWhileUnsaved } from './keptWhileUnsaved'
import { markOf, type Opening, openingEmpty, openingOfFile, openingOfUnsaved, read } from './opening'
import { recentVisits, rememberVisit } from './recentVisits'
import { removeTraces } from './traces'
import { lockVisit, type Release } from '../files/visitLock'
import { changedOutside, fileContent, type LoadedVisit, saveVisit } from '../files/visitStore'
import { isSameFile, kindAt, WriteFailed } from '../files/writeFiles'

/** What the keeping of a visit's file works with. */
export interface FileTools {
  /** Where the program keeps what is its own. */
  readonly programFolder: string
  /** Null where the program has no dialogs of its own, in the browser. */
  readonly dialogs: FileDialogs | null
  /** 'YYYY-MM-DD HH:MM' by the computer's own clock. */
  readonly minuteOf: (ms: number) => string
  /** The zone that a saved visit names where it names none. */
  readonly zone: () => string
}

/** Dialogs of the desktop; each gives a path, null where the person chose none. */
export interface FileDialogs {
  openVisit(): Promise<string | null>
  saveVisit(name: string): Promise<string | null>
}

/** The visit of the window, as its keeper sees it. */
export interface Held {
  visit(): Visit
  /** Its days in words; null where its logs are not read. */
  days(): string | null
  /** Puts another visit in its place; what cannot be, and why. */
  replace(visit: Visit): Promise<readonly Problem[]>
}

/** What came of a request; `download` is for the browser to save. */
export interface FileDone {
  readonly problems: readonly Problem[]
  readonly said: string
  /** What should be known besides. */
  readonly notices: readonly string[]
  readonly download: { readonly fileName: string; readonly bytes: Uint8Array<ArrayBuffer> } | null
}

/** Keeps the file of one window's visit: opens, saves and protects it, and what is not saved. */
export interface Keeping {
  view(): FileView
  beginning(): Promise<BeginningView>
  /** After every change of the visit. */
  changed(): void
  /** Once what is not saved was written: why it could not be kept, '' where it is or all is saved. */
  kept(): Promise<string>
  /** Opens a visit; what must be asked before is asked. */
  open(opening: Opening): Promise<FileDone>
  request(request: FileRequest): Promise<FileDone>
  /** Ends it. What is not saved stays to be recovered, unless it is meant to go. */
  end(discard: boolean): Promise<void>
}

type Loaded = Extract<LoadedVisit, { kind: 'loaded' }>

/** An opening on its way: what was answered so far, and what it holds. */
interface Pending {
  readonly opening: Opening
  readonly unsavedMayGo: boolean
  readonly elsewhereIsFine: boolean
  readonly passphrase: string | null
  /** How many passphrases were tried. */
  readonly tries: number
}

interface Standing {
  readonly path: string | null
  readonly name: string | null
  /** SHA-256 of the file as this window knows it. */
  readonly openedAs: string | null
  /** SHA-256 of the file when it was opened with damage; null where it was sound. */
  readonly damagedAs: string | null
  readonly release: Release
  readonly cautions: readonly string[]
}

/** What may not be saved over unasked where it was not opened here. */
const KEPT_UNLESS_ASKED: ReadonlySet<FileKind> = new Set(['visit', 'output', 'other'])

const NOTHING: FileDone = { problems: [], said: '', notices: [], download: null }
const NOWHERE: Standing = {
  path: null,
  name: null,
  openedAs: null,
  damagedAs: null,
  release: () => Promise.resolve(),
  cautions: [],
}

export function createKeeping(tools: FileTools, held: Held): Keeping {
  const { programFolder, dialogs } = tools
  let standing = NOWHERE
  let passphrase: string | null = null
  let saved: { readonly visit: Visit | null; readonly passphrase: string | null } = {
    visit: EMPTY_VISIT,
    passphrase: null,
  }
  let asked: AskedOfPerson | null = null
  let pending: Pending | null = null
  /** Where the visit is to be saved, while it is asked whether what stands there may go. */
  let toReplace: string | null = null
  let kept: KeptWhileUnsaved = keptWhileUnsaved(programFolder, null)
  /** What the browser was given last: kept, for it may not have saved it. */
  let handed: { readonly kept: KeptWhileUnsaved; readonly sha256: string } | null = null

  const isEdited = () => held.visit() !== saved.visit || passphrase !== saved.passphrase
  const ask = (what: AskedOfPerson): FileDone => {
    asked = what
    return NOTHING
  }
  const said = (text: string, ...notices: readonly string[]): FileDone => ({
    ...NOTHING,
    said: text,
    notices,
  })
  const problem = (about: string | null, message: string): FileDone => ({
    ...NOTHING,
    problems: [{ about, message }],
  })

  function changed(): void {
    if (isEdited()) kept.keep(held.visit(), passphrase, holds())
    else kept.forget()
  }

  function holds(): string {
    const { logs, typed, decisions } = held.visit()
    const names = logs.map(({ name }) => name)
    return WORDS.holdsText(held.days(), names, typed.length, decisions.length)
  }

  /** Goes on with an opening as far as it can without asking. */
  async function goOn(next: Pending): Promise<FileDone> {
    const { opening } = next
    asked = null
    pending = next
    if (isEdited() && !next.unsavedMayGo) return ask({ kind: 'unsaved', next: opening.name })
    const name = opening.name ?? ''
    const found = await read(opening, next.passphrase)
    if (found.kind === 'protected')
      return ask({ kind: 'passphrase', name, again: found.again, tries: next.tries })
    if (found.kind === 'refused') {
      pending = null
      return problem(opening.name, found.message)
    }
    const { path } = opening
    const isOwn = path !== null && standing.path !== null && isSameFile(path, standing.path)
    const release = path === null || isOwn ? standing.release : await lockVisit(path)
    if (release === null && !next.elsewhereIsFine) return ask({ kind: 'open-elsewhere', name })
    pending = null
    return take(opening, found, { release, isOwn })
  }

  async function take(
    opening: Opening,
    loaded: Loaded,
    lock: { readonly release: Release | null; readonly isOwn: boolean },
  ): Promise<FileDone> {
    const { path, name } = opening
    const problems = await held.replace(loaded.visit)
    if (problems.length > 0) {
      if (!lock.isOwn && path !== null) await lock.release?.()
      return { ...NOTHING, problems }
    }
    await kept.end(true)
    await handed?.kept.end(handed.sha256 === loaded.sha256)
    handed = null
    await discardHanded(programFolder, loaded.sha256)
    if (!lock.isOwn) await standing.release()
    const release = path === null ? NOWHERE.release : (lock.release ?? NOWHERE.release)
    const cautions = [...loaded.damage, ...(lock.release === null ? [WORDS.OPEN_ELSEWHERE] : [])]
    const damagedAs = loaded.damage.length > 0 && opening.unsavedFile === null ? loaded.sha256 : null
    standing = { path, name, openedAs: opening.openedAs(loaded), damagedAs, release, cautions }
    passphrase = loaded.passphrase
    saved = { visit: opening.unsavedFile === null ? loaded.visit : null, passphrase }
    kept = keptWhileUnsaved(programFolder, path)
    changed()
    if (path !== null) await rememberVisit(path, programFolder)
    if (opening.unsavedFile !== null) {
      // Only when this window keeps it may the one that it was recovered from go.
      if ((await kept.settled()) === null) await discardUnsaved(opening.unsavedFile)
      return said(WORDS.recoveredText)
    }
    return name === null ? NOTHING : said(WORDS.openedText(name))
  }

  async function save(as: boolean, overOther = false): Promise<FileDone> {
    asked = null
    const name = standing.name ?? visitFileName(held.visit().label)
    if (dialogs === null && (as || standing.path === null)) return handOver(name)
    const path = !as && standing.path !== null ? standing.path : ((await dialogs?.saveVisit(name)) ?? null)
    return path === null ? NOTHING : saveAt(resolve(path), overOther)
  }

  /** For the browser to save; nobody knows where it does. */
  async function handOver(name: string): Promise<FileDone> {
    const visit = held.visit()
    const content = await fileContent(withZone(visit), passphrase)
    const bytes = new TextEncoder().encode(content)
    // A copy of a visit that has its place is no save of it.
    if (standing.path === null) {
      const sha256 = BYTE_TOOLS.sha256(bytes)
      const next = keptWhileUnsaved(programFolder, null, { name, sha256 })
      next.keep(visit, passphrase, holds())
      await next.settled()
      await handed?.kept.end(true)
      handed = { kept: next, sha256 }
      saved = { visit, passphrase }
      standing = { ...standing, name }
      changed()
    }
    return { ...NOTHING, said: WORDS.handedText(name), download: { fileName: name, bytes } }
  }

  async function saveAt(path: string, overOther: boolean): Promise<FileDone> {
    const name = basename(path)
    const isOwn = standing.path !== null && isSameFile(path, standing.path)
    const openedAs = isOwn && !overOther ? standing.openedAs : null
    const damagedAs = isOwn ? standing.damagedAs : null
    const other = openedAs === null ? null : changedOutside(path, openedAs)
    if (other !== null) return ask({ kind: `${other}-outside`, name })
    const release = isOwn ? standing.release : await lockVisit(path)
    if (release === null) return problem(name, WORDS.OPEN_ELSEWHERE)
    const visit = held.visit()
    let sha256: string
    try {
      const kind = kindAt(path)
      if (openedAs === null && !overOther && KEPT_UNLESS_ASKED.has(kind)) {
        if (!isOwn) await release()
        toReplace = path
        return ask({ kind: 'other-stands', name, isVisit: kind === 'visit' })
      }
      const sparesOthers = !overOther
      sha256 = await saveVisit({
        path,
        visit: withZone(visit),
        passphrase,
        openedAs,
        damagedAs,
        sparesOthers,
      })
    } catch (error) {
      if (!isOwn) await release()
      if (!(error instanceof WriteFailed)) throw error
      return problem(null, error.message)
    }
    saved = { visit, passphrase }
    await kept.end(true)
    kept = keptWhileUnsaved(programFolder, path)
    if (!isOwn) await standing.release()
    standing = { path, name, openedAs: sha256, damagedAs, release, cautions: isOwn ? standing.cautions : [] }
    changed()
    await rememberVisit(path, programFolder)
    return said(WORDS.savedText(name, passphrase !== null))
  }

  const withZone = (visit: Visit): Visit => ({ ...visit, zone: visit.zone ?? tools.zone() })

  async function recent(mark: string): Promise<FileDone> {
    const path = (await recentVisits(programFolder)).find((one) => markOf(one) === mark)
    return path === undefined ? problem(null, WORDS.GONE) : open(openingOfFile(path))
  }

  async function unsaved(mark: string) {
    return (await unsavedVisits(programFolder)).find(({ file }) => markOf(file) === mark)
  }

  async function recover(mark: string): Promise<FileDone> {
    const found = await unsaved(mark)
    return found === undefined ? problem(null, WORDS.GONE) : open(openingOfUnsaved(found))
  }

  async function discard(mark: string): Promise<FileDone> {
    const found = await unsaved(mark)
    if (found !== undefined) await discardUnsaved(found.file)
    return said(WORDS.DISCARDED)
  }

  function protect(wanted: string | null): FileDone {
    passphrase = wanted
    changed()
    return said(wanted === null ? WORDS.UNPROTECT_NEXT : WORDS.PROTECT_NEXT)
  }

  /** What was asked may be done. */
  async function answered(): Promise<FileDone> {
    const what = asked
    asked = null
    switch (what?.kind) {
      case 'changed-outside':
      case 'gone-outside':
        return saveFirst(() => save(false, true))
      case 'other-stands': {
        const path = toReplace
        return path === null ? NOTHING : saveFirst(() => saveAt(path, true))
      }
      case 'remove-traces':
        return said(...removedTracesText(programFolder, await removeTraces(programFolder)))
      case 'unsaved':
        return pending ? goOn({ ...pending, unsavedMayGo: true }) : NOTHING
      case 'open-elsewhere':
        return pending ? goOn({ ...pending, elsewhereIsFine: true }) : NOTHING
      case 'passphrase':
      case undefined:
        return NOTHING
    }
  }

  /** Saves, then goes on with what waited for it. */
  async function saveFirst(saving: () => Promise<FileDone>): Promise<FileDone> {
    const next = pending
    const done = await saving()
    if (next === null || isEdited()) return done
    const opened = await goOn(next)
    return { ...opened, download: done.download, said: `${done.said} ${opened.said}`.trim() }
  }

  function open(opening: Opening): Promise<FileDone> {
    return goOn({ opening, unsavedMayGo: false, elsewhereIsFine: false, passphrase: null, tries: 0 })
  }

  async function request(wanted: FileRequest): Promise<FileDone> {
    switch (wanted.does) {
      case 'begin':
        return open(openingEmpty())
      case 'choose': {
        const path = (await dialogs?.openVisit()) ?? null
        return path === null ? NOTHING : open(openingOfFile(path))
      }
      case 'open-recent':
        return recent(wanted.mark)
      case 'recover':
        return recover(wanted.mark)
      case 'discard':
        return discard(wanted.mark)
      case 'save':
      case 'save-as':
        pending = null
        return save(wanted.does === 'save-as')
      case 'protect':
        return protect(wanted.passphrase)
      case 'remove-traces':
        return ask({ kind: 'remove-traces' })
      case 'cancel':
        asked = null
        pending = null
        return NOTHING
      case 'go-on':
        return answered()
      case 'save-first':
        return saveFirst(() => save(false))
      case 'open-with':
        return pending
          ? goOn({ ...pending, passphrase: wanted.passphrase, tries: pending.tries + 1 })
          : NOTHING
    }
  }

  return {
    view: () => ({
      name: standing.name,
      folder: standing.path && dirname(standing.path),
      isProtected: passphrase !== null,
      protectionChanged: passphrase !== saved.passphrase,
      edited: isEdited(),
      hasDialogs: dialogs !== null,
      cautions: standing.cautions,
      asked,
    }),
    beginning: async () => ({
      recent: (await recentVisits(programFolder)).map((path) => ({
        mark: markOf(path),
        name: basename(path),
        folder: dirname(path),
      })),
      unsaved: (await unsavedVisits(programFolder)).map((one) => ({
        mark: markOf(one.file),
        name: openingOfUnsaved(one).name,
        handed: one.handed !== null,
        when: tools.minuteOf(one.keptAtMs),
        isProtected: one.isProtected,
        holds: one.holds,
      })),
    }),
    changed,
    kept: async () => {
      const why = await kept.settled()
      return why === null ? '' : WORDS.notKeptText(why)
    },
    open,
    request,
    end: async (discard) => {
      await kept.end(discard || !isEdited())
      // What is left edited holds all that the browser was given.
      await handed?.kept.end(discard || isEdited())
      await standing.release()
    },
  }
}
