import type { AskedOfPerson } from '../model/askedOfPerson'

/** The file of the visit, as the window shows it. */
export interface FileView {
  /** 'thursday.visit'; null where the visit has no file yet. */
  readonly name: string | null
  /** The folder in which it stands; null where it has no place on this computer that the program knows. */
  readonly folder: string | null
  readonly isProtected: boolean
  /** Whether protection was set or taken away since the last save. */
  readonly protectionChanged: boolean
  /** Whether something is not saved. */
  readonly edited: boolean
  /** Whether the program has dialogs of its own for files; else the browser takes and gives them. */
  readonly hasDialogs: boolean
  /** What stays to be known as long as the visit is open: damage, another window that has it. */
  readonly cautions: readonly string[]
  readonly asked: AskedOfPerson | null
}

/** What there is to begin with besides logs. */
export interface BeginningView {
  readonly recent: readonly RecentView[]
  readonly unsaved: readonly UnsavedView[]
}

export interface RecentView {
  /** What a request names it by. */
  readonly mark: string
  readonly name: string
  readonly folder: string
}

/** A visit that a program left unsaved when it ended. */
export interface UnsavedView {
  readonly mark: string
  /** Null where it never had a file. */
  readonly name: string | null
  /** '2026-11-25 18:03'. */
  readonly when: string
  /** Whether the browser was given it to save, and nobody knows whether it did. */
  readonly handed: boolean
  readonly isProtected: boolean
  /** Its days and logs, in words; '' of a protected one, which tells nothing. */
  readonly holds: string
}
