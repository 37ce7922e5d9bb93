import {
  appendFileSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { extractText, getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { runCli, sample, spawnCli } from '../../helpers/runCli'

// A folder of logs: one report for each, as if it had been asked for by itself, and a list of all of them.

let folder: string
const at = (...names: string[]) => join(folder, ...names)
const run = (...args: string[]) => runCli(args, { cwd: folder })
const folderRun = (...args: string[]) => spawnCli(args, { cwd: folder })
const each = () => folderRun('--each', 'logs', '--out', 'reports')

/** One reading on each of thirty days up to 30 May 2026, every tenth a low above 54. */
const SEASON = `Date,Time,Glucose (mg/dL)\n${Array.from(
  { length: 30 },
  (_, i) => `2026-05-${String(i + 1).padStart(2, '0')},07:1${i % 10},${i % 10 === 4 ? 63 : 100 + 2 * i}\n`,
).join('')}`

/** Fits both units: the log has to be told its own. */
const ASKING = 'Date,Glucose\n2026-03-02 07:10,21\n2026-03-03 07:10,25\n2026-03-04 07:10,23\n'

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'each-'))
  mkdirSync(at('logs', 'anna'), { recursive: true })
  writeFileSync(at('logs', 'season.csv'), SEASON)
  writeFileSync(
    at('logs', 'Season.txt'),
    'Datum;Zeit;Zucker (mmol/L)\n01.04.2026;07:10;5,8\n15.04.2026;07:15;6,3\n',
  )
  writeFileSync(
    at('logs', 'anna', 'first.csv'),
    'Date,Time,Glucose (mg/dL)\n2026-02-01,07:10,52\n2026-02-01,12:20,49\n',
  )
  copyFileSync(sample('technique-morning.csv'), at('logs', 'anna', 'second.csv'))
  writeFileSync(at('logs', 'asks.csv'), ASKING)
  writeFileSync(at('logs', 'letter.csv'), 'Dear colleague,\nthank you for the referral.\n')
  writeFileSync(at('logs', 'picture.png'), 'no log')
  writeFileSync(at('elsewhere.csv'), ASKING)
  symlinkSync(at('elsewhere.csv'), at('logs', 'outside.csv'))
})
afterAll(() => rmSync(folder, { recursive: true }))

const rows = () =>
  parse<Record<string, string>>(readFileSync(at('reports', 'overview.csv')), { columns: true })
const row = (log: string) => rows().find((one) => one.log === log) ?? {}

