import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Visit } from '../../../src-core/visit/visit'
import { loadVisit, saveVisit } from '../../../src-main/files/visitStore'
import { CLI, type CliRun, runCli, sample } from '../../helpers/runCli'
import { ENGLISH } from '../../../src-core/wording/english'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-saved-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true })
})

const PASSPHRASE = 'Καλημέρα 73'

interface Numbers extends CliRun {
  readonly json: string
  readonly readings: string
  readonly cwd: string
}

/** A run in a fresh folder, without pages; paths are whole, so that the name of the folder says nothing. */
function numbers(...args: string[]): Numbers {
  return made(...args, '--no-pdf')
}

/** The same with its pages. */
function report(...args: string[]): Numbers & { readonly pdf: Buffer } {
  const run = made(...args)
  return { ...run, pdf: readFileSync(join(run.cwd, 'report.pdf')) }
}

function made(...args: string[]): Numbers {
  const cwd = mkdtempSync(join(folder, 'run-'))
  const outputs = ['--json', 'r.json', '--readings', 'r.csv']
  const run = runCli([...args, ...outputs], { cwd, input: `${PASSPHRASE}\n` })
  expect([run.status, run.stderr]).toEqual([0, ''])
  const [json, readings] = ['r.json', 'r.csv'].map((name) => readFileSync(join(cwd, name), 'utf8'))
  return { ...run, json, readings, cwd }
}

async function visitAt(path: string): Promise<Visit> {
  const loaded = await loadVisit(ENGLISH, path, () => Promise.resolve(PASSPHRASE))
  if (loaded.kind !== 'loaded') throw new Error(loaded.kind)
  return loaded.visit
}

function write(name: string, content: string): string {
  writeFileSync(join(folder, name), content)
  return join(folder, name)
}

const PROTECTED = ['--passphrase-fd', '0']
const DAYS = Array.from({ length: 12 }, (_, i) => `2026-03-${String(i + 1).padStart(2, '0')}`)
const LOG = ['Date,Time,Glucose (mg/dL)', ...DAYS.map((day, i) => `${day},07:10,${104 + i}`), '2026-03-06,12:00,61', '2026-03-07,12:00,261', '2026-03-07,12:03,118'].join('\n') // prettier-ignore

