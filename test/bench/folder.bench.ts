import { spawn, spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { inventedLog } from '../helpers/analysisFixture'
import { CLI } from '../helpers/runCli'

// `--each` as a person runs it, on as many logs as LOGS says: pace, seconds of CPU, and whether memory stays flat.

const LOGS = Number(process.env.LOGS ?? 20)
const DAYS = 90
const EVERY_MS = 100
const TICKS_PER_SECOND = Number(spawnSync('getconf', ['CLK_TCK'], { encoding: 'utf8' }).stdout)
const BYTES_PER_PAGE = Number(spawnSync('getconf', ['PAGESIZE'], { encoding: 'utf8' }).stdout)
/** Memory and time of processes are read there. */
const hasProc = existsSync('/proc/self/stat')
const hasTaskset = spawnSync('taskset', ['--version']).status === 0

let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'folder-bench-'))
  mkdirSync(join(folder, 'logs'))
  for (let seed = 1; seed <= LOGS; seed++) {
    // No two logs alike: other readings, level, spread and length.
    const rows = inventedLog({
      days: DAYS - (seed % 30),
      seed,
      centre: 120 + (seed % 60),
      spread: 0.2 + (seed % 20) / 100,
    })
    const lines = rows.map(({ at, value, meal }) => `${at},${value},${meal}\n`)
    writeFileSync(
      join(folder, 'logs', `log ${String(seed).padStart(5, '0')}.csv`),
      `Time,Glucose (mg/dL),Meal\n${lines.join('')}`,
    )
  }
})
afterAll(() => rmSync(folder, { recursive: true }))

interface OfProcess {
  readonly parent: number
  readonly cpuSeconds: number
  readonly rssBytes: number
}

/** A process as /proc tells it, its threads included; null where it has ended. */
function processAt(pid: number): OfProcess | null {
  try {
    // The name in brackets may hold anything; after it: state, parent, ... (proc(5)).
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8')
    const fields = text.slice(text.lastIndexOf(')') + 2).split(' ')
    return {
      parent: Number(fields[1]),
      cpuSeconds: (Number(fields[11]) + Number(fields[12])) / TICKS_PER_SECOND,
      rssBytes: Number(fields[21]) * BYTES_PER_PAGE,
    }
  } catch {
    return null
  }
}

/** A process and all below it. */
function treeOf(root: number): ReadonlyMap<number, OfProcess> {
  const all = new Map<number, OfProcess>()
  for (const name of readdirSync('/proc')) {
    const one = /^\d+$/.test(name) ? processAt(Number(name)) : null
    if (one !== null) all.set(Number(name), one)
  }
  const tree = new Map<number, OfProcess>()
  const add = (pid: number) => {
    const one = all.get(pid)
    if (one === undefined || tree.has(pid)) return
    tree.set(pid, one)
    for (const [child, { parent }] of all) if (parent === pid) add(child)
  }
  add(root)
  return tree
}

const cases: readonly (readonly [name: string, cores: number])[] = [
  ['1 thread', 1],
  ['2 threads', 2],
]

it.skipIf(!hasProc || !hasTaskset).each(cases)(
  `${LOGS} logs, %s (skipped where there is no /proc or taskset)`,
  async (name, cores) => {
    if (cores > availableParallelism()) {
      console.log(`${name}: not run, this computer has ${availableParallelism()} core`)
      return
    }
    const out = join(folder, name)
    const made = join(out, '.made.jsonl')
    const start = performance.now()
    // The program takes as many threads as it is given cores.
    const child = spawn(
      'taskset',
      ['-c', cores === 1 ? '0' : `0-${cores - 1}`, process.execPath, CLI].concat([
        '--each',
        join(folder, 'logs'),
        '--out',
        out,
        '--quiet',
      ]),
      { stdio: ['ignore', 'ignore', 'inherit'] },
    )
    const ended = new Promise<number | null>((resolve) => child.on('close', resolve))
    const cpu = new Map<number, number>()
    /** Most bytes held up to a tenth, from there to half, from there to the end. */
    const most = [0, 0, 0]
    const timer = setInterval(() => {
      const tree = treeOf(child.pid ?? -1)
      for (const [pid, { cpuSeconds }] of tree) cpu.set(pid, cpuSeconds)
      const rss = [...tree.values()].reduce((sum, { rssBytes }) => sum + rssBytes, 0)
      const done = existsSync(made) ? readFileSync(made, 'utf8').split('\n').length - 1 : 0
      const part = done <= LOGS / 10 ? 0 : done <= LOGS / 2 ? 1 : 2
      most[part] = Math.max(most[part], rss)
    }, EVERY_MS)
    const status = await ended
    clearInterval(timer)
    const seconds = (performance.now() - start) / 1000
    expect([status, readdirSync(out).filter((file) => file.startsWith('log ')).length]).toEqual([0, LOGS])
    const cpuSeconds = [...cpu.values()].reduce((sum, one) => sum + one, 0)
    const [tenth, half, whole] = most.map((bytes) => Math.round(bytes / 1e6))
    console.log(
      `${name}, bound to as many cores: ${LOGS} logs of ${DAYS - 29} to ${DAYS} days in ${seconds.toFixed(1)} s, ` +
        `${Math.round((LOGS / seconds) * 3600)} reports an hour, ${(cpuSeconds / LOGS).toFixed(2)} s of CPU a log; ` +
        `peak RSS of the process tree (/proc, every ${EVERY_MS} ms): ${tenth} MB to a tenth, ` +
        `${half} MB from there to half, ${whole} MB from there to the end`,
    )
  },
  3_600_000,
)
