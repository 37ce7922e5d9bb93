import type { CsvRecord } from '../records'

/** Records one after the other, with a look at those to come. */
export class RecordStream {
  readonly #records: Iterator<CsvRecord>
  #ahead: CsvRecord[] = []
  #at = 0

  constructor(records: Iterable<CsvRecord>) {
    this.#records = records[Symbol.iterator]()
  }

  next(): CsvRecord | null {
    if (this.#at < this.#ahead.length) {
      const record = this.#ahead[this.#at++]
      if (this.#at === this.#ahead.length) {
        this.#ahead = []
        this.#at = 0
      }
      return record
    }
    const read = this.#records.next()
    return read.done === true ? null : read.value
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
    this.#ahead = [record, ...this.#ahead.slice(this.#at)]
    this.#at = 0
  }

  skip(count: number): void {
    for (let i = 0; i < count; i++) this.next()
  }
}
