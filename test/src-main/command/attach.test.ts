import { execFileSync, spawnSync } from 'node:child_process'
import {
  closeSync,
  copyFileSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocumentProxy, extractText } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fileKind } from '../../../src-main/files/fileKind'
import { CLI, runCli, sample } from '../../helpers/runCli'

// A report that carries its readings, made and opened again by the command line.

const has = (command: string) => spawnSync(command, ['-v']).status !== null
const told = (command: string) => (has(command) ? '' : ` (skipped: there is no ${command})`)

/** Twelve days of three readings, a low at 54 among them and two at 61. */
const LOG = [
  'Date,Time,Glucose (mg/dL),Note',
  ...Array.from({ length: 12 }, (_, i) => {
    const day = `2026-03-${String(i + 1).padStart(2, '0')}`
    const noon = i === 3 ? 54 : i === 5 || i === 9 ? 61 : 118 + 3 * i
    return `${day},07:0${i % 7},${97 + 5 * i},\n${day},12:1${i % 5},${noon},walk ${i}\n${day},18:3${i % 9},${151 - 2 * i},`
  }),
].join('\n')

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'attach-'))
  writeFileSync(at('log.csv'), LOG)
  run('log.csv', '--attach', '--out', 'march.pdf', '--readings', 'readings.csv')
  run('log.csv', '--out', 'plain.pdf')
})
afterAll(() => rmSync(folder, { recursive: true }))

const at = (name: string) => join(folder, name)
const run = (...args: string[]) => runCli(args, { cwd: folder })
/** The numbers of a run, without the name under which the log was read. */
const numbers = (...args: string[]) => {
  const { stdout } = run(...args, '--no-pdf', '--json', '-')
  return JSON.parse(stdout.replace(/ \(march\.pdf\)/g, '')) as Numbers
}
interface Numbers {
  readonly periods: readonly {
    readonly asLogged: { readonly n: number; readonly percentBelow70: number }
    readonly lows: { readonly episodes: unknown }
  }[]
}
const foot = async (name: string) => {
  const { text } = await extractText(await getDocumentProxy(new Uint8Array(readFileSync(at(name)))))
  return text
}

