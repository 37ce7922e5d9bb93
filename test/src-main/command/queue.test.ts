import { spawnSync } from 'node:child_process'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { Queue } from 'bullmq'
import { Redis } from 'ioredis'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { freePort, HAS_REDIS, startCli, startRedis, type TestRedis } from '../../helpers/redis'
import { sample, spawnCli } from '../../helpers/runCli'

// A folder of logs whose reports other programs make, by a queue in a Redis.

const PASSWORD = 'pass/word#7'
const AS_PERSON = { REDIS_PASSWORD: PASSWORD }
const NOTE = 'MARKNOTE'
const LABEL = 'MARKLABEL'

let folder: string
const at = (...names: string[]) => join(folder, ...names)
const cli = (args: readonly string[], env: Record<string, string> = {}) =>
  startCli(args, { cwd: folder, env })
/** How reports are asked for in these tests, with all that could go another way than without a queue. */
const OPTIONS = ['--label', LABEL, '--diary', 'all', '--kit', 'kit.json']

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'queue-'))
  mkdirSync(at('logs', 'anna'), { recursive: true })
  writeFileSync(
    at('logs', 'one.csv'),
    `Date,Time,Glucose (mg/dL),Note\n2026-05-01,07:10,61,${NOTE}\n2026-05-02T23:30Z,,118,\n`,
  )
  writeFileSync(at('logs', 'anna', 'first.csv'), 'Date,Time,Glucose (mg/dL)\n2026-02-01,07:10,52\n')
  writeFileSync(at('logs', 'anna', 'second.csv'), 'Date,Time,Glucose (mg/dL)\n2026-02-02,07:10,99\n')
  writeFileSync(at('logs', 'told.csv'), 'Date,Glucose\n2026-03-02 07:10,21\n2026-03-03 07:10,25\n')
  writeFileSync(at('logs', 'asks.csv'), 'Date,Glucose\n2026-03-02 07:10,20\n2026-03-03 07:10,22\n')
  writeFileSync(at('logs', 'answers.csv'), 'file,unit,label\ntold.csv,mmol/L,MARKROOM\n')
  writeFileSync(at('logs', 'letter.csv'), 'Dear colleague,\nthank you for the referral.\n')
  writeFileSync(at('kit.json'), '{ "questions": ["MARKQUESTION"] }')
  copyFileSync(at('kit.json'), at('elsewhere.csv'))
  symlinkSync(at('elsewhere.csv'), at('logs', 'outside.csv'))
  const visit = ['--no-pdf', '--save', 'logs/sealed.visit', '--protect', '--passphrase-fd', '0']
  spawnCli([sample('technique-morning.csv'), ...visit], { cwd: folder, input: 'secret\n' })
  await cli(['--each', 'logs', '--out', 'plain', ...OPTIONS]).ended
})
afterAll(() => rmSync(folder, { recursive: true }))

/** All that stands in a folder of reports for people, by name. */
const filesIn = (out: string) =>
  readdirSync(at(out))
    .filter((name) => !name.startsWith('.'))
    .map((name) => [name, readFileSync(at(out, name), 'base64')])

const outcomesIn = (out: string) =>
  readdirSync(at(out, '.queue'))
    .filter((name) => name.endsWith('.jsonl'))
    .flatMap((name) =>
      readFileSync(at(out, '.queue', name), 'utf8')
        .trimEnd()
        .split('\n'),
    )

