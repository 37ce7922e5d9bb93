import { guessEncoding } from './guessEncoding'
import type { LogSource } from './logSource'

/** How a log's bytes become text. */
export interface EncodingDecision {
  /** A label of the Encoding Standard, such as 'utf-8' or 'windows-1252'. */
  readonly label: string
  /** Whether it was told by the bytes themselves (a byte-order mark, valid UTF-8) or guessed. */
  readonly guessed: boolean
  /** Upper bound of the number of lines. */
  readonly lines: number
}

/** Why bytes are no text. */
export interface NotText {
  readonly notText: 'empty' | 'spreadsheet' | 'archive' | 'pdf' | 'picture' | 'binary'
}

// First bytes of common files that get renamed to .csv, in hexadecimal (common practice).
const SIGNATURES: readonly (readonly [hex: string, kind: NotText['notText']])[] = [
  ['504b0304', 'archive'],
  ['504b0506', 'archive'],
  ['d0cf11e0a1b11ae1', 'spreadsheet'],
  ['25504446', 'pdf'],
  ['89504e47', 'picture'],
  ['ffd8ff', 'picture'],
  ['47494638', 'picture'],
  ['1f8b', 'archive'],
  ['377abcaf', 'archive'],
  ['52617221', 'archive'],
]

const PDF = '%PDF'

/** Whether a file begins as a PDF does. */
export function isPdf(bytes: Uint8Array): boolean {
  return String.fromCharCode(...bytes.subarray(0, PDF.length)) === PDF
}

/** Control characters that no text file needs; above this share of them bytes are taken for no text. */
const MOST_CONTROL_SHARE = 0.02
/** The same for bytes that are not valid UTF-8, where text is less sure. */
const MOST_CONTROL_SHARE_GUESSED = 0.002

/** Finds out how to decode a log, reading all of it once. */
export function detectEncoding(source: Pick<LogSource, 'chunks'>): EncodingDecision | NotText {
  const survey = surveyBytes(source)
  const { lines } = survey
  const told = (label: string): EncodingDecision => ({ label, guessed: false, lines })
  const guessed = (label: string): EncodingDecision => ({ label, guessed: true, lines })
  if (survey.bytes === 0) return { notText: 'empty' }
  const signature = SIGNATURES.find(([hex]) => survey.head.startsWith(hex))
  if (signature) {
    // Workbooks of today are archives that hold a folder 'xl' or, in the open format, 'content.xml'.
    return { notText: signature[1] === 'archive' && survey.holdsWorkbook ? 'spreadsheet' : signature[1] }
  }
  if (survey.head.startsWith('efbbbf')) return told('utf-8')
  if (survey.head.startsWith('fffe')) return told('utf-16le')
  if (survey.head.startsWith('feff')) return told('utf-16be')
  // Text of western letters in UTF-16 has a zero in every second byte.
  const pairs = survey.bytes / 2
  if (survey.zerosAtOdd > 0.4 * pairs && survey.zerosAtEven < 0.05 * pairs) return guessed('utf-16le')
  if (survey.zerosAtEven > 0.4 * pairs && survey.zerosAtOdd < 0.05 * pairs) return guessed('utf-16be')
  const controlShare = survey.controls / survey.bytes
  if (survey.validUtf8) return controlShare > MOST_CONTROL_SHARE ? { notText: 'binary' } : told('utf-8')
  if (controlShare > MOST_CONTROL_SHARE_GUESSED) return { notText: 'binary' }
  return guessed(guessEncoding(survey.sample))
}

/** The log's text in pieces, a byte-order mark left out. */
export function* decodedText(source: Pick<LogSource, 'chunks'>, label: string): Generator<string> {
  const decoder = new TextDecoder(label)
  for (const chunk of source.chunks()) yield decoder.decode(chunk, { stream: true })
  yield decoder.decode()
}

const LINE_FEED = 10
const CARRIAGE_RETURN = 13

interface ByteSurvey {
  bytes: number
  lines: number
  /** The first bytes in hexadecimal. */
  head: string
  holdsWorkbook: boolean
  zerosAtEven: number
  zerosAtOdd: number
  controls: number
  validUtf8: boolean
  /** Bytes from the first one on that is not of ASCII, for words to be looked at. */
  sample: Uint8Array
}

const SAMPLE_BYTES = 65_536
/** So many bytes before the first one that is not of ASCII may belong to its word. */
const BEFORE_SAMPLE = 40

function surveyBytes(source: Pick<LogSource, 'chunks'>): ByteSurvey {
  const survey: ByteSurvey = {
    bytes: 0,
    lines: 1,
    head: '',
    holdsWorkbook: false,
    zerosAtEven: 0,
    zerosAtOdd: 0,
    controls: 0,
    validUtf8: true,
    sample: new Uint8Array(),
  }
  const utf8 = new TextDecoder('utf-8', { fatal: true })
  for (const chunk of source.chunks()) {
    if (survey.bytes === 0) {
      const head = Array.from(chunk.subarray(0, 4096))
      survey.head = head
        .slice(0, 16)
        .map((byte) => byte.toString(16).padStart(2, '0'))
        .join('')
      survey.holdsWorkbook = /xl\/|\[Content_Types\]|spreadsheet/.test(String.fromCharCode(...head))
    }
    for (let i = 0; i < chunk.length; i++) {
      const byte = chunk[i]
      if (byte >= 32) continue
      if (byte === LINE_FEED || (byte === CARRIAGE_RETURN && chunk[i + 1] !== LINE_FEED)) survey.lines++
      if (byte === 0) {
        if ((survey.bytes + i) % 2 === 0) survey.zerosAtEven++
        else survey.zerosAtOdd++
      }
      // Tab, line feed, vertical tab, form feed and carriage return are text.
      if (byte < 9 || byte > 13) survey.controls++
    }
    survey.bytes += chunk.length
    survey.validUtf8 &&= decodes(utf8, chunk)
    if (survey.sample.length > 0) continue
    const beyond = chunk.findIndex((byte) => byte > 127)
    const from = Math.max(0, beyond - BEFORE_SAMPLE)
    if (beyond >= 0) survey.sample = chunk.slice(from, from + SAMPLE_BYTES)
  }
  survey.validUtf8 &&= decodes(utf8)
  return survey
}

function decodes(decoder: InstanceType<typeof TextDecoder>, chunk?: Uint8Array): boolean {
  try {
    decoder.decode(chunk, { stream: chunk !== undefined })
    return true
  } catch {
    return false
  }
}
