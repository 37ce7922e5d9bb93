import {
  chmodSync,
  closeSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { extractText, getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ENGLISH } from '../../../src-core/wording/english'
import { parseCommand } from '../../../src-main/command/commandLine'
import { CLI, type CliRun, runCli, sample, spawnCli } from '../../helpers/runCli'

let folder: string
/** The report of a season, from a start of its own, for all that look at it. */
let season: CliRun & { readonly pdf: Uint8Array }
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-'))
  const cwd = mkdtempSync(join(folder, 'season-'))
  const run = spawnCli([sample('season-two-meters.csv')], { cwd })
  season = { ...run, pdf: new Uint8Array(readFileSync(join(cwd, 'report.pdf'))) }
})
afterAll(() => {
  rmSync(folder, { recursive: true })
})

const LOG = 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-02,12:00,61\n2026-03-03,07:00,148\n'

function write(name: string, content: string | Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

/** Files in a fresh folder after a run. */
function filesAfter(
  args: readonly string[],
  input?: string,
): { status: number | null; stderr: string; files: string[] } {
  const cwd = mkdtempSync(join(folder, 'run-'))
  const { status, stderr } = runCli(args, { cwd, ...(input !== undefined && { input }) })
  return { status, stderr, files: readdirSync(cwd) }
}

describe('a report', () => {
  it.each(['europe-mmol.csv', 'season-two-meters.csv', 'technique-morning.csv', 'two-months.csv'])(
    'is made of %s without a question, and says so in short',
    (name) => {
      const cwd = mkdtempSync(join(folder, 'sample-'))
      const made = () => {
        const run = runCli([sample(name)], { cwd })
        return { ...run, pdf: readFileSync(join(cwd, 'report.pdf')) }
      }
      const { status, stdout, stderr, pdf } = name === 'season-two-meters.csv' ? season : made()
      expect([status, stderr]).toEqual([0, ''])
      expect(Buffer.from(pdf.subarray(0, 5)).toString()).toBe('%PDF-')
      expect(stdout).toContain('Wrote report.pdf')
      // One line break ends it: a file of it ends with a whole line.
      expect(stdout).toMatch(
        /[^\n]\nFor discussion with the care team\. Do not change doses from these figures\.\n$/,
      )
    },
  )

  it('prints the figures of its JSON, rounded as the contract says', async () => {
    const cwd = mkdtempSync(join(folder, 'figures-'))
    runCli([sample('season-two-meters.csv'), '--no-pdf', '--json', 'report.json'], { cwd })
    const json = JSON.parse(readFileSync(join(cwd, 'report.json'), 'utf8')) as {
      periods: [
        {
          asLogged: Record<'meanMgDl' | 'sdMgDl' | 'cvPercent' | 'percentInTarget', number>
          lows: { readingsBelow70: number }
        },
      ]
    }
    const { asLogged, lows } = json.periods[0]
    const { text } = await extractText(await getDocumentProxy(new Uint8Array(season.pdf)))
    const figures = [asLogged.meanMgDl, asLogged.sdMgDl, asLogged.cvPercent, asLogged.percentInTarget].map(
      (figure) => String(Math.round(figure)),
    )
    for (const figure of figures) expect(text[0].split(/\s+/)).toContain(figure)
    expect(text[0]).toContain(`${lows.readingsBelow70} readings below 70`)
  })

  it('is the same to the byte in another time zone and locale', () => {
    const runs = [
      { TZ: 'Pacific/Apia', LC_ALL: 'C' },
      { TZ: 'America/New_York', LC_ALL: 'de_DE.UTF-8' },
    ].map((env) => {
      const cwd = mkdtempSync(join(folder, 'zone-'))
      expect(
        runCli([sample('two-months.csv'), '--json', 'r.json', '--readings', 'r.csv'], { cwd, env }).status,
      ).toBe(0)
      return ['report.pdf', 'r.json', 'r.csv'].map((name) => readFileSync(join(cwd, name)).toString('latin1'))
    })
    expect(runs[0]).toEqual(runs[1])
  })

  it('reads standard input and several logs, and covers the period asked for', () => {
    const log = write('one.csv', LOG)
    const cwd = mkdtempSync(join(folder, 'input-'))
    const { stdout } = runCli(['-', log, '--no-pdf', '--json', '-', '--period', '2026-03-03..2026-03-03'], {
      cwd,
      input: LOG,
    })
    const json = JSON.parse(stdout) as {
      sources: { name: string }[]
      readings: { n: number; duplicatesAcrossLogs: number }
      periods: [{ asLogged: { n: number }; lows: { notCounted: unknown[] } }]
    }
    expect(json.sources.map(({ name }) => name)).toEqual(['standard input', 'one.csv'])
    expect(json.readings).toMatchObject({ n: 3, duplicatesAcrossLogs: 3 })
    expect(json.periods[0].asLogged.n).toBe(1)
    expect(json.periods[0].lows.notCounted).toHaveLength(1)
    expect(readdirSync(cwd)).toEqual([])
  })

  it('gives readings that it reads again as the same readings', () => {
    const cwd = mkdtempSync(join(folder, 'again-'))
    for (const name of ['season-two-meters.csv', 'europe-mmol.csv']) {
      runCli([sample(name), '--no-pdf', '--readings', 'a.csv', '--json', 'a.json'], { cwd })
      const { status } = runCli(['a.csv', '--no-pdf', '--readings', 'b.csv', '--json', 'b.json'], { cwd })
      expect(status).toBe(0)
      const [a, b] = ['a', 'b'].map(
        (file) =>
          JSON.parse(readFileSync(join(cwd, `${file}.json`), 'utf8')) as {
            periods: [{ asLogged: unknown; checked: unknown }]
          },
      )
      expect(b.periods[0].asLogged).toEqual(a.periods[0].asLogged)
      expect(b.periods[0].checked).toEqual(a.periods[0].checked)
    }
  })
})

describe('a stretch with a wrong clock', () => {
  it('is moved by --shift, said in the notes, and the log’s own time is kept', () => {
    const cwd = mkdtempSync(join(folder, 'shift-'))
    const args = [
      '--shift',
      '2026-03-03..2026-03-03=-01:30',
      '--no-pdf',
      '--json',
      'r.json',
      '--readings',
      'r.csv',
    ]
    expect(runCli([write('clock.csv', LOG), ...args], { cwd }).status).toBe(0)
    const rows = readFileSync(join(cwd, 'r.csv'), 'utf8')
      .trim()
      .split('\n')
      .map((row) => row.split(','))
    expect([rows[3][0], rows[3].at(-1)]).toEqual(['2026-03-03T05:30', '2026-03-03T07:00'])
    const json = JSON.parse(readFileSync(join(cwd, 'r.json'), 'utf8')) as { sources: { notes: string[] }[] }
    expect(json.sources[0].notes.join()).toContain('1 reading moved as you asked')
  })
})

describe('an environment', () => {
  it.each([
    { TZ: '' },
    { TZ: 'Nowhere/Land' },
    { SOURCE_DATE_EPOCH: '8640000000001' },
    { SOURCE_DATE_EPOCH: 'soon' },
  ])('without sense does no harm: %o', (env) => {
    const cwd = mkdtempSync(join(folder, 'env-'))
    expect(spawnCli([write('env.csv', LOG)], { cwd, env })).toMatchObject({ status: 0, stderr: '' })
  })
})

describe('the code compiled at the build', () => {
  it('is kept beside the program', () => {
    expect(existsSync(join(dirname(CLI), 'report.cjs.compiled'))).toBe(true)
  })

  it('is not needed: a Node that compiles otherwise gives the same', () => {
    const cwd = mkdtempSync(join(folder, 'compiled-'))
    const log = write('compiled.csv', LOG)
    const args = [log, '--no-pdf', '--json', '-']
    const otherwise = spawnCli(args, { cwd, env: { NODE_OPTIONS: '--jitless' } })
    expect(otherwise.status).toBe(0)
    expect(otherwise.stdout).toBe(spawnCli(args, { cwd }).stdout)
  })
})

describe('a kit', () => {
  it('is told on the pages and in the JSON', async () => {
    const out = join(folder, 'kit.pdf')
    const json = join(folder, 'kit-figures.json')
    const kit = write(
      'told.json',
      '{"laboratoryA1c": [{"date": "2026-04-10", "percent": 6.3}], "questions": ["Why?"]}',
    )
    const { status } = runCli([write('k.csv', LOG), '--kit', kit, '--out', out, '--json', json], {
      cwd: folder,
    })
    expect(status).toBe(0)
    const { text } = await extractText(await getDocumentProxy(new Uint8Array(readFileSync(out))))
    expect(text[0]).toContain('Why?')
    expect(JSON.parse(readFileSync(json, 'utf8'))).toMatchObject({
      laboratoryA1c: [{ date: '2026-04-10', percent: 6.3, readingsBefore: 3 }],
    })
  })

  it('with mistakes is refused, each with its line, and nothing is written', () => {
    const kit = write('wrong.json', '{\n "controls": [{"date": "2026-02-30"}],\n "lab": []\n}')
    const { status, stderr, files } = filesAfter([write('k2.csv', LOG), '--kit', kit])
    expect([status, files]).toEqual([3, []])
    expect(stderr).toContain('wrong.json, line 2: controls, entry 1, date is not a date that exists.')
    expect(stderr).toContain('wrong.json, line 3: "lab" is not known here.')
  })

  it('that does not exist is named', () => {
    const { status, stderr, files } = filesAfter([write('k3.csv', LOG), '--kit', 'nowhere.json'])
    expect([status, files]).toEqual([3, []])
    expect(stderr).toContain('nowhere.json: there is no such file')
  })

  it('is not written over', () => {
    const kit = write('kept.json', '{}')
    expect(
      runCli([write('k4.csv', LOG), '--kit', kit, '--json', kit, '--no-pdf'], { cwd: folder }).status,
    ).toBe(2)
    expect(readFileSync(kit, 'utf8')).toBe('{}')
  })
})

describe('sheets to hand out', () => {
  it.each([
    ['A4', 'mg/dL', '107 mg/dL'],
    ['Letter', 'mmol/L', '5.9 mmol/L'],
  ])('are two pages of %s without any log, in %s', async (paper, unit, amount) => {
    const path = join(folder, `handout-${paper}.pdf`)
    const { status } = runCli(['--handout', path, '--paper', paper, '--unit', unit], { cwd: folder })
    expect(status).toBe(0)
    const { totalPages, text } = await extractText(await getDocumentProxy(new Uint8Array(readFileSync(path))))
    expect(totalPages).toBe(2)
    // 107 mg/dL / 18.0156
    expect(text[0]).toContain(amount)
    expect(text[0]).toContain('treat first, test afterwards')
    expect(text[1]).toContain('washed again')
  })

  it('come beside a report too', () => {
    const { status, files } = filesAfter([write('h.csv', LOG), '--handout', 'sheets.pdf'])
    expect([status, files.sort()]).toEqual([0, ['report.pdf', 'sheets.pdf']])
  })

  it('need a log where a report’s files are asked for with them', () => {
    const { status, stderr, files } = filesAfter(['--handout', 'sheets.pdf', '--json', 'f.json'])
    expect([status, files]).toEqual([2, []])
    expect(stderr).toContain('Name the log to read')
  })
})

describe('bad input ends with one clear message, the right exit status and nothing written', () => {
  const fits = (values: string): string => `Date,Time,Glucose\n${values}`
  it.each([
    { what: 'an empty file', content: '', code: 'empty-file' },
    { what: 'a PDF renamed .csv', content: '%PDF-1.7\n1 0 obj\n', code: 'not-text' },
    {
      what: 'a log without a glucose column',
      content: 'Date,Time,Pulse\n2026-03-02,07:10,71\n',
      code: 'no-glucose-column',
    },
    {
      what: 'no unit and values that fit both',
      content: fits('2026-03-02,07:10,25\n'),
      code: 'unit-unknown',
    },
    {
      what: 'a date order that cannot be decided',
      content: fits('03/04/2026,07:10,104\n'),
      code: 'date-order-unknown',
    },
  ])('$what', ({ what, content, code }) => {
    const log = write(`${what.replaceAll(/\W/g, '-')}.csv`, content)
    const { status, stderr, files } = filesAfter([log, '--json', 'r.json'])
    expect(status).toBe(3)
    expect(stderr.trimEnd().split('\n')).toHaveLength(1)
    expect(stderr.trimEnd()).toMatch(new RegExp(`^${what.replaceAll(/\W/g, '-')}\\.csv.*\\(${code}\\)$`))
    expect(files).toEqual([])
  })

  it('a log that does not exist', () => {
    const { status, stderr, files } = filesAfter(['nowhere.csv'])
    expect([status, files]).toEqual([3, []])
    expect(stderr).toBe(
      'nowhere.csv: there is no such file. Check the name and the folder. (unreadable-file)\n',
    )
  })

  it('a period without a reading', () => {
    const { status, stderr, files } = filesAfter([write('p.csv', LOG), '--period', '2026-01-01..2026-01-31'])
    expect([status, files]).toEqual([3, []])
    expect(stderr).toContain('2026-03-02 to 2026-03-03')
    expect(stderr).toContain('--period')
  })

  it('a second period without a reading, telling the days there are', () => {
    const { status, stderr, files } = filesAfter([
      write('v.csv', LOG),
      '--period',
      '2026-03-02..2026-03-03',
      '--versus',
      '2026-01-01..2026-01-31',
    ])
    expect([status, files]).toEqual([3, []])
    expect(stderr).toContain('from 2026-01-01 to 2026-01-31')
    expect(stderr).toContain('2026-03-02 to 2026-03-03')
    expect(stderr).toContain('--versus FROM..TO')
  })

  it.each([
    { args: [], says: 'Name the log' },
    { args: ['a.csv', '--diary', '0'], says: '--diary takes a number of days, all or none' },
    { args: ['a.csv', '--versus', '2026-03-02..2026-03-03'], says: 'give the first with --period' },
    {
      args: ['a.csv', '--period', '2026-03-02..2026-03-03', '--versus', 'April'],
      says: '--versus takes two dates',
    },
    { args: ['a.csv', '--nonsense'], says: 'There is no option --nonsense' },
    { args: ['a.csv', '-n'], says: 'There is no option -n; --help lists' },
    { args: ['a.csv', '--preiod', 'x'], says: 'There is no option --preiod. Is --period meant?' },
    { args: ['a.csv', '--Unit', 'mg/dL'], says: 'There is no option --Unit. Is --unit meant?' },
    { args: ['a.csv', '--no-pdf=yes'], says: '--no-pdf takes no value' },
    { args: ['a.csv', '--label'], says: '--label needs a value' },
    { args: ['a.csv', '--label', '--no-pdf'], says: '--label=VALUE' },
    { args: ['a.csv', '--paper', 'A5'], says: '--paper takes A4 or Letter' },
    { args: ['a.csv', '--unit', 'mg'], says: '--unit takes mg/dL or mmol/L' },
    { args: ['a.csv', '--period', '2026-02-30..2026-03-02'], says: '--period takes two dates' },
    { args: ['a.csv', '--period', '2026-03-02..2026-03-01'], says: 'is after' },
    { args: ['a.csv', '--columns', 'sugar=3'], says: "'sugar=3'" },
    { args: ['a.csv', '--zone', 'Mars/Olympus'], says: "no zone is named 'Mars/Olympus'" },
    { args: ['a.csv', '--out', 'x.pdf', '--json', './x.pdf'], says: 'Two outputs would go to' },
    { args: ['a.csv', '--out', 'a.csv'], says: 'is a log to read' },
    { args: ['a.csv', '--out', '-'], says: '--out takes the name of a file' },
    { args: ['a.csv', '--shift', '2026-03-02=+12:00'], says: '--shift takes days' },
    { args: ['a.csv', '--columns', 'glucose=1,glucose=2'], says: "'glucose=2'" },
  ])('the command line $args', ({ args, says }) => {
    const { status, stderr, files } = filesAfter(args)
    expect([status, files]).toEqual([2, []])
    expect(stderr).toContain(says)
    expect(stderr).toContain('Usage: npm run report')
  })

  it('an output in a folder that does not exist, leaving the other outputs unwritten too', () => {
    const { status, stderr, files } = filesAfter([
      write('w.csv', LOG),
      '--json',
      'r.json',
      '--out',
      'none/r.pdf',
    ])
    expect([status, files]).toEqual([4, []])
    expect(stderr).toContain('none/r.pdf could not be written')
  })

  it('an output where a folder stands', () => {
    const cwd = mkdtempSync(join(folder, 'standing-'))
    mkdirSync(join(cwd, 'report.pdf'))
    const { status, stderr } = runCli([write('d.csv', LOG)], { cwd })
    expect([status, readdirSync(join(cwd, 'report.pdf'))]).toEqual([4, []])
    expect(stderr).toContain('a folder of that name')
  })

  it.skipIf(process.getuid?.() === 0)(
    'a folder that may not be written to (needs a user who is not root)',
    () => {
      const cwd = mkdtempSync(join(folder, 'locked-'))
      writeFileSync(join(cwd, 'report.pdf'), 'old')
      chmodSync(cwd, 0o500)
      expect(runCli([write('l.csv', LOG)], { cwd }).status).toBe(4)
      expect(readFileSync(join(cwd, 'report.pdf'), 'utf8')).toBe('old')
      chmodSync(cwd, 0o700)
    },
  )

  it('an output where a read-only file stands, or with a name that is too long', () => {
    const cwd = mkdtempSync(join(folder, 'odd-'))
    writeFileSync(join(cwd, 'kept.pdf'), 'old')
    chmodSync(join(cwd, 'kept.pdf'), 0o444)
    expect(runCli([write('o.csv', LOG), '--out', 'kept.pdf'], { cwd }).status).toBe(4)
    expect(readFileSync(join(cwd, 'kept.pdf'), 'utf8')).toBe('old')
    expect(runCli([write('o.csv', LOG), '--out', `${'x'.repeat(300)}.pdf`], { cwd }).status).toBe(4)
    expect(readdirSync(cwd)).toEqual(['kept.pdf'])
  })

  it('a log on standard input that is to be written over', () => {
    const log = write('stdin.csv', LOG)
    const input = openSync(log, 'r')
    const { status } = spawnSync(process.execPath, [CLI, '-', '--out', log], {
      cwd: folder,
      stdio: [input, 'ignore', 'ignore'],
    })
    closeSync(input)
    expect([status, readFileSync(log, 'utf8')]).toEqual([2, LOG])
  })

  it('says no measured value and no note in any refusal', () => {
    const log = write('secret.csv', 'Date,Time,Glucose,Note\n03/04/2026,07:10,23,very private\n')
    const { stderr } = filesAfter([log])
    expect(stderr).toContain('(unit-unknown)')
    expect(stderr).not.toContain('private')
    expect(stderr).not.toMatch(/\b23\b/)
  })
})

it('with --quiet says nothing but what went wrong', () => {
  const log = write('quiet.csv', LOG)
  const done = runCli([log, '--quiet'], { cwd: folder })
  expect(done).toEqual({ status: 0, stdout: '', stderr: '' })
  expect(existsSync(join(folder, 'report.pdf'))).toBe(true)
  const json = runCli([log, '--quiet', '--no-pdf', '--json', '-'], { cwd: folder }).stdout
  expect(JSON.parse(json)).toHaveProperty('periods')
  const asks = write('quiet-asks.csv', 'Date,Time,Glucose\n2026-03-02,07:10,25\n')
  const refused = runCli([asks, '--quiet', '--no-pdf'], { cwd: folder })
  expect([refused.status, refused.stdout]).toEqual([3, ''])
  expect(refused.stderr).toContain('--log-unit')
})

describe('what a terminal would take as a command', () => {
  // ECMA-48: ESC and CSI begin control sequences; a carriage return or line feed forges a line.
  const ESCAPES = '\u001b]0;x\u0007\u001b[2J\u009b31m\r\n\u202e'
  // eslint-disable-next-line no-control-regex -- these are what is looked for
  const RAW = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/

  it.each<readonly [what: string, log: string, args: readonly string[]]>([
    ['a file name', LOG, []],
    [
      'a header',
      `Date,Time,Glucose (mg/dL),"Notes${ESCAPES}"\n2026-03-02,07:10,104,a\n2026-03-03,07:10,99,b\n`,
      [],
    ],
    ['a header that is asked about', `Date,Time,"A${ESCAPES}","B${ESCAPES}"\n2026-03-02,07:10,104,99\n`, []],
    ['an option', LOG, ['--columns', `glucose=x${ESCAPES}`]],
    ['a file that is not there', LOG, ['--kit', `kit${ESCAPES}.json`]],
    ['JSON', LOG, ['--json', '-']],
  ])('is shown as a mark where it stands in %s', (_, log, args) => {
    const cwd = mkdtempSync(join(folder, 'escapes-'))
    const name = `log${ESCAPES}Wrote other.pdf.csv`
    writeFileSync(join(cwd, name), log)
    const { stdout, stderr } = runCli([name, '--no-pdf', ...args], { cwd })
    expect(stdout + stderr).not.toMatch(RAW)
    expect(stdout + stderr).not.toMatch(/^Wrote other/m)
    expect(stdout + stderr).toMatch(/\u241b|\\u001b/)
  })
})

describe('the first lines of README', () => {
  it('show what the command prints', () => {
    const readme = readFileSync(join(import.meta.dirname, '../../../README.md'), 'utf8')
    const { stdout } = season
    expect(stdout).toContain('Wrote report.pdf')
    expect(readme).toContain(`\`\`\`\n${stdout.trim()}\n\`\`\``)
  })
})

describe('an option that changes nothing', () => {
  const [log, open] = ['says.csv', 'open.csv']
  beforeAll(() => {
    writeFileSync(
      join(folder, log),
      'Date,Time,Glucose (mg/dL)\n2026-03-22,07:10,104\n2026-03-23,07:10,118\n',
    )
    writeFileSync(join(folder, open), 'Date,Time,Glucose\n2026-03-22,07:10,25\n2026-03-23,07:10,28\n')
  })

  it.each([
    { args: [log, '--log-unit', 'mmol/L'], option: '--log-unit' },
    { args: [log, '--dates', 'dmy'], option: '--dates' },
    { args: [log, '--shift', '2030-01-01..2030-01-02=+12:00'], option: '--shift' },
  ])('is told: $option', ({ args, option }) => {
    const { status, stderr } = runCli([...args, '--no-pdf'], { cwd: folder })
    expect(status).toBe(0)
    expect(stderr).toMatch(new RegExp(`^${option} changed nothing: .*\\.\n$`))
  })

  it('is not where it answers what the log leaves open, or moves a reading', () => {
    for (const args of [
      [open, '--log-unit', 'mmol/L'],
      [log, '--shift', '2026-03-22..2026-03-22=+12:00'],
    ])
      expect(runCli([...args, '--no-pdf'], { cwd: folder }).stderr).toBe('')
  })
})

describe('help', () => {
  it('fits one screen, with examples that are command lines', () => {
    const { status, stdout } = runCli(['--help'], { cwd: folder })
    const lines = stdout.trimEnd().split('\n')
    expect(status).toBe(0)
    expect(lines.length).toBeLessThanOrEqual(54)
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100)
    const examples = lines.filter((line) => line.startsWith('  npm run report -- '))
    expect(examples).toHaveLength(3)
    for (const example of examples) {
      const args = [...example.slice('  npm run report -- '.length).matchAll(/'([^']*)'|(\S+)/g)]
      const parsed = parseCommand(
        ENGLISH,
        args.map(([, quoted, bare]) => quoted ?? bare),
      )
      expect([example, parsed.kind]).toEqual([example, 'run'])
    }
  })

  it('tells the version of the package', () => {
    const { version } = JSON.parse(
      readFileSync(join(import.meta.dirname, '../../../package.json'), 'utf8'),
    ) as {
      version: string
    }
    const cwd = mkdtempSync(join(folder, 'version-'))
    expect(runCli(['--version'], { cwd }).stdout).toBe(`${version}\n`)
    expect(readdirSync(cwd)).toEqual([])
  })
})