describe('a saved visit', () => {
  it.each<[string, string[]]>([
    ['in clear, as it is', [sample('technique-morning.csv')]],
    [
      'with all options',
      [
        sample('season-two-meters.csv'), '--unit', 'mmol/L', '--targets', '3.9..7.8', '--kit', sample('season-kit.json'),
        '--period', '2026-04-15..2026-05-30', '--versus', '2026-03-02..2026-04-14', '--shift', '2026-03-10..2026-03-11=+01:00',
        '--diary', 'all', '--paper', 'Letter', '--label', 'Thursday, 9:00', '--zone', 'America/St_Johns',
      ],
    ],
    ['protected, of a log in mmol/L', [sample('europe-mmol.csv'), '--targets', 'pregnancy', '--diary', 'none', ...PROTECTED]],
  ])('gives the same pages and numbers as the run that saved it: %s', (_, args) => {
    const visit = join(folder, `same-${args.length}.visit`)
    const saved = report(...args, '--save', visit)
    const bytes = readFileSync(visit)
    const opened = report(visit, ...PROTECTED)
    expect(opened.json).toBe(saved.json)
    expect(opened.readings).toBe(saved.readings)
    expect(opened.pdf.equals(saved.pdf)).toBe(true)
    expect(readFileSync(visit).equals(bytes)).toBe(true)
    // As an editor may save it again.
    const marked = write('marked.visit', `\uFEFF${bytes.toString()}`)
    expect(numbers(marked, ...PROTECTED).json).toBe(saved.json)
  }) // prettier-ignore

  it('gives what the logs give without saving', () => {
    const saved = report(sample('technique-morning.csv'), '--save', join(folder, 'plain.visit'))
    const plain = report(sample('technique-morning.csv'))
    expect([saved.json, saved.pdf.equals(plain.pdf)]).toEqual([plain.json, true])
  })

  it('with typed readings, decisions and answers says so, and saved again is the same', async () => {
    const path = join(folder, 'decided.visit')
    const cents = write('cents.csv', LOG.replace(' (mg/dL)', ''))
    numbers(cents, '--log-unit', 'mg/dL', '--save', path)
    const visit = await visitAt(path)
    expect(visit.logs[0].answers).toEqual({ unit: 'mg/dL' })
    const reading = { at: '2026-03-07T12:00', value: '261', unit: 'mg/dL', meter: 'meter A', log: visit.logs[0].sha256 } as const
    const decided: Visit = {
      ...visit,
      typed: [{ at: '2026-03-13T18:30', value: 8.1, unit: 'mmol/L', note: '=wet, "finger"' }],
      decisions: [{ reading, choice: 'keep', reason: 'cake', decidedAt: '2026-03-20T10:00' }],
    }
    await saveVisit({ path, visit: decided, passphrase: null, openedAs: null })
    const again = join(folder, 'decided-again.visit')
    const opened = report(path, '--save', again)
    expect(JSON.parse(opened.json)).toMatchObject({
      sources: [{ name: 'cents.csv' }, { name: 'typed by hand', rows: { accepted: 1 } }],
      technique: { decided: [{ mgDl: 261, choice: 'keep', reason: 'cake' }], decisionsGone: [] },
    })
    expect(readFileSync(again).equals(readFileSync(path))).toBe(true)
    expect(report(again).pdf.equals(opened.pdf)).toBe(true)
  }) // prettier-ignore

  it('obeys options for one run and stays as it is', () => {
    const path = join(folder, 'options.visit')
    numbers(write('options.csv', LOG), '--label', 'Thursday', '--save', path)
    const bytes = readFileSync(path)
    const run = JSON.parse(
      numbers(path, '--unit', 'mmol/L', '--period', '2026-03-02..2026-03-08').json,
    ) as object
    expect(run).toMatchObject({
      settings: { unit: 'mmol/L' },
      periods: [{ from: '2026-03-02', to: '2026-03-08' }],
    })
    expect(readFileSync(path).equals(bytes)).toBe(true)
  })

  it('takes a longer export at the next visit: decisions hold, periods are since and before', async () => {
    const path = join(folder, 'next.visit')
    numbers(write('march.csv', LOG), '--save', path)
    const visit = await visitAt(path)
    const key = (at: string, value: string) => ({ at, value, unit: 'mg/dL', meter: 'meter A', log: visit.logs[0].sha256 }) as const
    const decision = { choice: 'leave-out', reason: '', decidedAt: '2026-03-20T10:00' } as const
    const decisions = [
      { ...decision, reading: key('2026-03-07T12:00', '261') },
      { ...decision, reading: key('2025-12-24T12:00', '300') },
    ]
    await saveVisit({ path, visit: { ...visit, decisions }, passphrase: null, openedAs: null })
    const longer = write('april.csv', `${LOG}\n2026-04-02,07:00,120\n2026-04-03,07:00,131`)

    const beside = JSON.parse(numbers(path, longer, '--save', path).json) as object
    const told = {
      periods: [{ from: '2026-03-13', to: '2026-04-03' }, { from: '2026-03-01', to: '2026-03-12' }],
      readings: { n: 17, duplicatesAcrossLogs: 15 },
      technique: {
        decided: [{ mgDl: 261, choice: 'leave-out' }],
        decisionsGone: [{ at: '2025-12-24T12:00', loggedValue: '300', choice: 'leave-out' }],
      },
    }
    expect(beside).toMatchObject(told)
    expect(JSON.parse(numbers(path).json)).toMatchObject(told)
    expect(readFileSync(`${path}.previous`, 'utf8')).not.toContain('april.csv')

    // The longer export in place of the old one: another hash, the same reading.
    const replaced = { ...(await visitAt(path)), period: null, versus: null }
    await saveVisit({ path, visit: { ...replaced, logs: replaced.logs.slice(1) }, passphrase: null, openedAs: null })
    expect(JSON.parse(numbers(path).json)).toMatchObject({ technique: told.technique })
    // The same log again is nothing new: the visit's own period stays.
    expect(JSON.parse(numbers(path, '--period', '2026-03-02..2026-03-08', '--save', path).json)).toBeTruthy()
    expect(JSON.parse(numbers(path, longer).json)).toMatchObject({ periods: [{ from: '2026-03-02', to: '2026-03-08' }] })
  }) // prettier-ignore
})

