import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { quantile } from 'simple-statistics'
import { it } from 'vitest'
import { CLI, sample } from '../helpers/runCli'

const RUNS = 15
/** What V8 takes where nothing is set (`node --v8-options`). */
const OWN_BUDGET = 67_584

it('the whole command on a log of 90 days, PDF and JSON: as built, and without what makes it start faster', () => {
  const built = dirname(CLI)
  const folder = mkdtempSync(join(tmpdir(), 'command-'))
  const variant = (name: string, change: (main: string) => void) => {
    const root = join(folder, name)
    cpSync(built, join(root, 'out/main'), { recursive: true })
    cpSync(join(built, '../../package.json'), join(root, 'package.json'))
    symlinkSync(join(built, '../../node_modules'), join(root, 'node_modules'))
    change(join(root, 'out/main'))
    return { name, cli: join(root, 'out/main/cli.js'), times: [] as number[] }
  }
  const withoutCompiled = (main: string) => rmSync(join(main, 'report.cjs.compiled'))
  const variants = [
    variant('as built', () => undefined),
    variant('not compiled before', withoutCompiled),
    variant('not compiled before, optimized as V8 would', (main) => {
      withoutCompiled(main)
      const [chunk] = readdirSync(join(main, 'chunks')).filter((name) => name.startsWith('codeCache'))
      const path = join(main, 'chunks', chunk)
      const code = readFileSync(path, 'utf8')
      const own = code.replace(/(--interrupt-budget=)[^`'"]+/, `$1${OWN_BUDGET}`)
      if (own === code) throw new Error('The budget was not found.')
      writeFileSync(path, own)
    }),
  ]
  const outputs = ['--out', join(folder, 'report.pdf'), '--json', join(folder, 'report.json')]
  for (let run = -1; run < RUNS; run++) {
    for (const { cli, times } of variants) {
      const start = performance.now()
      const { status } = spawnSync(process.execPath, [cli, sample('season-two-meters.csv'), ...outputs])
      if (status !== 0) throw new Error(`The command ended with ${status}.`)
      // The first is to warm up.
      if (run >= 0) times.push(performance.now() - start)
    }
  }
  rmSync(folder, { recursive: true })
  for (const { name, times } of variants) {
    const [least, median, most] = [0, 0.5, 1].map((p) => Math.round(quantile(times, p)))
    console.log(`${name}: median ${median} ms (${least} to ${most}), ${RUNS} runs`)
  }
})
