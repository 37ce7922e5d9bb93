/** Why a folder cannot be worked at by a queue. `detail`: a code or a host; never a password nor a part of an address. */
export type QueueFaultCode =
  'packages' | 'address' | 'login' | 'evicts' | 'older' | 'unreachable' | 'full' | 'refused' | 'lost'

/** A fault that ends a run by a queue; what was made stands. */
export class QueueFault extends Error {
  constructor(
    readonly code: QueueFaultCode,
    readonly detail = '',
  ) {
    super(code)
  }
}
