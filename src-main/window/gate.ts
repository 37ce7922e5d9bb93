import { type Channel } from '../../src-core/bridge/channels'
import { ARGUMENTS, type Handlers } from '../../src-core/bridge/contract'

/** How a message was answered. A refusal tells nothing but its kind. */
export type Reply =
  | { readonly kind: 'answered'; readonly result: unknown }
  | { readonly kind: 'unknown-channel' }
  | { readonly kind: 'bad-argument' }
  | { readonly kind: 'fault' }

/**
 * The one gate through which every message passes, whatever carried it: the channel is of the contract, the
 * argument fits its schema, the result is plain data. Who may send is for the carrier to check before.
 * `reportFault` is told of faults of the program itself.
 */
export async function answer(
  channel: string,
  argument: unknown,
  handlers: Handlers,
  reportFault: (channel: string, error: unknown) => void,
): Promise<Reply> {
  if (!isChannel(channel)) return { kind: 'unknown-channel' }
  const parsed = ARGUMENTS[channel].safeParse(argument)
  if (!parsed.success) return { kind: 'bad-argument' }
  try {
    // The schema of this very channel has just been applied; the union of all channels hides that.
    const handle = handlers[channel] as (argument: unknown) => unknown
    const result = await handle(parsed.data)
    if (!isPlain(result)) throw new Error('A result is not plain data')
    return { kind: 'answered', result }
  } catch (error) {
    reportFault(channel, error)
    return { kind: 'fault' }
  }
}

function isChannel(channel: string): channel is Channel {
  return Object.hasOwn(ARGUMENTS, channel)
}

/** Whether a value is made of nothing but null, booleans, numbers, texts, byte arrays, arrays and plain objects. */
export function isPlain(value: unknown): boolean {
  if (value === null || ['boolean', 'number', 'string'].includes(typeof value)) return true
  if (typeof value !== 'object') return false
  if (Array.isArray(value)) return value.every(isPlain)
  const prototype: unknown = Object.getPrototypeOf(value)
  if (prototype === Uint8Array.prototype) return true
  return prototype === Object.prototype && Object.values(value).every(isPlain)
}
