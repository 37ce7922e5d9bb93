import type { CsvRecord } from '../records'

/** So many records that were taken are kept before they are let go. */
const MOST_TAKEN = 1_000

/** Records one after the other, with a look at those to come. Ends where a field is too large. */
export class RecordStream {
  /** The line of that field; null where there is none so far. */
  tooLargeAt: number | null = null
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
      return this.#read()
    }
    if (this.#at === MOST_TAKEN) this.#forget()
    return this.#ahead[this.#at++]
  }

  /** The next records, at most so many, without taking them. */
  peek(count: number): readonly CsvRecord[] {
    while (this.#ahead.length - this.#at < count) {
      const read = this.#read()
      if (read === null) break
      this.#ahead.push(read)
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

  #read(): CsvRecord | null {
    const read = this.#records.next()
    if (read.done === true) return null
    if (!read.value.isTooLarge) return read.value
    this.tooLargeAt = read.value.line
    return null
  }

  /** Lets the records go that were taken. */
  #forget(): void {
    if (this.#at === 0) return
    this.#ahead.splice(0, this.#at)
    this.#at = 0
  }
}
