/** Lines of what may be said of a fault where others read it: its name and where it arose, never its message. */
export function faultTrace(channel: string, error: unknown): readonly string[] {
  const name = error instanceof Error ? error.name : typeof error
  // The stack repeats the message, which may have lines of its own.
  const stack = error instanceof Error ? (error.stack ?? '').replace(error.message, '') : ''
  const frames = stack.split('\n').filter((line) => /^ {4}at /.test(line))
  return [`Fault in ${channel}: ${name}`, ...frames]
}
