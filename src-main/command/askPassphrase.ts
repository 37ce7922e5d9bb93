/** Whether there is a terminal to ask on. */
export function canAsk(): boolean {
  return process.stdin.isTTY && process.stderr.isTTY
}

/** Asks on the terminal; what is typed is not shown. */
export async function askPassphrase(prompt: string): Promise<string> {
  // Loaded only where something is asked.
  const { read } = await import('read')
  return read({ prompt, silent: true, input: process.stdin, output: process.stderr })
}
