import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../src-core/visit/visit'
import { loadVisit, saveVisit } from '../../src-main/files/visitStore'
import { inventedLog } from '../helpers/analysisFixture'
import { visitLog } from '../helpers/visits'
import { ENGLISH } from '../../src-core/wording/english'

/** A year of five tests a day with notes, and two hundred decisions. */
const ROWS = inventedLog({ days: 365 })
const LOG = visitLog('year.csv', `Time,Glucose (mg/dL),Meal\n${ROWS.map(({ at, value, meal }) => `${at},${value},${meal}\n`).join('')}`) // prettier-ignore
const VISIT: Visit = {
  ...EMPTY_VISIT,
  logs: [LOG],
  decisions: ROWS.slice(0, 200).map(({ at, value }) => ({
    reading: {
      at: at.replace(' ', 'T'),
      value: String(value),
      unit: 'mg/dL',
      meter: 'meter A',
      log: LOG.sha256,
    },
    choice: 'keep',
    reason: 'washed my hands',
    decidedAt: '2026-03-20T10:00',
  })),
}

it.each([
  ['in clear', null],
  ['protected', 'correct horse'],
])('a year’s visit %s: saved and opened', async (name, passphrase) => {
  const folder = mkdtempSync(join(tmpdir(), 'visit-report-bench-'))
  const path = join(folder, 'year.visit')
  const times: { save: number[]; load: number[] } = { save: [], load: [] }
  for (let i = 0; i < 12; i++) {
    const start = performance.now()
    await saveVisit({ path, visit: VISIT, passphrase, openedAs: null })
    const saved = performance.now()
    const loaded = await loadVisit(ENGLISH, path, () => Promise.resolve(passphrase ?? ''))
    times.load.push(performance.now() - saved)
    times.save.push(saved - start)
    expect(loaded).toMatchObject({ kind: 'loaded', damage: [] })
  }
  const median = (of: number[]) => [...of].sort((a, b) => a - b)[6].toFixed(1)
  console.log(`${name}: ${(statSync(path).size / 1024).toFixed(0)} kB, saved in ${median(times.save)} ms, opened in ${median(times.load)} ms (medians of 12)`) // prettier-ignore
  rmSync(folder, { recursive: true })
})
