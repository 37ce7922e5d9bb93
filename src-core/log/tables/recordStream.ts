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
    if (this.#at === this.#ahead.length) {
      this.#forget()
      const read = this.#records.next()
      return read.done === true ? null : read.value
    }
    if (this.#at === MOST_TAKEN) this.#forget()
    return this.#ahead[this.#at++]
  }

  /** The next records, at most so many, without taking them. */
  peek(count: number): readonly CsvRecord[] {
    while (this.#ahead.length - this.#at < count) {
      const read = this.#records.next()
      if (read.done === true) break
      this.#ahead.push(read.value)
    }
    return this.#ahead.slice(this.#at, this.#at + count)
  }

  /** Puts back the record that was taken last. */
  giveBack(record: CsvRecord): void {
    if (this.#at > 0) this.#ahead[--this.#at] = record
    else this.#ahead.unshift(record)
  }

  skip(count: number): void {
    for (let i = 0; i < count; i++) this.next()
  }

  /** Lets the records go that were taken. */
  #forget(): void {
    if (this.#at === 0) return
    this.#ahead.splice(0, this.#at)
    this.#at = 0
  }
}
