import { BrowserWindow, type MenuItemConstructorOptions, type Session, type WebContents } from 'electron'
import { isOwnAddress, mayLoad } from './appScheme'
import type { Words } from '../../src-core/wording/words'

/** The one window, closed off: its page gets the preload script's functions and nothing else. */
export function createWindow({ desktop }: Words, preload: string, session: Session): BrowserWindow {
  const window = new BrowserWindow({
    width: 1180,
    height: 780,
    minWidth: 360,
    title: desktop.TITLE,
    show: false,
    webPreferences: {
      preload,
      session,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      // The spelling checker fetches its dictionaries from the network.
      spellcheck: false,
    },
  })
  window.once('ready-to-show', () => window.show())
  return window
}

/** Keeps a page where it is: no way to another address, no second window, no page within the page. */
export function keepOnOwnPage(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }))
  contents.on('will-attach-webview', (event) => event.preventDefault())
  contents.on('will-navigate', stayOnOwnPage)
  contents.on('will-redirect', stayOnOwnPage)
  contents.on('will-frame-navigate', stayOnOwnPage)
}

function stayOnOwnPage(event: { readonly url: string; preventDefault(): void }): void {
  if (!isOwnAddress(event.url)) event.preventDefault()
}

/** Closes a session: every permission and device refused, nothing loaded or saved but the program's own. */
export function closeSession(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, callback) => callback(false))
  session.setPermissionCheckHandler(() => false)
  session.setDevicePermissionHandler(() => false)
  session.webRequest.onBeforeRequest((details, callback) => callback({ cancel: !mayLoad(details.url) }))
  session.on('will-download', (event, item) => {
    if (!mayLoad(item.getURL())) event.preventDefault()
    // Elsewhere the desktop's own dialog asks before a file is replaced; on Linux it must be told to.
    else item.setSaveDialogOptions({ properties: ['showOverwriteConfirmation'] })
  })
}

const IS_MAC = process.platform === 'darwin'

/** The menu: opening and saving, and what every window has. Electron's own would hold links to the network. */
export function menu({ desktop: { MENU } }: Words): MenuItemConstructorOptions[] {
  return [
    ...(IS_MAC ? [{ role: 'appMenu' } as const] : []),
    {
      label: MENU.file,
      submenu: [
        keyOfPage(MENU.open, 'O'),
        keyOfPage(MENU.save, 'S'),
        keyOfPage(MENU.print, 'P'),
        { type: 'separator' },
        { role: IS_MAC ? 'close' : 'quit' },
      ],
    },
    { role: 'editMenu' },
    {
      label: MENU.view,
      submenu: [{ role: 'resetZoom' }, { role: 'zoomIn' }, { role: 'zoomOut' }, { role: 'togglefullscreen' }],
    },
    { role: 'windowMenu' },
  ]
}

/** What the page does by a key of its own, chosen from the menu: the page decides whether it may be done now. */
function keyOfPage(label: string, keyCode: string): MenuItemConstructorOptions {
  return {
    label,
    accelerator: `CmdOrCtrl+${keyCode}`,
    registerAccelerator: false,
    click: (_item, window) => {
      if (!(window instanceof BrowserWindow)) return
      const modifiers = [IS_MAC ? ('meta' as const) : ('control' as const)]
      for (const type of ['keyDown', 'keyUp'] as const) {
        window.webContents.sendInputEvent({ type, keyCode, modifiers })
      }
    },
  }
}
