import type { ReadingProgress } from '../../src-core/log/logSource'

const BYTES_PER_MB = 1024 * 1024

/** How far long work has come, and the way to stop it. */
export function Progress(props: { readonly progress: ReadingProgress; readonly onCancel: () => void }) {
  const { bytesRead, bytesToRead } = props.progress
  const reading = bytesRead < bytesToRead
  // Each byte is read twice; a person knows the size of the file.
  const mb = (bytes: number) => (bytes / 2 / BYTES_PER_MB).toFixed(1)
  return (
    <div className="progress">
      <label>
        {reading ? `Reading: ${mb(bytesRead)} of ${mb(bytesToRead)} MB` : 'Computing the figures'}
        <progress max={1} {...(reading && { value: bytesRead / bytesToRead })} />
      </label>
      <button type="button" onClick={props.onCancel}>
        Cancel
      </button>
    </div>
  )
}
