import Papa from 'papaparse'

/** One record of a delimited text: a line, or several where a quoted field spans them. */
export interface CsvRecord {
  /** 1-based line on which it starts. CR, LF and CRLF each end a line, also inside quotes. */
  readonly line: number
  /** The record as it stands in the file, without its line end. */
  readonly text: string
  readonly cells: readonly string[]
  /** Whether a field in quotes that began here, closed by quotes further on, was taken for none: a row stands within it. */
  readonly isBroken?: true
  /** The last record that is given: a field or a line is longer than any log has, and what follows is not read. */
  readonly isTooLarge?: true
}

/** Longest field that is read, characters; a longer one is a broken file, not a note. */
export const LONGEST_FIELD = 1_000_000
/** Longest line, characters: rows of thousands of columns fit, a file without line ends does not. */
const LONGEST_LINE = 4 * LONGEST_FIELD
/** Longest run of lines that one quoted field may span; a quote left open longer was never closed. */
const MOST_LINES_IN_A_FIELD = 200

/**
 * Splits text into records. A quote that is never closed is a letter: the record ends with its line and
 * nothing is swallowed. Quotes are read as RFC 4180 has them, by the CSV library. Ends where a field is too large.
 */
export function* records(text: Iterable<string>, delimiter: string): Generator<CsvRecord> {
  const lines = new LineReader(text)
  const opening = new RegExp(`(?:^|${escaped(delimiter)})"`)
  const usual = new UsualCount()
  for (;;) {
    const first = lines.next()
    if (first === null) break
    const line = lines.line
    if (first.includes('"') && opening.test(first)) {
      const record = quotedRecord(first, lines, delimiter, usual.count)
      usual.add(record.cells.length)
      if (record.cells.some(isTooLarge)) {
        yield tooLarge(line)
        return
      }
      const cells = unguarded(record.text, record.cells)
      yield { line, text: record.text, cells, ...(record.isBroken && { isBroken: true }) }
    } else {
      const cells = first.split(delimiter)
      usual.add(cells.length)
      if (first.length > LONGEST_FIELD && cells.some(isTooLarge)) {
        yield tooLarge(line)
        return
      }
      yield { line, text: first, cells: unguarded(first, cells) }
    }
  }
  if (lines.isTooLong) yield tooLarge(lines.line + 1)
}

function isTooLarge(cell: string): boolean {
  return cell.length > LONGEST_FIELD
}

function tooLarge(line: number): CsvRecord {
  return { line, text: '', cells: [], isTooLarge: true }
}

/** A text that is guarded as a formula, so that a spreadsheet leaves it as it is: ="00417". */
const FORMULA = /^\s*="([^"]*)"\s*$/

function unguarded(text: string, cells: readonly string[]): readonly string[] {
  return text.includes('="') ? cells.map((cell) => cell.replace(FORMULA, '$1')) : cells
}

function quotedRecord(
  first: string,
  lines: LineReader,
  delimiter: string,
  usualColumns: number,
): { text: string; cells: readonly string[]; isBroken?: boolean } {
  let text = first
  let state = quoteState(first, delimiter, false)
  let taken = 0
  while (state === 'open') {
    const next = taken < MOST_LINES_IN_A_FIELD ? lines.peek(taken) : null
    if (next === null) break
    taken++
    text += '\n' + next
    state = quoteState(next, delimiter, true)
    // A closing line that is a row by itself ends in a stray quote, such as an inch mark: the field was
    // never closed. Where every field is quoted such a row cannot occur.
    if (state === 'closed' && !first.startsWith('"') && usualColumns > 2) {
      const strayAtItsEnd = next.indexOf('"') === next.length - 1
      if (strayAtItsEnd && next.split(delimiter).length >= usualColumns) state = 'broken'
    }
  }
  if (state === 'closed') {
    const parsed = Papa.parse(text, { delimiter, newline: '\n' })
    if (parsed.data.length === 1) {
      lines.skip(taken)
      return { text, cells: parsed.data[0] }
    }
  }
  const escapedQuotes = first.includes('\\"')
    ? Papa.parse(first, { delimiter, newline: '\n', escapeChar: '\\' })
    : null
  // Some databases set a backslash before a quote instead of doubling it.
  if (escapedQuotes?.errors.length === 0 && escapedQuotes.data.length === 1)
    return { text: first, cells: escapedQuotes.data[0] }
  return { text: first, cells: splitAtLetters(first, delimiter), isBroken: state === 'broken' }
}

/** The cells of a line with a quote that never closes: that quote is a letter, fields in whole quotes stay whole. */
function splitAtLetters(line: string, delimiter: string): readonly string[] {
  const cells: string[] = []
  let at = 0
  while (at <= line.length) {
    const field = line[at] === '"' ? wholeField(line, at, delimiter) : null
    const next = line.indexOf(delimiter, at)
    const end = field?.end ?? (next < 0 ? line.length : next)
    cells.push(field?.text ?? line.slice(at, end))
    at = end + delimiter.length
  }
  return cells
}

