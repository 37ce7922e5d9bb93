// What the browser host says in the terminal, and what a browser reads that it does not let in.

export const OPEN_THIS = 'Open this address in your browser; it works once, and only on this computer:'
export const OPENED_BEFORE =
  'That address was opened before. If that was not you, end the program. A new one:'
export const howItEnds = (idleMinutes: number) =>
  `Ctrl-C ends the program; so do ${idleMinutes} minutes without an open window. What is not saved then is offered at the next start.`
export const UNUSED = 'Nobody used the window for a while; the program has ended.'
export const STOPPED = 'Stopped; the program has ended.'

/** Why a request got no answer. */
export const REFUSED = {
  fault: 'The program met a fault of its own.',
  address: 'Not this address.',
  way: 'Not this way.',
  page: 'Not from this page.',
  letIn: 'Not let in.',
  token: 'Open the address that npm run browser printed.',
  nothing: 'Nothing here.',
  message: 'Not a message.',
  length: 'A message tells its length.',
  size: 'Too large.',
  answer: 'Not answered.',
} as const
