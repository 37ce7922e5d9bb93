import type { Problem } from '../../src-core/bridge/visitState'
import { filesNamed } from '../command/filesNamed'
import type { FileDialogs } from '../window/fileEffects'
import type { VisitService } from '../window/visitService'
import type { Words } from '../../src-core/wording/words'

/** The part of Electron's dialogs that is used. */
export interface Dialogs<W> {
  showOpenDialog(window: W, options: object): Promise<{ canceled: boolean; filePaths: string[] }>
  showSaveDialog(window: W, options: object): Promise<{ canceled: boolean; filePath: string }>
  showMessageBox(window: W, options: object): Promise<{ response: number }>
}

/** The part of Electron's window that is used. */
interface ClosingWindow {
  on(event: 'close', listener: (event: { preventDefault(): void }) => void): unknown
  destroy(): void
}

/** The desktop's own dialogs for the file of a visit. */
export function fileDialogs<W>({ desktop }: Words, dialog: Dialogs<W>, window: W): FileDialogs {
  const { FILE_KINDS } = desktop
  const visits = { name: FILE_KINDS.visit, extensions: ['visit'] }
  return {
    openVisit: async () => {
      const filters = [visits, { name: FILE_KINDS.all, extensions: ['*'] }]
      const { canceled, filePaths } = await dialog.showOpenDialog(window, {
        properties: ['openFile'],
        filters,
      })
      return canceled ? null : (filePaths.at(0) ?? null)
    },
    saveVisit: async (defaultPath) => {
      const { canceled, filePath } = await dialog.showSaveDialog(window, {
        defaultPath,
        filters: [visits],
      })
      return canceled || filePath === '' ? null : filePath
    },
  }
}

/** Asks before a window closes whose visit is not saved. A visit that is saved, or meant to go, leaves nothing behind. */
export function guardClosing<W extends ClosingWindow>(
  words: Words,
  window: W,
  service: VisitService,
  dialog: Dialogs<W>,
): void {
  let asking = false
  async function close(): Promise<void> {
    if (service.isEdited()) {
      const { SAVE, GO, STAY } = words.visitWindow.CLOSING.buttons
      const { response } = await dialog.showMessageBox(window, {
        type: 'warning',
        message: words.visitWindow.CLOSING.message,
        detail: words.visitWindow.CLOSING.detail,
        buttons: [SAVE, GO, STAY],
        defaultId: 0,
        cancelId: 2,
        noLink: true,
      })
      if (response === 2) return
      if (response === 0) {
        await service.file({ does: 'save' })
        // What stopped the saving stands in the window now.
        if (service.isEdited()) return
      }
    }
    await service.end(true)
    window.destroy()
  }
  window.on('close', (event) => {
    event.preventDefault()
    if (asking) return
    asking = true
    void close().finally(() => {
      asking = false
    })
  })
}

/** Opens files that the desktop names; what could not be opened is told by `tell`. */
export async function openNamed(
  words: Words,
  service: VisitService,
  paths: readonly string[],
  tell: (problems: readonly Problem[]) => void,
): Promise<void> {
  if (paths.length === 0) return
  const { visitPath, logs, problems } = filesNamed(words, paths)
  const all = [...problems, ...(await service.openWith(visitPath, logs))]
  if (all.length > 0) tell(all)
}
