import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

// Sixty odd and hostile logs with what a correct importer must do, kept beside the project where it is developed.
const ROOT = join(import.meta.dirname, '../../..')
const CORPUS = join(ROOT, '../shared/corpus')
const missing = !existsSync(CORPUS) || spawnSync('python3', ['--version']).status !== 0

describe.skipIf(missing)('the corpus of odd files (skipped where it is not at hand)', () => {
  it('comes out as expected, file by file, through the command line', { timeout: 900_000 }, () => {
    const folder = mkdtempSync(join(tmpdir(), 'visit-report-corpus-'))
    try {
      const results = join(folder, 'results.json')
      const run = [join(CORPUS, 'from_contract.py'), CORPUS, results, '--', 'report']
      execFileSync('python3', [join(ROOT, 'test/helpers/keptCommand.py'), process.execPath, ...run])
      const { stdout } = spawnSync('python3', [join(CORPUS, 'compare.py'), CORPUS, results], {
        encoding: 'utf8',
      })
      const files = Object.keys(
        (JSON.parse(readFileSync(join(CORPUS, 'expected.json'), 'utf8')) as { files: object }).files,
      )
      expect(stdout.trim().split('\n').at(-1)).toBe(`${String(files.length)} passed, 0 failed`)
    } finally {
      rmSync(folder, { recursive: true })
    }
  })
})
