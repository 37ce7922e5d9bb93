import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { KIT } from '../../../src-core/kit/kit'
import { readKit } from '../../../src-core/kit/readKit'

const ROOT = join(import.meta.dirname, '../../..')
const SCHEMA = join(ROOT, 'src-core/kit/kit.schema.json')
const SAMPLE = readFileSync(join(ROOT, 'samples/season-kit.json'), 'utf8')

/** What an independent reader of JSON schemas says. */
function accepts(kit: unknown): boolean {
  const schema = JSON.parse(readFileSync(SCHEMA, 'utf8')) as object
  return new Ajv2020({ strict: false, formats: { date: true } }).validate(schema, kit)
}

describe('the published schema of a kit', () => {
  // After a change of the shapes: npx vitest run test/src-core/kit --update
  it('is the one that the shapes give', async () => {
    const schema = { title: 'Measuring kit', ...z.toJSONSchema(KIT, { io: 'input' }) }
    await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot(SCHEMA)
  })

  it('takes the sample, as the program does', () => {
    expect(accepts(JSON.parse(SAMPLE))).toBe(true)
    expect(readKit(SAMPLE)).toHaveProperty('kit')
  })

  it.each([
    { lab: [] },
    { laboratoryA1c: [{ date: '20.5.2026', percent: 7 }] },
    { laboratoryA1c: [{ date: '2026-05-20', percent: 70 }] },
    { controls: [{ date: '2026-05-20', result: 5, range: [4], unit: 'mmol/L' }] },
    { controls: [{ date: '2026-05-20', result: 5, range: [4, 6], unit: 'mg' }] },
    { medicines: [{ milligramsADay: 4 }] },
    { canCauseLows: 'yes' },
    { questions: [''] },
  ])('refuses what the program refuses: fault %#', (kit) => {
    expect(accepts(kit)).toBe(false)
    expect(readKit(JSON.stringify(kit))).toHaveProperty('problems')
  })
})
