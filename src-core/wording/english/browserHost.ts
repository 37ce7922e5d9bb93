// What the browser host says in the terminal, and what a browser reads that it does not let in.

export const OPEN_THIS = 'Open this address in your browser; it works once, and only on this computer:'
export const OPENED_BEFORE =
  'That address was used before. If that was not you, end the program. A new address:'
export const howItEnds = (idleMinutes: number) =>
  `Ctrl-C ends the program, and so do ${idleMinutes} minutes without an open window. Unsaved changes are offered again at the next start.`
export const UNUSED = 'Nobody used the window for a while; the program has ended.'
export const STOPPED = 'Stopped; the program has ended.'

/** Why a request got no answer. */
export const REFUSED = {
  fault: 'Something in the program went wrong.',
  address: 'This address is not served here.',
  way: 'This kind of request is not served here.',
  page: 'This page may not ask the program.',
  letIn: 'This page has no key to the program.',
  token: 'Open the address that npm run browser printed.',
  nothing: 'There is nothing at this address.',
  message: 'This is not a message to the program.',
  length: 'The message does not say how long it is.',
  size: 'The message is too long.',
  answer: 'The program did not answer.',
} as const
