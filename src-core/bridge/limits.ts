/** Largest messages that are read at all. A year of finger-sticks is about 60 kB. */
export const MESSAGE_LIMITS = {
  logs: 50,
  /** Rows of the list of readings in one message. */
  rows: 500,
  /** All logs of one message together. */
  bytes: 100 * 1024 * 1024,
  /** Bytes of a whole message: the logs and what stands around them. */
  message: 101 * 1024 * 1024,
  /** Characters of what a person writes in a field, of a label or a search, of a passphrase. */
  words: 2_000,
  label: 200,
  passphrase: 100_000,
} as const
