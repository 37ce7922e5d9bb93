/** What happened, and what to do about it where the person is; without measured values and texts of notes. */
export interface Message {
  readonly what: string
  readonly inTerminal: string
  readonly inWindow: string
}

/** A message as the terminal or the window gives it: the window has no options. */
export function messageText({ what, inTerminal, inWindow }: Message, place: 'terminal' | 'window'): string {
  const then = place === 'terminal' ? inTerminal : inWindow
  return then === '' ? what : `${what} ${then}`
}

/** A message that tells everybody the same. */
export function message(what: string): Message {
  return { what, inTerminal: '', inWindow: '' }
}
