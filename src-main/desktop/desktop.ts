import { resolve } from 'node:path'
import { app, dialog, Menu, protocol, session, shell } from 'electron'
import { APP_PAGE, APP_SCHEME, assetResponse } from './appScheme'
import { readAssets } from '../window/assets'
import { serveBridge } from './bridgeServer'
import { fileDialogs, guardClosing, openNamed } from './desktopFiles'
import { faultTrace } from '../program/faultTrace'
import { clearPrinting, pdfOpener } from '../window/openPdf'
import { complain } from '../command/terminal'
import { createWindow, closeSession, keepOnOwnPage, menu } from './window'
import { visitService } from '../window/wiring'
import type { Words } from '../../src-core/wording/words'
import { ENGLISH } from '../../src-core/wording/english'

// The desktop program, step by step. What must be settled before Electron is ready comes first.
app.enableSandbox()
protocol.registerSchemesAsPrivileged([{ scheme: APP_SCHEME, privileges: { standard: true, secure: true } }])
app.on('web-contents-created', (_event, contents) => keepOnOwnPage(contents))
app.on('window-all-closed', () => app.quit())
// Pages of a visit stay nowhere but where the person saved them.
app.on('will-quit', () => clearPrinting())
/** Files that the desktop named before the window could open them. */
const named = filesNamed(process.argv)
let open = (paths: readonly string[]) => void named.push(...paths)
app.on('open-file', (event, path) => {
  event.preventDefault()
  open([path])
})
app.on('second-instance', (_event, argv, folder) =>
  open(filesNamed(argv).map((path) => resolve(folder, path))),
)
// Not awaited: Electron becomes ready only after this module has been loaded.
if (app.requestSingleInstanceLock())
  app
    .whenReady()
    .then(() => openWindow(ENGLISH))
    .catch(endWithFault)
else app.quit()

/** The files of a command line; the browser inside puts switches of its own among them. */
function filesNamed(argv: readonly string[]): string[] {
  return argv.slice(app.isPackaged ? 1 : 2).filter((word) => !word.startsWith('-'))
}

async function openWindow(words: Words): Promise<void> {
  // Left by a program that was killed.
  clearPrinting()
  Menu.setApplicationMenu(Menu.buildFromTemplate(menu(words)))
  // Without 'persist:' a session lives in memory only: nothing of a visit is left on the disk.
  const visitSession = session.fromPartition('visit')
  closeSession(visitSession)
  const assets = readAssets(resolve(import.meta.dirname, '../renderer'))
  visitSession.protocol.handle(APP_SCHEME, (request) => assetResponse(assets, request))
  const window = createWindow(words, resolve(import.meta.dirname, '../preload/preload.cjs'), visitSession)
  const service = visitService(
    words,
    import.meta.dirname,
    fileDialogs(words, dialog, window),
    pdfOpener((path) => shell.openPath(path)),
  )
  serveBridge(window.webContents.ipc, service, reportFault)
  guardClosing(words, window, service, dialog)
  open = (paths) => {
    if (window.isMinimized()) window.restore()
    // The page looks at the visit anew when it comes to the front.
    openNamed(words, service, paths, (problems) =>
      dialog.showErrorBox(
        words.desktop.NOT_OPENED,
        problems.map(({ about, message }) => `${about ?? ''} ${message}`).join('\n'),
      ),
    )
      .then(() => window.focus())
      .catch((error: unknown) => reportFault('open', error))
  }
  open(named)
  await window.loadURL(APP_PAGE)
}

function reportFault(channel: string, error: unknown): void {
  complain(...faultTrace(channel, error))
}

function endWithFault(error: unknown): void {
  reportFault('start', error)
  app.exit(1)
}
