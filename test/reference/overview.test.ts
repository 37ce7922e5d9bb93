import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { spawnCli } from '../helpers/runCli'
import { hasR } from './referenceFigures'

// The list of a folder, of a real run over the samples, against R: overview.R reads the samples by itself and shares no
// code with the program nor with figures.R.

const SAMPLES = join(import.meta.dirname, '../../samples')
const SCRIPT = join(import.meta.dirname, 'overview.R')
/** The day of making that `spawnCli` sets. */
const TODAY = '2026-06-30'
const COUNTS = ['readings', 'low_episodes', 'readings_below_70', 'readings_below_54', 'days_since_last']
const FIGURES = ['percent_above_250', 'mean_mg_dl', 'cv_percent']

type Row = Readonly<Record<string, string>>
const byLog = (csv: string) =>
  new Map(parse<Row>(csv, { columns: true, bom: true }).map((row) => [row.log, row]))

describe('the list of a folder', () => {
  it.skipIf(!hasR)(
    'has the figures that R computes from the logs themselves (skipped where R is not installed)',
    () => {
      const r = spawnSync('Rscript', [SCRIPT, SAMPLES, TODAY], {
        encoding: 'utf8',
        env: { ...process.env, LC_ALL: 'C.UTF-8' },
      })
      expect([r.status, r.stderr]).toEqual([0, ''])
      const out = mkdtempSync(join(tmpdir(), 'overview-'))
      try {
        const { status, stderr } = spawnCli(['--each', SAMPLES, '--out', out], { cwd: out })
        expect([status, stderr]).toEqual([0, ''])
        const program = byLog(readFileSync(join(out, 'overview.csv'), 'utf8'))
        const reference = byLog(r.stdout)
        const logs = readdirSync(SAMPLES).filter((file) => file.endsWith('.csv'))
        expect([...reference.keys()].sort()).toEqual(logs)
        expect([...program.keys()].sort()).toEqual(logs)
        for (const [log, row] of reference) {
          const listed = program.get(log)
          for (const name of COUNTS) expect([log, name, listed?.[name]]).toEqual([log, name, row[name]])
          for (const name of FIGURES) {
            expect(Math.abs(Number(listed?.[name]) - Number(row[name])), `${log} ${name}`).toBeLessThan(
              1e-9 * Number(row[name]),
            )
          }
        }
      } finally {
        rmSync(out, { recursive: true })
      }
    },
  )
})
