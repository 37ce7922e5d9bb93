import { contextBridge, ipcRenderer } from 'electron'
import type { Argument, Bridge, Channel, Result } from '../src-core/bridge/contract'

// All that the window's page can reach: the contract's functions by name, and nothing of Electron itself.
contextBridge.exposeInMainWorld('visitReport', {
  about: sender('about'),
  openLogs: sender('openLogs'),
  makePdf: sender('makePdf'),
} satisfies Bridge)

function sender<C extends Channel>(channel: C): (argument: Argument<C>) => Promise<Result<C>> {
  return (argument) => ipcRenderer.invoke(channel, argument) as Promise<Result<C>>
}
