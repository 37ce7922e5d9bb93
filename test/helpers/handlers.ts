import { type Mock, vi } from 'vitest'
import { type Channel, CHANNELS } from '../../src-core/bridge/channels'
import { type Handlers } from '../../src-core/bridge/contract'

type Recording = Readonly<Record<Channel, Mock<(argument: unknown) => unknown>>>

/** A double of the program behind the window: every channel answers the same, and what was asked is kept. */
export function recordingHandlers(): Recording & Handlers {
  const entries = CHANNELS.map((channel) => [channel, vi.fn(() => ({ kind: 'stale' }))])
  return Object.fromEntries(entries) as Recording & Handlers
}
