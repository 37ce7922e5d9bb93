import { isDeepStrictEqual } from 'node:util'
import { expect, it } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { readVisit, visitText } from '../../../src-core/visit/visitFile'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { fixedChance } from '../../helpers/analysisFixture'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

// Visit files changed at random. Two thousand in every run; `npm run test:mutations` tries 100,000, with another seed
// each day.
const SLOW = process.env.MODE === 'mutations'
const COUNT = SLOW ? 100_000 : 2_000
const SEED = SLOW ? Math.floor(Date.now() / 86_400_000) : 11

const LOG = 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-02,12:00,61\n2026-03-03,07:00,148\n'
const READING = {
  at: '2026-03-02T12:00',
  value: '61',
  unit: 'mg/dL',
  meter: 'meter A',
  log: 'a'.repeat(64),
} as const
const VISITS: readonly Visit[] = [
  EMPTY_VISIT,
  { ...EMPTY_VISIT, logs: [visitLog('a.csv', LOG), visitLog('b.csv', `${LOG}2026-03-04,07:00,99\n`, { unit: 'mg/dL' })] },
  {
    logs: [visitLog('ä.csv', LOG)],
    typed: [61, 104].map((value) => ({ at: '2026-03-02T07:10', value, unit: 'mg/dL', note: 'wet “finger”' })),
    decisions: ['104', '61'].map((value) => ({
      reading: { ...READING, value },
      choice: 'keep',
      reason: 'sweets',
      decidedAt: '2026-03-05T10:00',
    })),
    kit: { questions: ['Which strips?'], canCauseLows: true, laboratoryA1c: [{ date: '2026-02-01', percent: 7.1 }] },
    shifts: [{ from: 20_500, to: 20_510, minutes: 720 }],
    period: { from: 20_500, to: 20_520 },
    versus: { from: 20_400, to: 20_499 },
    targets: { low: 70, high: 150 },
    goal: { low: 90, high: 150 },
    unit: 'mmol/L',
    zone: 'Europe/Berlin',
    paper: 'Letter',
    label: 'Thursday',
    diary: 14,
  },
] // prettier-ignore
const TEXTS = VISITS.map((visit) => visitText(visit, BYTE_TOOLS))
const BYTES = TEXTS.map((text) => Buffer.from(text))

const TOKENS = [
  '"', '{', '}', '[', ']', ',', ':', '\n', '\r\n', '\0', '\\', '\\u0000', '1e999', '-0', 'null', 'true', '__proto__',
  '"__proto__":{"x":1},', 'constructor', '2026-02-30', 'mmol/L', '\ufeff', '{"part":"end","parts":0}\n',
  '{"part":"log"}\n', '\u2028', 'protected', '64',
].map((token) => Buffer.from(token)) // prettier-ignore

/** One of the files with one to four changes of its bytes or of its lines. */
function mutated(chance: () => number): { readonly bytes: Buffer; readonly visit: Visit } {
  const pick = (n: number): number => Math.floor(chance() * n)
  const which = pick(BYTES.length)
  let bytes = BYTES[which]
  for (let edits = 1 + pick(4); edits > 0; edits--) {
    const at = pick(bytes.length + 1)
    const length = pick(90)
    const [head, tail] = [bytes.subarray(0, at), bytes.subarray(at)]
    const other = BYTES[pick(BYTES.length)]
    const token = TOKENS[pick(TOKENS.length)]
    const lines = bytes.toString('latin1').split('\n')
    const [a, b] = [pick(lines.length), pick(lines.length)]
    const joined = (changed: readonly string[]) => [Buffer.from(changed.join('\n'), 'latin1')]
    const changes: (() => Uint8Array[])[] = [
      () => [head, Buffer.of((tail[0] ?? 0) ^ (1 << pick(8))), tail.subarray(1)],
      () => [head, Buffer.of(pick(256)), tail],
      () => [head, tail.subarray(length)],
      () => [head, tail.subarray(0, length), tail],
      () => [head, other.subarray(pick(other.length))],
      () => [head, token, tail],
      () => [head, token, tail.subarray(length)],
      () => [head],
      () => joined(lines.toSpliced(a, 1)),
      () => joined(lines.toSpliced(a, 0, lines[b])),
      () => joined(lines.with(a, lines[b]).with(b, lines[a])),
      // A checksum taken off, as by someone who edits the file.
      () => joined(lines.with(a, lines[a].slice(65))),
      () => joined(lines.with(a, lines[a].slice(65).replace(/\d(?=\D*$)/, String(pick(10))))),
      () => joined(lines.toSpliced(a, 0, other.toString('latin1').split('\n')[b] ?? '')),
    ]
    bytes = Buffer.concat(changes[pick(changes.length)]())
  }
  return { bytes, visit: VISITS[which] }
}

it(
  `${COUNT} damaged files are opened as they were saved, salvaged and said so, or refused (seed ${SEED})`,
  () => {
    const chance = fixedChance(SEED)
    const told = { whole: 0, salvaged: 0, refused: 0 }
    for (let i = 0; i < COUNT; i++) {
      const { bytes, visit } = mutated(chance)
      const text = bytes.toString('utf8')
      const read = readVisit(ENGLISH, text, BYTE_TOOLS)
      if (read.kind === 'refused') {
        told.refused++
        expect(read.message).not.toBe('')
      } else if (read.damage.length > 0) told.salvaged++
      else {
        told.whole++
        // Another of the three, whole, is what a splice of their first lines gives.
        const isOne =
          isDeepStrictEqual(read.visit, visit) || VISITS.some((of) => isDeepStrictEqual(read.visit, of))
        if (!isOne) expect(text, 'opened without a word as what was never saved').toBe('')
      }
    }
    expect(Object.prototype).not.toHaveProperty('x')
    // All three happen often enough to be worth looking at.
    expect(Math.min(...Object.values(told))).toBeGreaterThan(COUNT / 200)
  },
  SLOW ? 3_600_000 : undefined,
)
