import type { CsvRecord } from '../records'

/** So many records that were taken are kept before they are let go. */
const MOST_TAKEN = 1_000

/** Records one after the other, with a look at those to come. */
export class RecordStream {
  readonly #records: Iterator<CsvRecord>
  /** Records read ahead; those before `#at` were taken already. */
  readonly #ahead: CsvRecord[] = []
  #at = 0

  constructor(records: Iterable<CsvRecord>) {
    this.#records = records[Symbol.iterator]()
  }

  next(): CsvRecord | null {
    if (this.#at >= this.#ahead.length && !this.#read()) return null
    const record = this.#ahead[this.#at++]
    if (this.#at > MOST_TAKEN) {
      // The last one stays: it may be given back.
      this.#ahead.splice(0, this.#at - 1)
      this.#at = 1
    }
    return record
  }

  /** The next records, at most so many, without taking them. */
  peek(count: number): readonly CsvRecord[] {
    while (this.#ahead.length - this.#at < count && this.#read());
    return this.#ahead.slice(this.#at, this.#at + count)
  }

  /** Puts back the record that was taken last. */
  giveBack(): void {
    this.#at--
  }

  skip(count: number): void {
    for (let i = 0; i < count; i++) this.next()
  }

  #read(): boolean {
    const read = this.#records.next()
    if (read.done !== true) this.#ahead.push(read.value)
    return read.done !== true
  }
}
