import type { Watch } from '../../src-core/log/logSource'
import type { Words } from '../../src-core/wording/words'

/** Smaller logs are read before a person would look. */
const FEWEST_BYTES = 8_000_000

/** Shows the percentage read on one line of a terminal; says nothing where the stream is none. */
export function terminalProgress(
  { commandLine }: Words,
  stream: { isTTY?: boolean; write(text: string): unknown },
): Watch {
  let shown = -1
  return ({ bytesRead, bytesToRead }) => {
    if (stream.isTTY !== true || bytesToRead < FEWEST_BYTES) return
    const percent = Math.floor((100 * bytesRead) / bytesToRead)
    if (percent === shown) return
    shown = percent
    const text = commandLine.readingText(percent)
    stream.write(percent < 100 ? `\r${text}` : `\r${' '.repeat(text.length)}\r`)
  }
}
