import { resolve } from 'node:path'
import { app, Menu, protocol, session } from 'electron'
import { APP_PAGE, APP_SCHEME, assetResponse } from './appScheme'
import { readAssets } from './assets'
import { serveBridge } from './bridgeServer'
import { faultTrace } from './faultTrace'
import { createWindow, closeSession, keepOnOwnPage, MENU } from './window'
import { visitService } from './wiring'

// The desktop program, step by step. What must be settled before Electron is ready comes first.
app.enableSandbox()
protocol.registerSchemesAsPrivileged([{ scheme: APP_SCHEME, privileges: { standard: true, secure: true } }])
app.on('web-contents-created', (_event, contents) => keepOnOwnPage(contents))
app.on('window-all-closed', () => app.quit())
// Not awaited: Electron becomes ready only after this module has been loaded.
app.whenReady().then(openWindow).catch(endWithFault)

async function openWindow(): Promise<void> {
  Menu.setApplicationMenu(Menu.buildFromTemplate(MENU))
  // Without 'persist:' a session lives in memory only: nothing of a visit is left on the disk.
  const visitSession = session.fromPartition('visit')
  closeSession(visitSession)
  const assets = readAssets(resolve(import.meta.dirname, '../renderer'))
  visitSession.protocol.handle(APP_SCHEME, (request) => assetResponse(assets, request))
  const window = createWindow(resolve(import.meta.dirname, '../preload/preload.cjs'), visitSession)
  serveBridge(window.webContents.ipc, visitService(import.meta.dirname), reportFault)
  await window.loadURL(APP_PAGE)
}

function reportFault(channel: string, error: unknown): void {
  process.stderr.write(`${faultTrace(channel, error)}\n`)
}

function endWithFault(error: unknown): void {
  reportFault('start', error)
  app.exit(1)
}
