import { setImmediate } from 'node:timers/promises'
import type { Visit } from '../src-core/visit/visit'
import { createAutosave } from './autosave'

/** Keeps a window's visit on the disk as long as it is not saved. */
export interface KeptWhileUnsaved {
  /** Writes this visit soon; of several the last one counts. `holds`: what it holds, in words. */
  keep(visit: Visit, passphrase: string | null, holds: string): void
  /** There is nothing unsaved any more. */
  forget(): void
  /** Once all is written; whether it could be. */
  settled(): Promise<boolean>
  /** Waits for what is being written, then removes it or leaves it to be recovered. */
  end(remove: boolean): Promise<void>
}

interface Wanted {
  readonly visit: Visit
  readonly passphrase: string | null
  readonly holds: string
}

/** `visitPath`: the visit's own file, null where it has none yet. */
export function keptWhileUnsaved(programFolder: string, visitPath: string | null): KeptWhileUnsaved {
  const autosave = createAutosave(programFolder, visitPath)
  let wanted: Wanted | 'nothing' | null = null
  let work: Promise<void> | null = null
  let isWritten = true

  async function write(): Promise<void> {
    // The answer to the window goes first.
    await setImmediate()
    while (wanted !== null) {
      const next = wanted
      wanted = null
      const step =
        next === 'nothing' ? autosave.remove() : autosave.keep(next.visit, next.passphrase, next.holds)
      // A full disk stops nobody from working on; saving tells of it.
      isWritten = await step.then(
        () => true,
        () => false,
      )
    }
    work = null
  }

  function want(what: typeof wanted): void {
    wanted = what
    work ??= write()
  }

  async function settled(): Promise<boolean> {
    while (work !== null) await work
    return isWritten
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
