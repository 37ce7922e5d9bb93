import { contextBridge, ipcRenderer } from 'electron'
import { forEachChannel } from '../../src-core/bridge/channels'

// All that the window's page can reach: the contract's functions by name, and nothing of Electron itself.
contextBridge.exposeInMainWorld(
  'visitReport',
  forEachChannel((channel) => (argument: unknown) => ipcRenderer.invoke(channel, argument)),
)
