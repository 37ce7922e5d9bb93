import type { Argument, Bridge, Channel, Result } from '../src-core/bridge/contract'
import { decodeMessage, encodeMessage } from '../src-core/bridge/wire'

declare global {
  interface Window {
    /** Set by the desktop program's preload script; missing in a browser. */
    readonly visitReport?: Bridge
  }
}

/** The way to the program behind the window: the desktop program's, or the browser host's. */
export function chooseBridge(): Bridge {
  return window.visitReport ?? hostBridge((input, init) => fetch(input, init))
}

export const HOST_ENDED = 'The program behind this window has ended. Start it again with npm run browser.'

/** The bridge over the browser host: each message is one request to where the page came from. */
export function hostBridge(send: typeof fetch): Bridge {
  function sender<C extends Channel>(channel: C): (argument: Argument<C>) => Promise<Result<C>> {
    return async (argument) => {
      const response = await send(`/bridge/${channel}`, {
        method: 'POST',
        headers: { 'content-type': 'application/octet-stream' },
        body: encodeMessage(argument),
      }).catch(() => {
        throw new Error(HOST_ENDED)
      })
      if (!response.ok) throw new Error(`Message refused: ${response.status}`)
      return decodeMessage(new Uint8Array(await response.arrayBuffer())) as Result<C>
    }
  }
  return {
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
    makePdf: sender('makePdf'),
    beginning: sender('beginning'),
    form: sender('form'),
    file: sender('file'),
  }
}
