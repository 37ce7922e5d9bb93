import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { mergeLogs } from '../../../src-core/log/logbook'
import { SET_ASIDE_REASONS } from '../../../src-core/log/logReport'
import { readLog } from '../../../src-core/log/readLog'
import { momentText, type Readings } from '../../../src-core/log/readings'
import { fixedChance } from '../../helpers/analysisFixture'
import { CONTEXT, logOf, refusalTold } from '../../helpers/logs'

// Logs changed at random. Some hundreds in every run; `npm run test:mutations` tries 200,000, with another seed
// each day.
const SLOW = process.env.MODE === 'mutations'
const COUNT = SLOW ? 200_000 : 500
const SEED = SLOW ? Math.floor(Date.now() / 86_400_000) : 7

const SAMPLES = join(import.meta.dirname, '../../../samples')
const ROWS_KEPT = 24

/** The beginning of each sample log, and some small logs of odd forms. */
const SEEDS: readonly Uint8Array[] = [
  ...['season-two-meters.csv', 'europe-mmol.csv', 'technique-morning.csv', 'two-months.csv'].map((name) => {
    const lines = readFileSync(join(SAMPLES, name), 'utf8').split(/\r?\n/).slice(0, ROWS_KEPT)
    return Buffer.from(lines.join('\n'))
  }),
  Buffer.from(
    'Zeitpunkt;Art;Wert;Einheit\n1.3.26 7:10;Blutzucker;5,8;mmol/L\n1.3.26 7:12;Insulin;6;IE\n15.3.26 9:00;Blutzucker;HI;\n',
  ),
  Buffer.from(
    '\ufeffTime\tGlucose mg/dL\n2026-03-02T07:10:00+01:00\t104\n2026-03-02T07:12:00Z\t<20\n',
    'utf16le',
  ),
  Buffer.from('1772435400,104\n1772439000,98\n1772442600,311\n'),
  Buffer.from('Date,Glucose (mg/dL),Note\n46083.25,104,"a ""b"", c\nd"\n46084.5,61,x\n'),
]

const TOKENS = [
  '"', '""', '\0', '\ufeff', '1e999', '24:00', '00/00/0000', '9007199254740993', '-0', 'mmol/L', 'HI', 'LO', '=', '\n\r',
  ';', ',', '\t', '|', '2026-02-30', '__proto__', 'constructor', '٣', '５', '−5', 'NaN', '<', '>600', 'mg/dL', '\u2028',
].map((token) => Buffer.from(token)) // prettier-ignore

type Chance = () => number

function mutated(chance: Chance): Uint8Array {
  const pick = (n: number): number => Math.floor(chance() * n)
  let bytes = Buffer.from(SEEDS[pick(SEEDS.length)])
  for (let edits = 1 + pick(4); edits > 0; edits--) {
    const at = pick(bytes.length + 1)
    const length = pick(12)
    const [head, tail] = [bytes.subarray(0, at), bytes.subarray(at)]
    const other = Buffer.from(SEEDS[pick(SEEDS.length)])
    const changed: (() => Uint8Array[])[] = [
      () => [head, Buffer.of(pick(256)), tail.subarray(1)],
      () => [head, Buffer.of(pick(256)), tail],
      () => [head, tail.subarray(length)],
      () => [head, tail.subarray(0, length), tail],
      () => [head, other.subarray(pick(other.length))],
      () => [head, TOKENS[pick(TOKENS.length)], tail],
      () => [head, TOKENS[pick(TOKENS.length)], tail.subarray(length)],
      () => [head],
      () => [head, Buffer.from(tail.toString('latin1').replaceAll(',', ';'), 'latin1')],
      () => [head, Buffer.from(tail.toString('latin1').replaceAll('\n', '\r'), 'latin1')],
    ]
    bytes = Buffer.concat(changed[pick(changed.length)]())
  }
  return bytes
}

/** What is wrong with how the log was read; null where all is well. */
function fault(bytes: Uint8Array): string | null {
  const read = readLog(logOf(bytes), { unit: 'mg/dL', dates: 'dmy' }, CONTEXT)
  if (!('table' in read)) {
    const bad = read.find((refusal) =>
      /\d{2,3}(?:[.,]\d)?(?= |$)/.test(refusalTold(refusal).replace(/\d{1,2} \p{L}+ \d{4}/gu, '')),
    )
    return read.length === 0 || bad ? `refusal without reason or with a value: ${JSON.stringify(read)}` : null
  }
  const { readings, sources } = mergeLogs([read], CONTEXT)
  const [{ rows, setAside }] = sources
  if (rows.total !== rows.accepted + rows.setAside) return 'rows do not add up'
  if (rows.accepted !== readings.n || rows.setAside !== setAside.length) return 'a row is unaccounted for'
  const lines = setAside.map(({ line }) => line)
  if (lines.some((line, i) => i > 0 && line <= lines[i - 1])) return 'lines of rows set aside do not rise'
  if (setAside.some(({ reason }) => !SET_ASIDE_REASONS.includes(reason))) return 'an unknown reason'
  return faultOfReadings(readings, bytes, read.encoding.label, new Set(lines))
}

function faultOfReadings(
  readings: Readings,
  bytes: Uint8Array,
  encoding: string,
  aside: ReadonlySet<number>,
): string | null {
  const text = new TextDecoder(encoding).decode(bytes).split(/\r\n|\r|\n/)
  const seen = new Set<number>()
  for (let i = 0; i < readings.n; i++) {
    const line = readings.line[i]
    if (line < 1 || line > text.length || seen.has(line) || aside.has(line))
      return `line ${String(line)} stands twice or nowhere`
    seen.add(line)
    const value = readings.mgDl[i]
    if (!(value >= 1 && value <= 1000)) return `impossible value ${String(value)}`
    if (i > 0 && readings.at[i] < readings.at[i - 1]) return 'readings are not in order of time'
    if (Number.isNaN(Date.parse(momentText(readings, i))))
      return `impossible moment ${momentText(readings, i)}`
    if (!standsIn(readings.logged[i], text[line - 1])) return `value of line ${String(line)} is not in it`
  }
  return null
}

/** Whether a value's digits, or a marker's word, stand in the line that it was read from. */
function standsIn(value: number, line: string): boolean {
  // An unquoted decimal comma leaves the digits in two cells; marks without width are not seen between digits.
  const digits = line.normalize('NFKC').replace(/[.,;' \u200b-\u200f\u2060\ufeff]/g, '')
  // More digits than a number holds are rounded in the last of them.
  return (
    digits.includes(String(value).replace('.', '').slice(0, 12)) || /[hl]/i.test(line) || /[<>]/.test(line)
  )
}

describe('logs changed at random', () => {
  it(
    `are read or refused: no exception, no row unaccounted for, no value out of nowhere (${String(COUNT)}, seed ${String(SEED)})`,
    {
      timeout: 3_600_000,
    },
    () => {
      const chance = fixedChance(SEED)
      for (let i = 0; i < COUNT; i++) {
        const bytes = mutated(chance)
        let wrong: string | null
        try {
          wrong = fault(bytes)
        } catch (error) {
          wrong = (error as Error).stack ?? String(error)
        }
        if (wrong !== null)
          expect.fail(`log ${String(i)}: ${wrong}\n${Buffer.from(bytes).toString('base64')}`)
      }
    },
  )
})
