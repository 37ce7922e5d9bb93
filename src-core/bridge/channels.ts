// The channels between the window and the program behind it, by name: what carries their messages knows no more of them.

/** What each takes and answers stands in the contract, in this order. */
export const CHANNELS = [
  'about',
  'show',
  'addLogs',
  'addSample',
  'edit',
  'undo',
  'redo',
  'readings',
  'reading',
  'picture',
  'waysToRead',
  'makePdf',
  'print',
  'beginning',
  'form',
  'file',
  'kept',
  'progress',
  'cancel',
] as const

export type Channel = (typeof CHANNELS)[number]

/** One function for each channel. */
export function forEachChannel<F>(functionOf: (channel: Channel) => F): Record<Channel, F> {
  return Object.fromEntries(CHANNELS.map((channel) => [channel, functionOf(channel)])) as Record<Channel, F>
}