describe.skipIf(!HAS_REDIS)('a folder of logs by a queue', () => {
  let redis: TestRedis
  beforeAll(async () => void (redis = await startRedis('--requirepass', PASSWORD)))
  const clients: Redis[] = []
  /** A connection of the test itself. */
  const connected = () => {
    const client = new Redis({ port: redis.port, password: PASSWORD, maxRetriesPerRequest: null })
    clients.push(client)
    return client
  }
  afterAll(async () => {
    for (const client of clients) client.disconnect()
    await redis.end()
  })

  const folders = (out: string) => ['--each', 'logs', '--out', out, '--queue', redis.url]
  const worker = (out: string, env = {}) => cli(['--worker', ...folders(out)], { ...AS_PERSON, ...env })
  const ask = (out: string) => cli([...folders(out), ...OPTIONS], AS_PERSON)

  it('gives the reports and lists that it gives without, and paths and hashes alone go over the network', async () => {
    const watch = await connected().monitor()
    const seen: string[] = []
    watch.on('monitor', (_time: string, args: string[]) => seen.push(args.join(' ')))
    // A worker in another zone, with a clock of its own.
    const running = worker('reports', { TZ: 'Pacific/Apia', SOURCE_DATE_EPOCH: '' })
    const { status, stdout } = await ask('reports').ended
    expect([status, stdout]).toEqual([3, expect.stringContaining('3 reports made; 4 without')])
    expect(filesIn('reports')).toEqual(filesIn('plain'))
    running.child.kill('SIGTERM')
    expect(await running.ended).toMatchObject({ status: 0, stderr: '' })
    watch.disconnect()
    const all = seen.join('\n')
    expect(all).toContain('anna/first.csv')
    for (const told of [
      NOTE,
      LABEL,
      'MARKROOM',
      'MARKQUESTION',
      'mg/dL',
      'mmol',
      'meanMgDl',
      folder,
      'colleague',
    ])
      expect([told, all.includes(told)]).toEqual([told, false])
    expect((await ask('reports').ended).stdout).toContain('3 kept as they were')
  })

  it('is done once where two computers ask for it', async () => {
    const asking = [ask('both'), ask('both')]
    const running = [worker('both'), worker('both')]
    for (const { ended } of asking) expect((await ended).status).toBe(3)
    expect(filesIn('both')).toEqual(filesIn('plain'))
    // Six logs: the seventh leads out of the folder.
    expect(outcomesIn('both').length).toBe(6)
    for (const { child } of running) child.kill('SIGTERM')
    for (const { ended } of running) expect((await ended).status).toBe(0)
  })

  it('goes on after the one that asked was killed: what is in the queue is not done again', async () => {
    const first = ask('stopped')
    const queue = await queueOf('stopped')
    while ((await queue.getJobCounts('waiting')).waiting < 6) await setTimeout(50)
    first.child.kill('SIGKILL')
    await first.ended
    const running = worker('stopped')
    while (!existsSync(at('stopped', '.queue')) || outcomesIn('stopped').length < 6) await setTimeout(50)
    rmSync(at('stopped', 'told.pdf'))
    expect((await ask('stopped').ended).status).toBe(3)
    expect(filesIn('stopped')).toEqual(filesIn('plain'))
    // The report that was removed meanwhile.
    expect(outcomesIn('stopped').length).toBe(7)
    running.child.kill('SIGTERM')
    await running.ended
    await queue.close()
  })

  /** The queue of a folder of reports, once somebody has asked. */
  async function queueOf(out: string) {
    const id = at(out, '.queue', 'id')
    while (!existsSync(id)) await setTimeout(50)
    return new Queue(`visit-report-${readFileSync(id, 'utf8')}`, { connection: connected() })
  }

  it('leaves what a newer version asks for to others, and says so', async () => {
    mkdirSync(at('newer', '.queue'), { recursive: true })
    writeFileSync(at('newer', '.queue', 'id'), 'newer')
    const queue = await queueOf('newer')
    const { id = '' } = await queue.add('log', { version: '99.0.0' }, { attempts: 3 })
    const { status, stderr } = await worker('newer').ended
    expect([status, stderr]).toEqual([2, expect.stringContaining('asked for by version 99.0.0')])
    const job = await queue.getJob(id)
    expect([await job?.getState(), job?.attemptsMade]).toEqual(['delayed', 0])
    await queue.close()
  })

  it('reads and writes nothing outside its folders, whatever stands in the queue', async () => {
    mkdirSync(at('outside', '.queue'), { recursive: true })
    writeFileSync(at('outside', '.queue', 'id'), 'outside')
    const queue = await queueOf('outside')
    const hash = '0'.repeat(64)
    const log = { name: 'x', paths: ['../elsewhere.csv'], report: '../x.pdf' }
    const data = { version: '0.1.0', log, meant: hash, options: hash, settings: hash }
    const { id = '' } = await queue.add('log', data)
    const running = worker('outside')
    while ((await queue.getJob(id))?.finishedOn === undefined) await setTimeout(50)
    expect((await queue.getJob(id))?.failedReason).toBe('other-inputs')
    expect([existsSync(at('x.pdf')), readdirSync(at('outside'))]).toEqual([false, ['.queue']])
    running.child.kill('SIGTERM')
    await running.ended
    await queue.close()
  })

  it('says what is wrong with the log-in, and never the password', async () => {
    for (const env of [{}, { REDIS_PASSWORD: 'MARKWRONG' }]) {
      const { status, stderr, stdout } = await cli(folders('none'), env).ended
      expect([status, stderr]).toEqual([2, expect.stringContaining('refuses the log-in')])
      expect(stderr + stdout).not.toContain('MARKWRONG')
    }
    const typed = redis.url.replace('//', `//:${encodeURIComponent(PASSWORD)}@`)
    const client = connected()
    await client.config('SET', 'maxmemory-policy', 'allkeys-lru')
    const evicting = await cli(['--each', 'logs', '--out', 'none', '--queue', typed]).ended
    expect([evicting.status, evicting.stderr]).toEqual([2, expect.stringContaining('allkeys-lru')])
    await client.config('SET', 'maxmemory-policy', 'noeviction')
    await client.config('SET', 'maxmemory', '1')
    const full = await cli(['--each', 'logs', '--out', 'none', '--queue', typed]).ended
    expect([full.status, full.stderr]).toEqual([4, expect.stringContaining('The Redis is full')])
    await client.config('SET', 'maxmemory', '0')
  })
})