describe('a visit that cannot be opened', () => {
  const refused = (args: string[], input = '') => {
    const { status, stdout, stderr } = runCli(args, { cwd: folder, input })
    return { status, stdout, stderr: stderr.split('\n')[0] }
  }

  it.each([
    ['a wrong passphrase', (path: string) => [path, ...PROTECTED], 'wrong', /This is not the passphrase.*\(visit-unreadable\)$/, 3],
    ['no terminal to ask on', (path: string) => [path], '', /give it with --passphrase-fd N/, 2],
    ['a descriptor that is not open', (path: string) => [path, '--passphrase-fd', '77'], '', /no UTF-8 text can be read from the file descriptor 77/, 2],
  ])('is refused with what to do: %s', (_, args, input, message, status) => {
    const path = join(import.meta.dirname, '../kept-visits/version-1-protected.visit')
    expect(refused(args(path), input)).toEqual({ status, stdout: '', stderr: expect.stringMatching(message) as string })
  }) // prettier-ignore

  it('names the log that no longer parses, and two visits at once', async () => {
    const path = join(folder, 'unparsed.visit')
    numbers(write('unparsed.csv', LOG), '--save', path)
    const visit = await visitAt(path)
    const bytes = new TextEncoder().encode('nothing\n')
    const { createHash } = await import('node:crypto')
    const log = { name: 'unparsed.csv', answers: {}, bytes, sha256: createHash('sha256').update(bytes).digest('hex') }
    await saveVisit({ path, visit: { ...visit, logs: [log] }, passphrase: null, openedAs: null })
    expect(refused([path])).toMatchObject({ status: 3, stderr: expect.stringMatching(/^unparsed\.csv.*\(.*\)$/) as string })
    expect(refused([path, `${path}.previous`])).toMatchObject({ status: 2 })
  }) // prettier-ignore

  it('is not taken from standard input or a pipe, and one without logs says so', async () => {
    const path = join(folder, 'bare.visit')
    numbers(write('bare.csv', LOG), '--save', path)
    expect(refused(['-'], readFileSync(path, 'utf8'))).toEqual({
      status: 3,
      stdout: '',
      stderr: 'standard input: This is a visit, not a log. Name its file instead of -. (visit-unreadable)',
    })
    await saveVisit({ path, visit: { ...(await visitAt(path)), logs: [] }, passphrase: null, openedAs: null })
    expect(refused([path])).toMatchObject({ status: 3, stderr: expect.stringContaining('no log and no typed reading') as string })
    if (process.platform === 'win32') return
    spawnSync('mkfifo', [join(folder, 'pipe')])
    expect(refused(['pipe'])).toMatchObject({ status: 3, stderr: expect.stringContaining('a device, not a file') as string })
  }) // prettier-ignore

  it('is not saved with an empty passphrase, nor with one that is no text', () => {
    const path = join(folder, 'empty.visit')
    expect(refused([sample('two-months.csv'), '--no-pdf', '--save', path, ...PROTECTED], '\n')).toMatchObject(
      {
        status: 2,
        stderr: expect.stringContaining('The passphrase is empty') as string,
      },
    )
    const bytes = spawnSync(
      process.execPath,
      [CLI, sample('technique-morning.csv'), '--no-pdf', '--save', path, ...PROTECTED],
      {
        input: Buffer.from([0x6d, 0xff, 0xfe]),
      },
    )
    expect([bytes.status, bytes.stderr.toString()]).toEqual([2, expect.stringContaining('no UTF-8 text')])
    expect(readdirSync(folder)).not.toContain('empty.visit')
  })
})

