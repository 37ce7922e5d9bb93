/**
 * A log's bytes as the outside world hands them in. They are read more than once, so `chunks` starts afresh
 * at every call; a file is reopened, an array in memory is cut in pieces.
 */
export interface LogSource {
  /** Base name, or 'standard input'. */
  readonly name: string
  readonly bytes: number
  /** SHA-256 of the bytes, lower-case hexadecimal. */
  readonly sha256: string
  chunks(): Iterable<Uint8Array>
  /** Whether a person typed its readings, without a meter. */
  readonly typed?: true
  /** Whether it is the beginning of a longer one. */
  readonly isBeginning?: true
  /** What was answered for this log alone; left out, the answers for all logs hold. */
  readonly answers?: LogAnswers
}

/** The unit of a log that does not say, or that both are mixed in it and the size of each value tells. */
export type UnitAnswer = 'mg/dL' | 'mmol/L' | 'mixed'

/** What a person or the command line says about the logs. */
export interface LogAnswers {
  /** Unit of a log that does not say. */
  readonly unit?: UnitAnswer
  /** Order of day and month in a log that does not say. */
  readonly dates?: 'ymd' | 'dmy' | 'mdy'
  /** Which column is what: `time=2,glucose=Wert`. */
  readonly columns?: string
  /** What a person chose in place of what the log says or its rows show: it wins over them. */
  readonly instead?: { readonly unit?: 'mg/dL' | 'mmol/L'; readonly dates?: 'ymd' | 'dmy' | 'mdy' }
}

/** How far the reading has come; each byte is read twice, once to find its encoding and once as text. */
export interface ReadingProgress {
  readonly bytesRead: number
  readonly bytesToRead: number
}

/** Told of every piece that is read; throws where the person has had enough, and nothing more is read. */
export type Watch = (progress: ReadingProgress) => void

/** The moment of import and the zone in which instants are shown. */
export interface ImportContext {
  /** Milliseconds since 1970-01-01T00:00Z. */
  readonly nowMs: number
  /** IANA zone name, such as 'Europe/Berlin'. */
  readonly zone: string
}

/** Counts the bytes of one pass over a log. */
export function* countedChunks(source: LogSource, count: (bytes: number) => void): Generator<Uint8Array> {
  for (const chunk of source.chunks()) {
    count(chunk.length)
    yield chunk
  }
}
