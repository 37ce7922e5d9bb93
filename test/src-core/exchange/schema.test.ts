import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { ENGLISH } from '../../../src-core/wording/english'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { CONTEXT, logOf } from '../../helpers/logs'
import { EDGE_NAMES, edgeLog } from '../../helpers/pages'
import { sample } from '../../helpers/runCli'

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json }
type Schema = Record<string, unknown>

const SCHEMA = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../../src-core/exchange/report.schema.json'), 'utf8'),
) as Schema

/** The schema with no room for a member that it does not describe: an independent reader then finds each that is new. */
function closed(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(closed)
  if (typeof schema !== 'object' || schema === null) return schema
  const told = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closed(value)]))
  const isOpen = 'properties' in told && !('additionalProperties' in told) && 'type' in told
  return isOpen ? { ...told, additionalProperties: false } : told
}
const takes = new Ajv2020({ strict: false, allErrors: true }).compile(closed(SCHEMA) as Schema)

function faults(json: unknown): readonly string[] {
  takes(json)
  return (takes.errors ?? []).map(
    ({ instancePath, message, params }) => `${instancePath} ${message} ${JSON.stringify(params)}`,
  )
}

const jsonOf = (analysis: Analysis) =>
  JSON.parse(JSON.stringify(reportJson(ENGLISH, analysis, { name: 'x', version: '1' }))) as {
    readonly [key: string]: Json
  }

function opened(name: string, options: Parameters<typeof openVisit>[1] = {}): Analysis {
  const outcome = openVisit([logOf(readFileSync(sample(name), 'utf8'))], options, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(`the sample was ${outcome.kind}`)
  return outcome.analysis
}

const day = (text: string) => parseIsoDay(text) ?? NaN

const ANALYSES: readonly (readonly [string, () => Analysis])[] = [
  ...['season-two-meters', 'europe-mmol', 'technique-morning', 'two-months'].map(
    (name) => [`sample ${name}`, () => opened(`${name}.csv`)] as const,
  ),
  ...EDGE_NAMES.filter((name) => name !== 'ten years').map((name) => [name, () => edgeLog(name)] as const),
  ['a sensor', () => analysisOf(inventedLog({ days: 9 }).map((row) => ({ ...row, sensor: true })))],
  [
    'two periods',
    () =>
      opened('two-months.csv', {
        period: { from: day('2026-05-01'), to: day('2026-05-31') },
        versus: { from: day('2026-04-01'), to: day('2026-04-30') },
      }),
  ],
  ['pregnancy', () => opened('season-two-meters.csv', { targets: 'pregnancy' })],
]

describe('the published schema of the numbers', () => {
  it.each(ANALYSES)('describes every member of %s, and what each is', (_, made) => {
    expect(faults(jsonOf(made()))).toEqual([])
  })

  it('refuses what is none of them', () => {
    const json = jsonOf(analysisOf(inventedLog({ days: 20 })))
    expect(faults(json)).toEqual([])
    expect(faults({ ...json, schemaVersion: 99 })).toHaveLength(1)
    expect(faults({ ...json, technique: undefined })).toHaveLength(1)
    expect(faults({ ...json, score: 7 })).toHaveLength(1)
    const [period] = json['periods'] as readonly { readonly [key: string]: Json }[]
    expect(faults({ ...json, periods: [{ ...period, days: '20' }] })).toHaveLength(1)
    expect(faults({ ...json, periods: [{ ...period, from: '2.3.2026' }] })).toHaveLength(1)
  })
})
