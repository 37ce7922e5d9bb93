import type { ReadingProgress } from '../../src-core/log/logSource'
import { useWords } from '../words'

const BYTES_PER_MB = 1024 * 1024

/** How far long work has come, and the way to stop it. */
export function Progress(props: { readonly progress: ReadingProgress; readonly onCancel: () => void }) {
  const { windowWork } = useWords()
  const { bytesRead, bytesToRead } = props.progress
  const reading = bytesRead < bytesToRead
  // Each byte is read twice; a person knows the size of the file.
  const mb = (bytes: number) => bytes / 2 / BYTES_PER_MB
  return (
    <div className="progress">
      <label>
        {reading ? windowWork.readingText(mb(bytesRead), mb(bytesToRead)) : windowWork.COMPUTING_FIGURES}
        <progress max={1} {...(reading && { value: bytesRead / bytesToRead })} />
      </label>
      <button type="button" onClick={props.onCancel}>
        {windowWork.CANCEL}
      </button>
    </div>
  )
}