describe('a report with its readings attached', () => {
  it('gives the figures that its readings’ own file gives, and says what is not among them', () => {
    expect(numbers('march.pdf')).toEqual(numbers('readings.csv'))
    const { status, stderr } = run('march.pdf', '--no-pdf')
    expect([status, stderr]).toEqual([
      0,
      expect.stringMatching(/^march\.pdf: Only the readings attached .* set aside \(possible lows/),
    ])
  })

  it('has every low of the log', () => {
    const lows = (of: string) => {
      const [{ asLogged, lows: all }] = numbers(of).periods
      return { n: asLogged.n, percent: asLogged.percentBelow70, episodes: all.episodes }
    }
    expect(lows('march.pdf')).toEqual(lows('log.csv'))
    expect(lows('march.pdf')).toMatchObject({ n: 36, percent: expect.closeTo((100 * 3) / 36, 9) as number })
  })

  it('is the same to the byte in another run, and is replaced by one', () => {
    const before = readFileSync(at('march.pdf'))
    expect(fileKind(at('march.pdf'))).toBe('output')
    expect(run('log.csv', '--attach', '--out', 'march.pdf').status).toBe(0)
    expect(readFileSync(at('march.pdf')).equals(before)).toBe(true)
  })

  it('says on every page and on the terminal that the readings go with it', async () => {
    expect((await foot('march.pdf')).filter((page) => page.includes('contains all readings')).length).toBe(
      (await foot('march.pdf')).length,
    )
    expect((await foot('plain.pdf')).join()).not.toContain('contains all readings')
    const { stdout } = run('log.csv', '--attach', '--one-page', '--out', 'one.pdf')
    expect(stdout).toContain('The PDF contains every reading with its note')
    expect((await foot('one.pdf')).join()).toContain('contains all readings')
  })

  it(`is read by another program (pdfdetach)${told('pdfdetach')}`, ({ skip }) => {
    skip(!has('pdfdetach'))
    execFileSync('pdfdetach', ['-savefile', 'readings.csv', '-o', at('outside.csv'), at('march.pdf')])
    expect(readFileSync(at('outside.csv')).equals(readFileSync(at('readings.csv')))).toBe(true)
  })

  it(`is still read once another program saved it with a further attachment (pdfattach, qpdf)${told('qpdf')}`, ({
    skip,
  }) => {
    skip(!has('qpdf') || !has('pdfattach'))
    writeFileSync(at('letter.txt'), 'a letter')
    execFileSync('pdfattach', [at('march.pdf'), at('letter.txt'), at('more.pdf')])
    execFileSync('qpdf', ['--object-streams=generate', at('more.pdf'), at('packed.pdf')])
    expect(numbers('packed.pdf').periods).toEqual(numbers('readings.csv').periods)
  })

  it(`is no report that somebody attached readings to by hand (pdfattach)${told('pdfattach')}`, ({
    skip,
  }) => {
    skip(!has('pdfattach'))
    execFileSync('pdfattach', [at('plain.pdf'), at('readings.csv'), at('by-hand.pdf')])
    expect(run('by-hand.pdf').stderr).toMatch(
      /^[\w.-]+: The file is a PDF, not a CSV file, and has no readings attached\..*\(not-text\)/,
    )
  })

  it('that is damaged is refused with what to do, and nothing is written', () => {
    const bytes = readFileSync(at('march.pdf'))
    bytes[bytes.indexOf('stream', bytes.indexOf('/EmbeddedFile')) + 200] ^= 16
    writeFileSync(at('damaged.pdf'), bytes)
    const { status, stderr } = run('damaged.pdf', '--json', 'none.json')
    expect([status, stderr]).toEqual([
      3,
      expect.stringMatching(/^damaged\.pdf: .*damaged or changed.*Get a fresh copy.*\(unreadable-file\)/),
    ])
    expect(() => openSync(at('none.json'), 'r')).toThrow()
  })

  it('that is cut off is refused, of 200 MB too', () => {
    copyFileSync(at('march.pdf'), at('cut.pdf'))
    truncateSync(at('cut.pdf'), Math.floor(statSync(at('march.pdf')).size / 2))
    copyFileSync(at('cut.pdf'), at('large.pdf'))
    truncateSync(at('large.pdf'), 200 * 1024 * 1024)
    for (const name of ['cut.pdf', 'large.pdf']) {
      expect(run(name)).toMatchObject({ status: 3, stderr: expect.stringContaining('incomplete') as unknown })
    }
  })

  it('may come on standard input, and beside its own log adds nothing', () => {
    const input = readFileSync(at('march.pdf'))
    const { stdout } = runCli(['-', '--no-pdf', '--json', '-'], { cwd: folder, input })
    expect((JSON.parse(stdout) as Numbers).periods).toEqual(numbers('readings.csv').periods)
    expect(numbers('log.csv', 'march.pdf').periods[0].asLogged.n).toBe(36)
  })

  it('is not to be had without a report', () => {
    for (const args of [
      ['log.csv', '--no-pdf'],
      ['--handout', 'sheets.pdf'],
    ]) {
      expect(run(...args, '--attach')).toMatchObject({
        status: 2,
        stderr: expect.stringContaining('--attach needs') as unknown,
      })
    }
  })
})

describe('a report with a visit attached', () => {
  const PASSPHRASE = 'blue heron'
  const withPassphrase = (passphrase: string, ...args: string[]) =>
    runCli([...args, '--passphrase-fd', '0'], { cwd: folder, input: passphrase })
  /** Runs with the passphrase on file descriptor 3. */
  const run3 = (passphrase: string, ...args: string[]) => {
    writeFileSync(at('passphrase'), passphrase)
    const fd = openSync(at('passphrase'), 'r')
    const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args, '--passphrase-fd', '3'], {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe', fd],
      env: { ...process.env, TZ: 'Europe/Berlin', SOURCE_DATE_EPOCH: '1782820800' },
    })
    closeSync(fd)
    return { status, stdout, stderr }
  }
  const JSON_ALONE = ['--no-pdf', '--json', '-']

  it('opens as the visit itself does, with all that it holds', () => {
    run(
      'log.csv',
      '--kit',
      sample('season-kit.json'),
      '--label',
      'Thursday',
      '--save',
      'own.visit',
      '--no-pdf',
    )
    expect(run('own.visit', '--attach', '--out', 'visit.pdf').stdout).toContain(
      'The PDF contains the visit and',
    )
    expect(run('visit.pdf', ...JSON_ALONE)).toEqual(run('own.visit', ...JSON_ALONE))
    run('visit.pdf', '--save', 'again.visit', '--no-pdf')
    expect(readFileSync(at('again.visit'), 'utf8')).toBe(readFileSync(at('own.visit'), 'utf8'))
  })

  it('that is protected asks for its passphrase, and is the same to the byte in another run', () => {
    expect(run3(PASSPHRASE, 'log.csv', '--protect', '--save', 'kept.visit', '--no-pdf').status).toBe(0)
    expect(withPassphrase(PASSPHRASE, 'kept.visit', '--attach', '--out', 'kept.pdf')).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('every reading with its note without a passphrase') as unknown,
    })
    const before = readFileSync(at('kept.pdf'))
    withPassphrase(PASSPHRASE, 'kept.visit', '--attach', '--out', 'kept.pdf')
    expect(readFileSync(at('kept.pdf')).equals(before)).toBe(true)
    expect(withPassphrase(PASSPHRASE, 'kept.pdf', ...JSON_ALONE)).toEqual(
      withPassphrase(PASSPHRASE, 'kept.visit', ...JSON_ALONE),
    )
    expect(run('kept.pdf')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('A passphrase is needed') as unknown,
    })
    expect(withPassphrase('wrong', 'kept.pdf')).toMatchObject({
      status: 3,
      stderr: expect.stringMatching(
        /^kept\.visit: This is not the passphrase.*readings\.csv.*\(visit-unreadable\)/,
      ) as unknown,
    })
  })

  it('that has changed since is attached as it is now, still protected', () => {
    expect(
      withPassphrase(PASSPHRASE, 'kept.visit', '--unit', 'mmol/L', '--attach', '--out', 'changed.pdf').status,
    ).toBe(0)
    const { stdout } = withPassphrase(PASSPHRASE, 'changed.pdf', ...JSON_ALONE)
    expect(JSON.parse(stdout)).toMatchObject({ settings: { unit: 'mmol/L' } })
    expect(run('changed.pdf').stderr).toContain('A passphrase is needed')
  })

  it('stands alone: beside another visit it is refused, and its PDF is not written over', () => {
    expect(run('own.visit', 'visit.pdf')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('Several visits') as unknown,
    })
    expect(run('visit.pdf', '--out', 'visit.pdf')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('is a log to read') as unknown,
    })
  })
})