describe('a queue that cannot be used', () => {
  const SECRET = 'MARKSECRET'

  it.each([
    ['http://host', 'takes the address'],
    [`redis://:${SECRET}/0@host`, 'takes the address'],
    [`redis://${SECRET}#${SECRET}@host`, 'takes the address'],
    [`redis:/${SECRET}`, 'takes the address'],
    [`redis://%${SECRET}@host`, 'takes the address'],
    [SECRET, 'takes the address'],
  ])('is a wrong command: %s', async (address, told) => {
    const { status, stderr } = await cli(['--each', 'logs', '--out', 'none', '--queue', address]).ended
    expect([status, stderr]).toEqual([2, expect.stringContaining(told)])
    expect(stderr).not.toContain(SECRET)
  })

  it('is told where nobody answers, for who asks and for a worker', async () => {
    const port = await freePort()
    const args = ['--each', 'logs', '--out', 'none', '--queue', `redis://:${SECRET}@127.0.0.1:${port}`]
    for (const kind of [[], ['--worker']]) {
      const { status, stderr } = await cli([...args, ...kind]).ended
      expect([status, stderr]).toEqual([4, expect.stringContaining(`No Redis answers at 127.0.0.1:${port}`)])
      expect(stderr).not.toContain(SECRET)
    }
  })

  it('says what to install where its packages are missing', async () => {
    writeFileSync(
      at('without.mjs'),
      `import { register } from 'node:module'
       register('data:text/javascript,' + encodeURIComponent(
         "export const resolve = (name, context, next) => { if (name === 'bullmq') throw new Error(name); return next(name, context) }"))\n`,
    )
    const env = { NODE_OPTIONS: `--import ${at('without.mjs')}` }
    const { status, stderr } = await cli(
      ['--each', 'logs', '--out', 'none', '--queue', 'redis://127.0.0.1'],
      env,
    ).ended
    const { optionalDependencies } = JSON.parse(
      readFileSync(join(import.meta.dirname, '../../../package.json'), 'utf8'),
    ) as { optionalDependencies: Record<string, string> }
    const packages = Object.entries(optionalDependencies).map((pair) => pair.join('@'))
    expect([status, stderr]).toEqual([
      2,
      expect.stringContaining(`npm install --no-save ${packages.join(' ')}`),
    ])
  })

  it.each([
    [['log.csv', '--queue', 'redis://host'], '--each'],
    [['--each', 'logs', '--out', 'x', '--worker'], '--queue'],
    [
      ['--each', 'logs', '--out', 'x', '--worker', '--queue', 'redis://host', '--label', 'x'],
      '--label is said to',
    ],
  ])('is asked for in a way that can be done: %j', async (args, told) => {
    const { status, stderr } = await cli(args).ended
    expect([status, stderr]).toEqual([2, expect.stringContaining(told)])
  })
})

describe.skipIf(!HAS_REDIS || spawnSync('openssl', ['version']).status !== 0)('a queue with TLS', () => {
  it('is used where its certificate is trusted, and refused where not', async () => {
    const made = ['-keyout', 'key.pem', '-out', 'own.pem', '-subj', '/CN=localhost']
    const names = ['-addext', 'subjectAltName=DNS:localhost']
    spawnSync('openssl', ['req', '-x509', '-newkey', 'rsa:2048', '-nodes', ...made, ...names], {
      cwd: folder,
    })
    const port = await freePort()
    const files = [
      '--tls-cert-file',
      at('own.pem'),
      '--tls-key-file',
      at('key.pem'),
      '--tls-auth-clients',
      'no',
    ]
    const redis = await startRedis('--tls-port', String(port), ...files)
    const args = ['--each', 'logs', '--out', 'tls', '--queue', `rediss://localhost:${port}`]
    const refused = await cli(args).ended
    expect([refused.status, refused.stderr]).toEqual([4, expect.stringContaining('SELF_SIGNED_CERT')])
    const env = { NODE_EXTRA_CA_CERTS: at('own.pem') }
    const running = cli(['--worker', ...args], env)
    expect((await cli([...args, ...OPTIONS], env).ended).status).toBe(3)
    expect(filesIn('tls')).toEqual(filesIn('plain'))
    running.child.kill('SIGTERM')
    await running.ended
    await redis.end()
  })
})
