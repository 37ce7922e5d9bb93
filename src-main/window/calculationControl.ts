import type { ReadingProgress } from '../../src-core/log/logSource'

/** Memory that both threads see, so that progress and cancelling need no message while a thread computes. */
export interface CalculationControl {
  readonly shared: SharedArrayBuffer
  begin(): void
  end(): void
  /** Null while nothing is computed. */
  progress(): ReadingProgress | null
  watch(progress: ReadingProgress): void
  cancel(): void
  isCancelled(): boolean
}

const RUNNING = 0
const CANCELLED = 1
const STATE_BYTES = 2 * Int32Array.BYTES_PER_ELEMENT
const BYTES = STATE_BYTES + 2 * Float64Array.BYTES_PER_ELEMENT

export function calculationControl(shared = new SharedArrayBuffer(BYTES)): CalculationControl {
  const state = new Int32Array(shared, 0, 2)
  const bytes = new Float64Array(shared, STATE_BYTES, 2)
  return {
    shared,
    begin() {
      bytes.fill(0)
      Atomics.store(state, CANCELLED, 0)
      Atomics.store(state, RUNNING, 1)
    },
    end: () => void Atomics.store(state, RUNNING, 0),
    progress: () =>
      Atomics.load(state, RUNNING) === 1 ? { bytesRead: bytes[0], bytesToRead: bytes[1] } : null,
    watch({ bytesRead, bytesToRead }) {
      bytes[0] = bytesRead
      bytes[1] = bytesToRead
    },
    cancel: () => void Atomics.store(state, CANCELLED, 1),
    isCancelled: () => Atomics.load(state, CANCELLED) === 1,
  }
}
