import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { parse } from 'csv-parse/sync'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fixedChance } from '../../helpers/analysisFixture'
import { HAS_REDIS, type RunningCli, startCli, startRedis, type TestRedis } from '../../helpers/redis'

// Workers and the Redis of a queue killed while a folder is worked at. A few logs in every run; `npm run test:kills` does a
// thousand (or as many as LOGS says), with fifty workers killed.
const SLOW = process.env.MODE === 'kills'
const LOGS = Number(process.env.LOGS ?? (SLOW ? 1_000 : 8))
const KILLS = SLOW ? 50 : 2
const WORKERS = SLOW ? 3 : 2
const LONG = 7_200_000
const MODULO = 5

let folder: string
let redis: TestRedis
let expected: readonly Record<string, string>[]
const cli = (...args: string[]) => startCli(args, { cwd: folder })
const workers: RunningCli[] = []
const startWorker = (out: string) => {
  const worker = cli('--worker', '--each', 'logs', '--out', out, '--queue', redis.url)
  workers.push(worker)
  return worker
}
const ask = (out: string) => cli('--each', 'logs', '--out', out, '--queue', redis.url)
/** Logs of which a worker kept an outcome, as often as it did. */
const outcomes = (out: string) =>
  existsSync(join(folder, out, '.queue'))
    ? readdirSync(join(folder, out, '.queue'))
        .filter((name) => name.endsWith('.jsonl'))
        .flatMap((name) =>
          readFileSync(join(folder, out, '.queue', name), 'utf8')
            .split('\n')
            .slice(0, -1),
        )
    : []
const rowsIn = (out: string) =>
  parse<Record<string, string>>(readFileSync(join(folder, out, 'overview.csv')), { columns: true })

/** A small log: three readings, one of them a low in every fifth. */
const logOf = (i: number) =>
  `Date,Time,Glucose (mg/dL)\n2026-05-01,07:10,${i % MODULO === 0 ? 61 : 101 + (i % MODULO)}\n2026-05-02,07:12,118\n2026-05-03,07:09,127\n`

describe.skipIf(!HAS_REDIS)(`a queue that is killed under ${LOGS} logs`, () => {
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'kills-'))
    mkdirSync(join(folder, 'logs'))
    mkdirSync(join(folder, 'five'))
    for (let i = 0; i < LOGS; i++) writeFileSync(join(folder, 'logs', `log-${i}.csv`), logOf(i))
    for (let i = 0; i < MODULO; i++) writeFileSync(join(folder, 'five', `log-${i}.csv`), logOf(i))
    await cli('--each', 'five', '--out', 'plain').ended
    expected = rowsIn('plain')
    redis = await startRedis()
  }, LONG)
  afterAll(async () => {
    for (const { child } of workers) child.kill('SIGKILL')
    await redis.end()
    rmSync(folder, { recursive: true })
  }, LONG)

  /** Every log once, with the figures that it has without a queue, and its report. */
  function expectAll(out: string) {
    const rows = rowsIn(out)
    expect(rows.length).toBe(LOGS)
    for (const { log, report, ...figures } of rows) {
      const like = Number(/\d+/.exec(log)) % MODULO
      const same = expected.find((row) => row.log === `log-${like}.csv`)
      expect({ ...figures, log: same?.log, report: same?.report }).toEqual(same)
      expect(existsSync(join(folder, out, report))).toBe(true)
    }
    const made = readFileSync(join(folder, out, '.made.jsonl'), 'utf8')
      .trimEnd()
      .split('\n')
    expect(new Set(made.map((line) => (JSON.parse(line) as { log: string }).log)).size).toBe(made.length)
    expect(readdirSync(join(folder, out)).filter((name) => name.endsWith('.pdf')).length).toBe(LOGS + 1)
  }

  it(
    `loses and doubles nothing when ${KILLS} workers are killed`,
    async () => {
      const chance = fixedChance(7)
      const running = Array.from({ length: WORKERS }, () => startWorker('killed'))
      const asked = ask('killed')
      let isOver = false
      void asked.ended.then(() => (isOver = true))
      let kills = 0
      for (let at = outcomes('killed').length; kills < KILLS && !isOver; kills++) {
        // Spread over the run: another one once some more logs are done.
        at += Math.max(1, Math.floor((LOGS / (KILLS + 2)) * (0.5 + chance())))
        while (outcomes('killed').length < at && !isOver) await setTimeout(20)
        await setTimeout(300 * chance())
        const which = Math.floor(chance() * WORKERS)
        running[which].child.kill('SIGKILL')
        running[which] = startWorker('killed')
      }
      const { status, stderr } = await asked.ended
      expect([status, stderr]).toEqual([0, ''])
      expectAll('killed')
      console.log(`${kills} kills; ${outcomes('killed').length} reports made for ${LOGS} logs`)
      for (const { child } of running) child.kill('SIGTERM')
      await Promise.all(running.map(({ ended }) => ended))
    },
    LONG,
  )

  it.each([
    ['comes back with its data', true],
    ['comes back without any', false],
  ])(
    'ends with all when the Redis is killed and %s, and a second run makes nothing anew',
    async (_, withData) => {
      const out = `restarted-${withData}`
      const worker = startWorker(out)
      const asked = ask(out)
      while (outcomes(out).length < LOGS / 4) await setTimeout(20)
      await redis.kill()
      await setTimeout(500)
      await redis.again(withData)
      const { status, stderr } = await asked.ended
      expect([status, stderr]).toEqual([0, expect.stringContaining('is away')])
      expect(stderr).toContain('answers again')
      expectAll(out)
      const list = readFileSync(join(folder, out, 'overview.csv'), 'utf8')
      expect((await ask(out).ended).stdout).toContain(`${LOGS} kept as they were`)
      expect(readFileSync(join(folder, out, 'overview.csv'), 'utf8')).toBe(list)
      worker.child.kill('SIGTERM')
      expect((await worker.ended).status).toBe(0)
    },
    LONG,
  )
})
