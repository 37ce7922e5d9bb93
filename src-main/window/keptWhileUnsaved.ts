import { setImmediate } from 'node:timers/promises'
import type { Visit } from '../../src-core/visit/visit'
import { createAutosave, type Handed } from './autosave'
import { WriteFailed } from '../files/writeFiles'
import type { NotWritten } from '../../src-core/model/notWritten'

/** Keeps a window's visit on the disk as long as it is not saved. */
export interface KeptWhileUnsaved {
  /** Writes this visit soon; of several the last one counts. `holds`: what it holds, in words. */
  keep(visit: Visit, passphrase: string | null, holds: string): void
  /** There is nothing unsaved any more. */
  forget(): void
  /** Once all is written: why the last could not be, null where it could. */
  settled(): Promise<NotWritten | 'unknown' | null>
  /** Waits for what is being written, then removes it or leaves it to be recovered. */
  end(remove: boolean): Promise<void>
}

interface Wanted {
  readonly visit: Visit
  readonly passphrase: string | null
  readonly holds: string
}

/** `visitPath`: the visit's own file, null where it has none yet; `handed`: as what the browser was given it. */
export function keptWhileUnsaved(
  programFolder: string,
  visitPath: string | null,
  handed: Handed | null = null,
): KeptWhileUnsaved {
  const autosave = createAutosave(programFolder, visitPath, handed)
  let wanted: Wanted | 'nothing' | null = null
  let work: Promise<void> | null = null
  let fault: NotWritten | 'unknown' | null = null

  async function write(): Promise<void> {
    // The answer to the window goes first.
    await setImmediate()
    while (wanted !== null) {
      const next = wanted
      wanted = null
      // A full disk stops nobody from working on; the window tells of it.
      fault = await (
        next === 'nothing' ? autosave.remove() : autosave.keep(next.visit, next.passphrase, next.holds)
      ).then(
        () => null,
        (error: unknown) =>
          next === 'nothing' ? null : error instanceof WriteFailed ? error.fault : 'unknown',
      )
    }
    work = null
  }

  function want(what: typeof wanted): void {
    wanted = what
    work ??= write()
  }

  async function settled(): Promise<NotWritten | 'unknown' | null> {
    while (work !== null) await work
    return fault
  }

  return {
    keep: (visit, passphrase, holds) => want({ visit, passphrase, holds }),
    forget: () => want('nothing'),
    settled,
    end: async (remove) => {
      if (remove) want('nothing')
      await settled()
    },
  }
}
