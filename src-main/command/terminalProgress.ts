import type { Watch } from '../../src-core/log/logSource'
import type { Words } from '../../src-core/wording/words'
import type { FolderProgress } from './folderRun'

/** Smaller logs are read before a person would look. */
const FEWEST_BYTES = 8_000_000

/** A stream that may be a terminal, such as standard error. */
interface Terminal {
  readonly isTTY?: boolean | undefined
  write(text: string): unknown
}

/** Shows the percentage read on one line of a terminal; says nothing where the stream is none. */
export function terminalProgress({ commandLine }: Words, stream: Terminal): Watch {
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

/** Fewer reports do not tell how long the others take. */
const FEWEST_TO_TELL_TIME = 5
const MS_PER_MINUTE = 60_000

/**
 * Shows on one line of a terminal how many logs of a folder are done and, once reports tell it, how long the others take;
 * says nothing where the stream is none. `clock`: milliseconds, from any beginning. What is kept as it was takes no time
 * to speak of, and tells nothing about the others.
 */
export function folderProgress({ overview }: Words, stream: Terminal, clock: () => number) {
  const begun = clock()
  const show = (text: string) => {
    if (stream.isTTY === true) stream.write(`\r${ERASE_LINE}${text}`)
  }
  return {
    watch: ({ done, of, without, made, toMake }: FolderProgress) => {
      const minutesLeft =
        made < FEWEST_TO_TELL_TIME || done === of ? null : ((clock() - begun) / made / MS_PER_MINUTE) * toMake
      show(overview.progressText(done, of, without, minutesLeft))
    },
    end: () => show(''),
  }
}

const ERASE_LINE = '\x1b[K'
