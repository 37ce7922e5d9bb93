import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { runCli, sample } from '../../helpers/runCli'

// How many sheets a usual report takes: a clinic prints, copies and scans each of them.

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-count-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true })
})

const SEASON = sample('season-two-meters.csv')
const KIT = ['--kit', sample('season-kit.json')]

it.each([
  ['a season of two meters', 'A4', 5, [SEASON]],
  ['a season of two meters', 'Letter', 6, [SEASON]],
  ['the same with what the person told', 'A4', 6, [SEASON, ...KIT]],
  ['the same with what the person told', 'Letter', 7, [SEASON, ...KIT]],
  ['two months in mmol/L', 'A4', 5, [sample('europe-mmol.csv')]],
  ['two months in mmol/L', 'Letter', 5, [sample('europe-mmol.csv')]],
] as const)('of %s on %s has at most %i pages', async (_, paper, most, args) => {
  const { status } = runCli([...args, '--paper', paper, '--out', 'report.pdf', '--replace'], { cwd: folder })
  expect(status).toBe(0)
  const pdf = await getDocumentProxy(new Uint8Array(readFileSync(join(folder, 'report.pdf'))))
  expect(pdf.numPages).toBeLessThanOrEqual(most)
})
