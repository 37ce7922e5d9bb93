import {
  appendFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fileKind } from '../../../src-main/files/fileKind'
import { runCli } from '../../helpers/runCli'

// What a command writes over, and what it leaves alone.

const LOG = 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-03,12:00,61\n'
const OTHER_LOG = 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,204\n2026-03-03,12:00,161\n'
const OUTPUTS = [
  ['--out', 'report.pdf'],
  ['--json', 'numbers.json'],
  ['--readings', 'readings.csv'],
  ['--fhir', 'bundle.json'],
  ['--handout', 'sheets.pdf'],
] as const
const ALL = OUTPUTS.flat()

let folder: string
let made: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'replacing-'))
  made = mkdtempSync(join(folder, 'made-'))
  writeFileSync(join(folder, 'log.csv'), LOG)
  writeFileSync(join(folder, 'other.csv'), OTHER_LOG)
  expect(run(made, '../log.csv', ...ALL, '--save', 'first.visit').status).toBe(0)
})
afterAll(() => rmSync(folder, { recursive: true }))

const run = (cwd: string, ...args: string[]) => runCli(args, { cwd })
const fresh = () => mkdtempSync(join(folder, 'run-'))
const madeFile = (name: string) => readFileSync(join(made, name))

/** Every file of a folder with its bytes. */
const contents = (of: string) =>
  Object.fromEntries(readdirSync(of).map((name) => [name, readFileSync(join(of, name)).toString('latin1')]))

/** What must not be lost, with what is said of it. */
const PRECIOUS: readonly (readonly [what: string, content: () => Buffer, says: string])[] = [
  ['a visit', () => madeFile('first.visit'), 'a visit that was not opened is there already'],
  ['a text', () => Buffer.from('shopping list\n'), 'a file is there already that this program did not write'],
]

describe('a command', () => {
  it('run twice replaces its own outputs', () => {
    const cwd = fresh()
    expect(run(cwd, '../log.csv', ...ALL).status).toBe(0)
    const before = contents(cwd)
    expect(run(cwd, '../other.csv', ...ALL, '--unit', 'mmol/L').status).toBe(0)
    const after = contents(cwd)
    expect(Object.keys(after)).toEqual(Object.keys(before))
    for (const name of Object.keys(before))
      expect([name, after[name] === before[name]]).toEqual([name, false])
  })

  for (const [what, content, says] of PRECIOUS) {
    it.each([...OUTPUTS, ['--save', 'my.visit'] as const])(
      `writes nothing over ${what} that it did not open with %s, unless it is told to`,
      (option, name) => {
        const cwd = fresh()
        writeFileSync(join(cwd, name), content())
        writeFileSync(join(cwd, `${name}.previous`), 'kept')
        const before = contents(cwd)
        const args = ['../other.csv', ...(option === '--out' ? [] : ['--no-pdf']), option, name]
        const refused = run(cwd, ...args)
        expect([refused.status, refused.stdout]).toEqual([4, ''])
        expect(refused.stderr).toContain(`${name} could not be written: `)
        expect(refused.stderr).toContain(says)
        expect(refused.stderr).toContain('--replace')
        expect(contents(cwd)).toEqual(before)
        expect(run(cwd, ...args, '--replace').status).toBe(0)
        expect(readFileSync(join(cwd, name)).equals(content())).toBe(false)
      },
    )
  }

  it('writes none of its outputs where one would replace a visit', () => {
    const cwd = fresh()
    writeFileSync(join(cwd, 'numbers.json'), madeFile('first.visit'))
    const before = contents(cwd)
    expect(run(cwd, '../log.csv', ...ALL, '--save', 'my.visit').status).toBe(4)
    expect(contents(cwd)).toEqual(before)
  })

  it('saves a visit over itself where it was opened', () => {
    const cwd = fresh()
    writeFileSync(join(cwd, 'my.visit'), madeFile('first.visit'))
    expect(run(cwd, 'my.visit', '--no-pdf', '--label', 'Thursday', '--save', 'my.visit').status).toBe(0)
    expect(readFileSync(join(cwd, 'my.visit'), 'utf8')).toContain('Thursday')
    expect(readFileSync(join(cwd, 'my.visit.previous')).equals(madeFile('first.visit'))).toBe(true)
    // Another one that was opened is no leave to lose this one.
    writeFileSync(join(cwd, 'other.visit'), madeFile('first.visit'))
    expect(run(cwd, 'other.visit', '--no-pdf', '--save', 'my.visit').status).toBe(4)
    expect(readFileSync(join(cwd, 'my.visit'), 'utf8')).toContain('Thursday')
  })

  it('writes to an empty file, as a script makes it to have a name', () => {
    const cwd = fresh()
    writeFileSync(join(cwd, 'report.pdf'), '')
    expect(run(cwd, '../log.csv').status).toBe(0)
    expect(statSync(join(cwd, 'report.pdf')).size).toBeGreaterThan(0)
  })

  it.skipIf(process.platform === 'win32')('writes to devices, and leaves them devices', () => {
    const cwd = fresh()
    const nowhere = ['--out', '--json', '--readings', '--save'].flatMap((option) => [option, '/dev/null'])
    expect(run(cwd, '../log.csv', ...nowhere)).toMatchObject({ status: 0, stderr: '' })
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true)
    expect(readdirSync(cwd)).toEqual([])
  })
})

describe('a file', () => {
  const kindOf = (content: string | Uint8Array) => {
    const path = join(folder, 'any')
    writeFileSync(path, content)
    return fileKind(path)
  }

  it('is this program’s own as it was written', () => {
    for (const [, name] of OUTPUTS) expect([name, fileKind(join(made, name))]).toEqual([name, 'output'])
    expect(fileKind(join(made, 'first.visit'))).toBe('visit')
    expect(fileKind(join(made, 'nothing'))).toBe('nothing')
  })

  it('is somebody’s own where a PDF was marked or changed since', () => {
    const pdf = madeFile('report.pdf')
    const path = join(folder, 'marked.pdf')
    writeFileSync(path, pdf)
    // A reader adds its marks behind the end.
    appendFileSync(path, '\n99 0 obj\n<</Type /Annot>>\nendobj\n')
    expect(fileKind(path)).toBe('other')
    for (const at of [9, Math.floor(pdf.length / 2), pdf.length - 2]) {
      const changed = Buffer.from(pdf)
      changed[at] ^= 1
      expect([at, kindOf(changed)]).toEqual([at, 'other'])
    }
  })

  it('is somebody’s own where another program wrote the like', () => {
    expect(kindOf('%PDF-1.7\n1 0 obj\n<</Creator (Visit report 0.1.0)>>\nendobj\n')).toBe('other')
    expect(kindOf(`%PDF-1.7\n(visit-report sha256 ${'0'.repeat(64)})\n`)).toBe('other')
    expect(kindOf('{"schemaVersion": 1, "program": {"name": "Another"}}')).toBe('other')
    expect(kindOf(`{"program": {"name": "Visit report"}}`)).toBe('other')
    expect(kindOf(LOG)).toBe('other')
    // A column of one's own beside the program's.
    expect(kindOf(madeFile('readings.csv').toString().replace('logged_at', 'logged_at,my notes'))).toBe(
      'other',
    )
  })
})
