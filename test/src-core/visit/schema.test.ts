import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { readVisit, visitText } from '../../../src-core/visit/visitFile'
import { HEADER, PART } from '../../../src-core/visit/visitShapes'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { protect } from '../../../src-main/files/protection'
import { anyVisit } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

const SCHEMA = join(import.meta.dirname, '../../../src-core/visit/visit.schema.json')

describe('the published schema of a line of a visit file', () => {
  // After a change of the shapes: npx vitest run test/src-core/visit --update
  it('is the one that the shapes give', async () => {
    const schema = {
      title: 'One line of a visit file, without its checksum',
      ...z.toJSONSchema(z.union([HEADER, PART]), { io: 'input' }),
    }
    await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot(SCHEMA)
  })

  /** What an independent reader of JSON schemas says. */
  function accepts(line: unknown): boolean {
    compiled ??= new Ajv2020({ strict: false, formats: { date: true } }).compile(
      JSON.parse(readFileSync(SCHEMA, 'utf8')) as object,
    )
    return compiled(line)
  }
  let compiled: ValidateFunction | undefined

  it('takes every line of any visit', () => {
    fc.assert(
      fc.property(anyVisit, (visit) => {
        const [header, ...lines] = visitText(visit, BYTE_TOOLS).trimEnd().split('\n')
        expect(accepts(JSON.parse(header))).toBe(true)
        for (const line of lines) expect([line, accepts(JSON.parse(line.slice(65)))]).toEqual([line, true])
      }),
    )
  })

  it('takes the first line of a protected file', async () => {
    const [header] = (await protect('', 'passphrase')).split('\n')
    expect(accepts(JSON.parse(header))).toBe(true)
    expect(accepts(JSON.parse(header.replace('"N":131072', '"N":1073741824')))).toBe(false)
  })

  it.each([
    { part: 'typed', typed: { at: '2.3.2026', value: 5, unit: 'mmol/L' } },
    { part: 'typed', typed: { at: '2026-03-02T24:00', value: 5, unit: 'mmol/L' } },
    { part: 'log', log: { name: 'x', sha256: 'x', answers: {}, base64: '' } },
    { part: 'end' },
    { part: 'other' },
  ])('refuses what the program refuses: %#', (part) => {
    const [header, settings] = visitText({ ...fc.sample(anyVisit, 1)[0] }, BYTE_TOOLS).split('\n')
    const read = readVisit(ENGLISH, [header, settings, JSON.stringify(part)].join('\n'), BYTE_TOOLS)
    expect(accepts(part)).toBe(false)
    expect(read).toHaveProperty('damage.0', expect.stringContaining('Line 3 is damaged'))
  })
})
