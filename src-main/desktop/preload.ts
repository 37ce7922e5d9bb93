import { contextBridge, ipcRenderer } from 'electron'
import type { Argument, Bridge, Channel, Result } from '../../src-core/bridge/contract'

// All that the window's page can reach: the contract's functions by name, and nothing of Electron itself.
contextBridge.exposeInMainWorld('visitReport', {
  about: sender('about'),
  show: sender('show'),
  addLogs: sender('addLogs'),
  addSample: sender('addSample'),
  edit: sender('edit'),
  undo: sender('undo'),
  redo: sender('redo'),
  readings: sender('readings'),
  reading: sender('reading'),
  picture: sender('picture'),
  waysToRead: sender('waysToRead'),
  makePdf: sender('makePdf'),
  print: sender('print'),
  beginning: sender('beginning'),
  form: sender('form'),
  file: sender('file'),
  kept: sender('kept'),
  progress: sender('progress'),
  cancel: sender('cancel'),
} satisfies Bridge)

function sender<C extends Channel>(channel: C): (argument: Argument<C>) => Promise<Result<C>> {
  return (argument) => ipcRenderer.invoke(channel, argument) as Promise<Result<C>>
}
