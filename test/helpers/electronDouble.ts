import { vi } from 'vitest'

type Listener = (...args: never[]) => unknown

/** Keeps listeners by event and can emit; stands in for every Electron object that has events. */
export class Emitter {
  readonly listeners = new Map<string, Listener[]>()

  on(event: string, listener: Listener): this {
    this.listeners.set(event, [...(this.listeners.get(event) ?? []), listener])
    return this
  }

  once(event: string, listener: Listener): this {
    return this.on(event, listener)
  }

  emit(event: string, ...args: unknown[]): void {
    for (const listener of this.listeners.get(event) ?? []) listener(...(args as never[]))
  }
}

/** An event whose default may be prevented, as Electron hands to its listeners. */
export function cancellable<T extends object>(
  details: T,
): T & { prevented: boolean; preventDefault(): void } {
  const event = {
    ...details,
    prevented: false,
    preventDefault() {
      event.prevented = true
    },
  }
  return event
}

type Invoke = (event: unknown, ...args: unknown[]) => Promise<unknown>

class WebContentsDouble extends Emitter {
  readonly ipc = {
    handlers: new Map<string, Invoke>(),
    handle: (channel: string, listener: Invoke) => {
      this.ipc.handlers.set(channel, listener)
    },
  }
  openHandler: ((details: { url: string }) => { action: string }) | null = null
  readonly sendInputEvent = vi.fn()

  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler
  }
}

class SessionDouble extends Emitter {
  readonly handlers: Record<string, Listener> = {}
  readonly schemes = new Map<string, (request: Request) => Response | Promise<Response>>()
  readonly protocol = {
    handle: (scheme: string, handler: (request: Request) => Response | Promise<Response>) => {
      this.schemes.set(scheme, handler)
    },
  }
  readonly webRequest = {
    onBeforeRequest: (handler: Listener) => {
      this.handlers.beforeRequest = handler
    },
  }

  constructor(readonly partition: string) {
    super()
  }

  setPermissionRequestHandler(handler: Listener): void {
    this.handlers.permissionRequest = handler
  }

  setPermissionCheckHandler(handler: Listener): void {
    this.handlers.permissionCheck = handler
  }

  setDevicePermissionHandler(handler: Listener): void {
    this.handlers.devicePermission = handler
  }
}

/**
 * Stands in for the module 'electron' and records what the program does with it. Whatever the program uses
 * beyond this is missing from `module`, so that a test notices.
 */
export function electronDouble() {
  /** What happened, in order: 'enableSandbox', 'registerSchemes', 'ready', 'window', 'load ...'. */
  const steps: string[] = []
  const windows: BrowserWindow[] = []
  const sessions: SessionDouble[] = []
  const schemes: unknown[] = []
  const exposed: Record<string, unknown> = {}
  const sent: unknown[][] = []
  const opened = vi.fn<(path: string) => Promise<string>>(() => Promise.resolve(''))
  const menus: unknown[] = []
  /** What the person chooses in the desktop's dialogs. */
  const chosen = { open: null as string | null, save: null as string | null, button: 2 }
  const shown: { readonly dialog: string; readonly options: unknown }[] = []
  const app = new (class extends Emitter {
    isPackaged = true
    readonly requestSingleInstanceLock = vi.fn(() => true)
    readonly quit = vi.fn()
    readonly exit = vi.fn()
    enableSandbox(): void {
      steps.push('enableSandbox')
    }
    async whenReady(): Promise<void> {
      await Promise.resolve()
      steps.push('ready')
    }
  })()

  class BrowserWindow extends Emitter {
    readonly webContents = new WebContentsDouble()
    readonly show = vi.fn()
    readonly focus = vi.fn()
    readonly restore = vi.fn()
    readonly destroy = vi.fn()
    isMinimized = () => false
    constructor(readonly options: { webPreferences: Record<string, unknown> }) {
      super()
      steps.push('window')
      windows.push(this)
      app.emit('web-contents-created', {}, this.webContents)
    }
    async loadURL(address: string): Promise<void> {
      steps.push(`load ${address}`)
      await Promise.resolve()
    }
  }

  const module = {
    app,
    BrowserWindow,
    dialog: {
      showOpenDialog: (_window: unknown, options: unknown) => {
        shown.push({ dialog: 'open', options })
        return Promise.resolve({
          canceled: chosen.open === null,
          filePaths: chosen.open === null ? [] : [chosen.open],
        })
      },
      showSaveDialog: (_window: unknown, options: unknown) => {
        shown.push({ dialog: 'save', options })
        return Promise.resolve({ canceled: chosen.save === null, filePath: chosen.save ?? '' })
      },
      showMessageBox: (_window: unknown, options: unknown) => {
        shown.push({ dialog: 'message', options })
        return Promise.resolve({ response: chosen.button })
      },
      showErrorBox: (title: string, content: string) => shown.push({ dialog: title, options: content }),
    },
    shell: { openPath: opened },
    Menu: {
      buildFromTemplate: (template: unknown) => template,
      setApplicationMenu: (menu: unknown) => menus.push(menu),
    },
    protocol: {
      registerSchemesAsPrivileged: (list: unknown[]) => {
        steps.push('registerSchemes')
        schemes.push(...list)
      },
    },
    session: {
      fromPartition: (partition: string) => {
        const made = new SessionDouble(partition)
        sessions.push(made)
        return made
      },
    },
    contextBridge: {
      exposeInMainWorld: (name: string, value: unknown) => {
        exposed[name] = value
      },
    },
    ipcRenderer: {
      invoke: async (...args: unknown[]) => {
        sent.push(args)
        await Promise.resolve()
        return 'result'
      },
    },
  }
  return { module, steps, app, windows, sessions, schemes, exposed, sent, menus, chosen, shown, opened }
}