describe('a folder of logs', () => {
  it('gets a report for each log and each person’s folder; what asks, is no log or leads elsewhere stops nothing', () => {
    const { status, stderr, stdout } = each()
    expect(status).toBe(3)
    expect(readdirSync(at('reports')).sort()).toEqual([
      '.made.jsonl',
      'Season.pdf',
      'anna.pdf',
      'overview.csv',
      'overview.pdf',
      'season (2).pdf',
    ])
    expect(stdout).toContain('3 reports made; 3 without a report')
    expect(stderr).toMatch(/asks\.csv.*--log-unit.*For this log alone: under ‘unit’ in answers\.csv\./)
    expect(stderr).toMatch(/letter\.csv/)
    expect(stderr).toMatch(/outside\.csv leads out|outside\.csv: leads out/)
    expect(stderr).not.toContain('picture')
  })

  it('makes of each the very report that it makes of it alone', () => {
    run('logs/season.csv', '--out', 'alone.pdf')
    run('logs/anna/first.csv', 'logs/anna/second.csv', '--out', 'both.pdf')
    expect(readFileSync(at('reports', 'season (2).pdf')).equals(readFileSync(at('alone.pdf')))).toBe(true)
    expect(readFileSync(at('reports', 'anna.pdf')).equals(readFileSync(at('both.pdf')))).toBe(true)
  })

  it('lists them with the figures of each alone, those with more lows first and those without a report last', () => {
    const numbers = JSON.parse(run('logs/season.csv', '--no-pdf', '--json', '-').stdout) as {
      periods: { asLogged: { meanMgDl: number } }[]
    }
    const [{ asLogged }] = numbers.periods
    expect(row('season.csv')).toMatchObject({
      state: 'made',
      readings: '30',
      mean_mg_dl: String(asLogged.meanMgDl),
      low_episodes: '3',
      last_day: '2026-05-30',
      days_since_last: '31',
    })
    const below54 = rows().map((one) => Number(one.readings_below_54 || -1))
    expect(below54).toEqual([...below54].sort((a, b) => b - a))
    expect(row('asks.csv')).toMatchObject({ state: 'asks-or-refused', report: '', mean_mg_dl: '' })
    expect(row('asks.csv').why).toContain('--log-unit')
  })

  it('gives programs the same list on standard output, a line of JSON for each log', () => {
    const { stdout } = folderRun('--each', 'logs', '--out', 'reports', '--jsonl')
    const lines = stdout.trimEnd().split('\n')
    const told = lines.map(
      (line) => JSON.parse(line) as Record<string, string | number | null | readonly string[]>,
    )
    const asText = (cell: string | number | null | readonly string[]) =>
      typeof cell === 'object' ? (cell?.join(';') ?? '') : String(cell)
    expect(
      told.map((one) => Object.fromEntries(Object.entries(one).map(([k, v]) => [k, asText(v)]))),
    ).toEqual(rows())
    expect(told[0].readings_below_54).toBeTypeOf('number')
  })

  it('prints the list, without a name that some reader would run as a formula', async () => {
    const { text } = await extractText(
      await getDocumentProxy(new Uint8Array(readFileSync(at('reports', 'overview.pdf')))),
      { mergePages: true },
    )
    expect(text).toContain('Logs of a folder')
    expect(text).toContain('Do not change doses')
    expect(text.indexOf('anna')).toBeLessThan(text.indexOf('Season.txt'))
    expect(text.indexOf('Without a report')).toBeLessThan(text.indexOf('letter.csv'))
  })

  it('makes nothing anew that is the same, and takes the answers of a table beside the logs', () => {
    const before = statSync(at('reports', 'anna.pdf')).mtimeMs
    writeFileSync(at('logs', 'answers.csv'), 'file;unit;label\nasks.csv;mmol/L;Room 4\n')
    const { stdout } = each()
    expect(stdout).toContain('1 report made; 3 kept as they were')
    expect(statSync(at('reports', 'anna.pdf')).mtimeMs).toBe(before)
    run('logs/asks.csv', '--log-unit', 'mmol/L', '--label', 'Room 4', '--out', 'told.pdf')
    expect(readFileSync(at('reports', 'asks.pdf')).equals(readFileSync(at('told.pdf')))).toBe(true)
  })

  it('makes anew what has changed, or was lost', () => {
    appendFileSync(at('logs', 'asks.csv'), '2026-03-05 07:10,24\n')
    rmSync(at('reports', 'Season.pdf'))
    expect(each().stdout).toContain('2 reports made; 2 kept as they were')
    expect(row('asks.csv').readings).toBe('4')
    expect(existsSync(at('reports', 'Season.pdf'))).toBe(true)
  })

  it('goes on after a run that was stopped within a line of what it had made', () => {
    appendFileSync(at('reports', '.made.jsonl'), '{"log":"season.csv","opti')
    expect(each().stdout).toContain('4 kept as they were')
  })

  it('counts no episodes of lows that have a day alone', () => {
    const days = '\nDate,Glucose mg/dL\n2026-04-01,58\n2026-04-02,140\n2026-04-03,121\n'
    writeFileSync(at('logs', 'days.csv'), days.trimStart())
    each()
    expect(row('days.csv')).toMatchObject({ readings_below_70: '1', low_episodes: '' })
    rmSync(at('logs', 'days.csv'))
  })

  it('says which line of the answers is none', () => {
    writeFileSync(at('logs', 'answers.csv'), 'file,unit\nasks.csv,mg\n')
    const { status, stderr } = each()
    expect([status, stderr.split('\n')[0]]).toEqual([2, expect.stringContaining('answers.csv, line 2: ‘mg’')])
    rmSync(at('logs', 'answers.csv'))
  })

  it('takes answers as a spreadsheet of Windows saves them, names with umlauts too', () => {
    writeFileSync(at('logs', 'Größe.csv'), ASKING)
    writeFileSync(
      at('logs', 'answers.csv'),
      Buffer.from('file;unit;dates;columns;label\r\nGröße.csv;mmol/L;;;\r\n'.normalize('NFC'), 'latin1'),
    )
    const { stderr } = each()
    expect(stderr).not.toContain('Größe')
    expect(row('Größe.csv')).toMatchObject({ state: 'made', readings: '3' })
  })

  it('says of a log that asks by now that its former report is not to be used', () => {
    rmSync(at('logs', 'answers.csv'))
    const { stderr } = each()
    expect(existsSync(at('reports', 'Größe.pdf'))).toBe(true)
    expect(stderr).toContain(
      'The report Größe.pdf was made of this log as it stood, or was answered, at an earlier run',
    )
    expect(row('Größe.csv').why).toMatch(/^The report Größe\.pdf .*under ‘unit’ in answers\.csv\.$/)
    rmSync(at('logs', 'Größe.csv'))
  })

  it('tells answers that no log gets, and the name that was meant', () => {
    writeFileSync(
      at('logs', 'answers.csv'),
      'file,unit\nasks,mmol/L\nanna/first.csv,mg/dL\nbernd.csv,mg/dL\n',
    )
    const { stderr, stdout } = each()
    expect(stderr).toContain('line 2: no log and no folder of logs is called ‘asks’')
    expect(stderr).toContain('Did you mean ‘asks.csv’?')
    expect(stderr).toMatch(/line 3: .*‘anna\/first\.csv’.* Did you mean ‘anna’\?/)
    // Another person's log is not proposed.
    expect(stderr).toMatch(/line 4: .*‘bernd\.csv’, so the line was not used\.\n/)
    expect(stdout).toContain(`answered in ${join('logs', 'answers.csv')}`)
    renameSync(at('logs', 'answers.csv'), at('reports', 'answers.csv'))
    expect(each().stderr).toContain(`${join('reports', 'answers.csv')} is not read`)
    rmSync(at('reports', 'answers.csv'))
  })

  it('names what it passes over, and lists a workbook, so that nobody is missing unsaid', () => {
    mkdirSync(at('logs', 'bernd', 'older'), { recursive: true })
    writeFileSync(at('logs', 'bernd', 'older', 'log.csv'), SEASON)
    writeFileSync(at('logs', 'Carl.xlsx'), 'PK\u0003\u0004 xl/ [Content_Types]')
    writeFileSync(at('logs', 'Answers.xlsx'), 'PK\u0003\u0004 xl/ [Content_Types]')
    const { stderr, stdout } = each()
    expect(stdout).toContain(`Passed over, no logs: ${join('bernd', 'older')}, picture.png.`)
    expect(stderr).toContain('Answers.xlsx is not read. Save the table as CSV')
    expect(row('Carl.xlsx').why).toContain('save the sheet as CSV')
    for (const name of ['bernd', 'Carl.xlsx', 'Answers.xlsx']) rmSync(at('logs', name), { recursive: true })
  })

  it('leaves a report that somebody else wrote, and says so with its status', () => {
    rmSync(at('reports'), { recursive: true })
    mkdirSync(at('reports'))
    writeFileSync(at('reports', 'anna.pdf'), 'a letter')
    const { status, stderr } = each()
    expect([status, readFileSync(at('reports', 'anna.pdf'), 'utf8')]).toEqual([4, 'a letter'])
    expect(stderr).toContain('anna.pdf')
    expect(row('anna').state).toBe('not-written')
  })

  it('is not begun where help is asked for', () => {
    const { status, stdout } = folderRun('--each', 'logs', '--help')
    expect([status, stdout]).toEqual([0, expect.stringContaining('--each FOLDER')])
  })

  it.each([
    [['--each', 'logs'], '--each needs --out FOLDER'],
    [['--each', 'logs', '--out', 'x', 'log.csv'], 'LOG'],
    [['--each', 'logs', '--out', 'x', '--json', 'n.json'], '--json'],
    [['--jsonl', 'log.csv'], '--jsonl is of a folder'],
    [['--each', 'nowhere', '--out', 'x'], 'nowhere'],
    [['--each', 'empty', '--out', 'x'], 'holds no log'],
  ])('is asked for in a way that can be done: %j', (args, told) => {
    mkdirSync(at('empty'), { recursive: true })
    const { status, stderr } = folderRun(...args)
    expect([status, stderr]).toEqual([2, expect.stringContaining(told)])
  })
})