describe('privacy', () => {
  const MARKERS = ['MARKNOTE', 'MARKLABEL', 'MARKFILE', '103.4567', 'MARKPASS']
  const MARKED = 'Time,Glucose (mg/dL),Note\n2026-03-02 07:10,103.4567,MARKNOTE\n2026-03-03 07:10,104,\n'

  /** Files of a folder in which a text stands, in clear or as base64. */
  const filesWith = (of: string, text: string) =>
    readdirSync(of).filter((name) => {
      const content = readFileSync(join(of, name), 'latin1')
      const decoded = (content.match(/[A-Za-z0-9+/]{16,}={0,2}/g) ?? []).map((run) =>
        Buffer.from(run, 'base64'),
      )
      return content.includes(text) || decoded.some((bytes) => bytes.includes(text))
    })

  it('nothing of a protected visit stands in clear, in its file, beside it or in a message', () => {
    const cwd = mkdtempSync(join(folder, 'marked-'))
    const log = write('MARKFILE.csv', MARKED)
    const save = ['--no-pdf', '--label', 'MARKLABEL', '--save', 'my.visit', '--replace']
    const run = (...args: string[]) => runCli(args, { cwd, input: 'MARKPASS\n' })
    // In clear first, twice, so that a previous version in clear stands there too.
    for (let i = 0; i < 2; i++) expect(run(log, ...save).status).toBe(0)
    for (const marker of MARKERS.slice(0, 4))
      expect([marker, filesWith(cwd, marker)]).toEqual([marker, ['my.visit', 'my.visit.previous']])
    const opened = [run('my.visit', '--no-pdf', '--save', 'my.visit', ...PROTECTED)]
    expect(readdirSync(cwd)).toEqual(['my.visit'])
    opened.push(run('my.visit', '--no-pdf', '--save', 'my.visit', ...PROTECTED))
    expect(readdirSync(cwd)).toEqual(['my.visit', 'my.visit.previous'])
    for (const marker of MARKERS) expect([marker, filesWith(cwd, marker)]).toEqual([marker, []])
    // Messages name the log, as they must; nothing of its content and nothing of the passphrase.
    writeFileSync(join(cwd, 'torn.visit'), readFileSync(join(cwd, 'my.visit')).subarray(0, -60))
    opened.push(
      run('torn.visit', '--no-pdf', ...PROTECTED),
      run('my.visit', '--no-pdf', '--passphrase-fd', '77'),
    )
    expect(opened.map(({ status }) => status)).toEqual([0, 0, 3, 2])
    for (const { stderr, stdout } of opened)
      for (const marker of MARKERS.filter((of) => of !== 'MARKFILE'))
        expect(stderr + stdout).not.toContain(marker)
    for (const { stderr } of opened) expect(stderr).not.toContain('MARKFILE')
  })

  it('files are their owner’s alone from the first moment, whatever the mask of the system', () => {
    const cwd = mkdtempSync(join(folder, 'mask-'))
    const script = `umask 000; for i in 1 2; do '${process.execPath}' "$@" || exit; done`
    const cli = join(import.meta.dirname, '../../../out/main/cli.js')
    const run = spawnSync('sh', ['-c', script, 'sh', cli, sample('technique-morning.csv'), '--no-pdf', '--save', 'my.visit', '--replace'], { cwd })
    expect(run.status).toBe(0)
    const modes = readdirSync(cwd).map((name) => [name, statSync(join(cwd, name)).mode & 0o777])
    expect(modes).toEqual([['my.visit', 0o600], ['my.visit.previous', 0o600]])
  }) // prettier-ignore

  // The queue of a folder of logs is the one exception, and only where it is asked for.
  it('no connection is opened and no name looked up, but by --queue', () => {
    const cwd = mkdtempSync(join(folder, 'net-'))
    // Every way out of Node ends the run; that the hook works is tried first.
    const hook = write(
      'no-network.cjs',
      `const stop = (what) => () => { process.stderr.write('NETWORK ' + what); process.exit(99) }
       require('node:net').Socket.prototype.connect = stop('connect')
       require('node:net').Server.prototype.listen = stop('listen')
       require('node:dgram').createSocket = stop('dgram')
       for (const of of [require('node:dns'), require('node:dns').promises])
         for (const name of Object.keys(of)) if (/^(lookup|resolve|reverse)/.test(name)) of[name] = stop(name)
       globalThis.fetch = stop('fetch')\n`,
    )
    const run = (...args: string[]) => {
      const env = { ...process.env, SOURCE_DATE_EPOCH: '1782820800' }
      return spawnSync(process.execPath, ['--require', hook, ...args], {
        cwd,
        env,
        input: 'x\n',
        encoding: 'utf8',
      })
    }
    expect(run('-e', "require('node:http').get('http://127.0.0.1:9')").status).toBe(99)
    const cli = join(import.meta.dirname, '../../../out/main/cli.js')
    const options = [
      '--json',
      'r.json',
      '--readings',
      'r.csv',
      '--handout',
      'h.pdf',
      '--save',
      'my.visit',
      ...PROTECTED,
    ]
    for (const log of [sample('technique-morning.csv'), 'my.visit']) {
      const { status, stderr } = run(cli, log, ...options)
      expect([status, stderr]).toEqual([0, ''])
    }
    mkdirSync(join(cwd, 'logs'))
    writeFileSync(join(cwd, 'logs', 'one.csv'), 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,121\n')
    const each = ['--each', 'logs', '--out', 'reports']
    expect(run(cli, ...each)).toMatchObject({ status: 0, stderr: '' })
    const queue = run(cli, ...each, '--queue', 'redis://127.0.0.1:9')
    expect([queue.status, queue.stderr]).toEqual([99, expect.stringContaining('NETWORK')])
  })
})
