import { expect, it } from 'vitest'
import type { CsvRecord } from '../../../src-core/log/records'
import { RecordStream } from '../../../src-core/log/tables/recordStream'

// Records come in their order, whatever was looked at ahead or put back.

function recordAt(line: number): CsvRecord {
  return { line, cells: [String(line)], text: String(line) }
}

function* records(count: number): Generator<CsvRecord> {
  for (let line = 1; line <= count; line++) yield recordAt(line)
}

it.each([0, 1, 12, 240])('a look %i records ahead of each changes nothing', (ahead) => {
  const stream = new RecordStream(records(5_000))
  const lines: number[] = []
  for (let record = stream.next(); record !== null; record = stream.next()) {
    lines.push(record.line)
    const next = stream.peek(ahead).map(({ line }) => line)
    expect(next).toEqual(
      Array.from({ length: Math.min(ahead, 5_000 - record.line) }, (_, i) => record.line + 1 + i),
    )
  }
  expect(lines).toEqual(Array.from({ length: 5_000 }, (_, i) => i + 1))
})

it.each([0, 1, 999, 1_000, 1_001])('a record put back after %i others comes again', (taken) => {
  const stream = new RecordStream(records(3_000))
  stream.peek(2_000)
  stream.skip(taken)
  const record = stream.next()
  if (record === null) throw new Error('no record')
  stream.giveBack(record)
  expect(stream.next()?.line).toBe(taken + 1)
  expect(stream.next()?.line).toBe(taken + 2)
})

it('a record put back comes again where nothing was looked at ahead', () => {
  const stream = new RecordStream(records(3))
  const first = stream.next()
  if (first === null) throw new Error('no record')
  stream.giveBack(first)
  expect(
    [stream.next(), stream.next(), stream.next(), stream.next()].map((record) => record?.line ?? null),
  ).toEqual([1, 2, 3, null])
})
