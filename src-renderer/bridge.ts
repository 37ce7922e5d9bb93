import { type Channel, forEachChannel } from '../src-core/bridge/channels'
import type { Bridge, Changed, Result } from '../src-core/bridge/contract'
import type { Problem } from '../src-core/bridge/visitState'
import { decodeMessage, encodeMessage, encodeParts } from '../src-core/bridge/wire'
import { hostKey } from './hostKey'
import { checkLogFiles, readLogFiles } from './logFiles'
import type { WindowWords } from '../src-core/wording/words'

declare global {
  interface Window {
    /** Set by the desktop program's preload script; missing in a browser. */
    readonly visitReport?: Bridge
  }
}

/** The contract, and the adding of files as each carrier does it best. */
export interface WindowBridge extends Bridge {
  readonly addFiles: (files: readonly File[]) => Promise<Changed>
}

/** The way to the program behind the window: the desktop program's, or the browser host's; null where it lets nobody in. */
export function chooseBridge(words: WindowWords): WindowBridge | null {
  const desktop = window.visitReport
  if (desktop === undefined) {
    const key = hostKey()
    return key === null ? null : hostBridge(words, (input, init) => fetch(input, init), key)
  }
  return {
    ...desktop,
    addFiles: async (files) => {
      const { logs, problems } = await readLogFiles(words, files)
      return withProblems(problems, await desktop.addLogs({ logs: [...logs] }))
    },
  }
}

function withProblems(problems: readonly Problem[], changed: Changed): Changed {
  return problems.length === 0 ? changed : { ...changed, problems: [...problems, ...changed.problems] }
}

/** The program behind the window answers no more, or does not know this page. */
export class HostLost extends Error {
  constructor(readonly why: 'ended' | 'not-let-in') {
    super(why)
  }
}

/** The bridge over the browser host: each message is one request to where the page came from. */
export function hostBridge(words: WindowWords, send: typeof fetch, key: string): WindowBridge {
  async function sent<C extends Channel>(channel: C, body: BodyInit): Promise<Result<C>> {
    const headers = { 'content-type': 'application/octet-stream', authorization: `Bearer ${key}` }
    const response = await send(`/bridge/${channel}`, { method: 'POST', headers, body }).catch(() => {
      throw new HostLost('ended')
    })
    if (response.status === 403) throw new HostLost('not-let-in')
    if (!response.ok) throw new Error(`Message refused: ${response.status}`)
    return decodeMessage(new Uint8Array(await response.arrayBuffer())) as Result<C>
  }

  const sender = (channel: Channel) => (argument: unknown) => sent(channel, encodeMessage(argument))

  return {
    ...(forEachChannel(sender) as Bridge),
    // The browser sends the files from the disk: nothing of them passes through the window.
    addFiles: async (files) => {
      const { logs: opened, problems } = await checkLogFiles(words, files)
      const logs = opened.map((file) => ({ name: file.name, bytes: file }))
      const { head, parts } = encodeParts({ logs }, (item) => (item instanceof Blob ? item : null))
      return withProblems(problems, await sent('addLogs', new Blob([head, ...parts])))
    },
  }
}
