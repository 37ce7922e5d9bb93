const FIRST_CAPACITY = 1024
/** Shorter pieces of a string are copied by the engine itself. */
const KEEPS_ITS_WHOLE = 13

/** One text for each row, '' where none was set; equal texts are held once. */
export class TextColumn {
  readonly #values = ['']
  readonly #indexes = new Map([['', 0]])
  #column = new Uint32Array(0)

  get(row: number): string {
    return row < this.#column.length ? this.#values[this.#column[row]] : ''
  }

  set(row: number, text: string): void {
    if (text === '') return
    if (row >= this.#column.length) this.#grow(row)
    this.#column[row] = this.#indexOf(text)
  }

  #indexOf(text: string): number {
    const known = this.#indexes.get(text)
    if (known !== undefined) return known
    const own = copied(text)
    const index = this.#values.push(own) - 1
    this.#indexes.set(own, index)
    return index
  }

  #grow(row: number): void {
    const larger = new Uint32Array(Math.max(row + 1, 2 * this.#column.length, FIRST_CAPACITY))
    larger.set(this.#column)
    this.#column = larger
  }
}

/** A text that does not keep the piece of the file alive from which it was cut. */
export function copied(text: string): string {
  // Cut from a text of its own: a joined text is written anew before it is cut.
  return text.length < KEEPS_ITS_WHOLE ? text : ` ${text}`.slice(1)
}
