/** Largest messages that are read at all. A year of finger-sticks is about 60 kB. */
export const MESSAGE_LIMITS = {
  logs: 50,
  /** Rows of the list of readings in one message. */
  rows: 500,
  /** All logs of one message together. */
  bytes: 100 * 1024 * 1024,
  /** Bytes of a whole message: the logs and what stands around them. */
  message: 101 * 1024 * 1024,
} as const
