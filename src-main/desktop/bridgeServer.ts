import { CHANNELS } from '../../src-core/bridge/channels'
import { type Handlers } from '../../src-core/bridge/contract'
import { isOwnAddress } from './appScheme'
import { answer } from '../window/gate'

/** The part of Electron's invoke event that is looked at. */
interface InvokeEvent {
  readonly senderFrame: { readonly url: string; readonly parent: unknown } | null
}

/** The part of Electron's message port of one window that is used. */
interface WindowIpc {
  handle(channel: string, listener: (event: InvokeEvent, ...args: unknown[]) => Promise<unknown>): void
}

/**
 * Answers the messages of one window: only those of its top frame showing the program's own page, and only
 * through the gate. Refusals carry no detail back.
 */
export function serveBridge(
  ipc: WindowIpc,
  handlers: Handlers,
  reportFault: (channel: string, error: unknown) => void,
): void {
  for (const channel of CHANNELS) {
    ipc.handle(channel, async (event, ...args) => {
      if (!isOwnTopFrame(event.senderFrame) || args.length !== 1) throw new Error('Message refused')
      const reply = await answer(channel, args[0], handlers, reportFault)
      if (reply.kind !== 'answered') throw new Error(`Message refused: ${reply.kind}`)
      return reply.result
    })
  }
}

function isOwnTopFrame(frame: InvokeEvent['senderFrame']): boolean {
  return frame !== null && frame.parent === null && isOwnAddress(frame.url)
}