/** The quoted field that begins at an index, and the index behind it; null where its quote does not close it. */
function wholeField(line: string, from: number, delimiter: string): { text: string; end: number } | null {
  let quote = line.indexOf('"', from + 1)
  while (quote >= 0 && line[quote + 1] === '"') quote = line.indexOf('"', quote + 2)
  const end = quote + 1
  if (quote < 0 || !(end === line.length || line.startsWith(delimiter, end))) return null
  return { text: line.slice(from + 1, quote).replaceAll('""', '"'), end }
}

/** State of the quoting at the end of a line that begins inside a quoted field or not. */
function quoteState(line: string, delimiter: string, inside: boolean): 'open' | 'closed' | 'broken' {
  let at = 0
  let quoted = inside
  while (at <= line.length) {
    if (quoted) {
      const quote = line.indexOf('"', at)
      if (quote < 0) return 'open'
      const after = quote + 1
      if (line[after] === '"') {
        at = after + 1
      } else if (after === line.length) {
        return 'closed'
      } else if (line.startsWith(delimiter, after)) {
        at = after + delimiter.length
        quoted = false
      } else {
        return 'broken'
      }
    } else if (line[at] === '"') {
      quoted = true
      at++
    } else {
      const next = line.indexOf(delimiter, at)
      if (next < 0) return 'closed'
      at = next + delimiter.length
    }
  }
  return quoted ? 'open' : 'closed'
}

/** The commonest number of cells of the records so far. */
class UsualCount {
  count = 0
  readonly #seen = new Map<number, number>()

  add(cells: number): void {
    const times = (this.#seen.get(cells) ?? 0) + 1
    this.#seen.set(cells, times)
    if (times > (this.#seen.get(this.count) ?? 0)) this.count = cells
  }
}

function escaped(delimiter: string): string {
  return delimiter.replace(/[|\\{}()[\]^$+*?.]/g, '\\$&')
}

/** Physical lines of a text that comes in pieces, with a look ahead. */
class LineReader {
  /** 1-based number of the line that `next` returned last. */
  line = 0
  /** Whether the text ended for this reader at a line that is longer than `LONGEST_LINE`. */
  isTooLong = false
  readonly #pieces: Iterator<string>
  readonly #ahead: string[] = []
  #buffer = ''
  #at = 0
  #done = false
  /** Index of the next LF and CR in the buffer; Infinity where it holds none. */
  #feed = -1
  #carriage = -1

  constructor(text: Iterable<string>) {
    this.#pieces = text[Symbol.iterator]()
  }

  next(): string | null {
    const line = this.#ahead.length > 0 ? (this.#ahead.shift() ?? null) : this.#read()
    if (line !== null) this.line++
    return line
  }

  /** The line `offset` places after the one to come, without taking it. */
  peek(offset: number): string | null {
    while (this.#ahead.length <= offset) {
      const line = this.#read()
      if (line === null) return null
      this.#ahead.push(line)
    }
    return this.#ahead[offset]
  }

  skip(count: number): void {
    this.#ahead.splice(0, count)
    this.line += count
  }

  #read(): string | null {
    for (;;) {
      const end = this.#nextLineEnd()
      if (end >= 0) {
        const line = this.#buffer.slice(this.#at, end)
        this.#at = end + (this.#buffer[end] === '\r' && this.#buffer[end + 1] === '\n' ? 2 : 1)
        return line
      }
      if (this.#done) {
        if (this.#at >= this.#buffer.length) return null
        const line = this.#buffer.slice(this.#at)
        this.#at = this.#buffer.length
        return line
      }
      const left = this.#buffer.slice(this.#at)
      this.isTooLong ||= left.length > LONGEST_LINE
      if (this.isTooLong) return null
      const piece = this.#pieces.next()
      this.#done = piece.done === true
      this.#buffer = this.#done ? left : left + (piece.value as string)
      this.#at = 0
      this.#feed = -1
      this.#carriage = -1
    }
  }

  /** Index of the next line end in the buffer, or -1; each search resumes where the last one ended. */
  #nextLineEnd(): number {
    if (this.#feed < this.#at) this.#feed = found(this.#buffer.indexOf('\n', this.#at))
    if (this.#carriage < this.#at) this.#carriage = found(this.#buffer.indexOf('\r', this.#at))
    const end = Math.min(this.#feed, this.#carriage)
    if (end === Infinity) return -1
    // A CR at the very end of the buffer may be half of a CRLF.
    return end === this.#carriage && end + 1 === this.#buffer.length && !this.#done ? -1 : end
  }
}

function found(index: number): number {
  return index < 0 ? Infinity : index
}
