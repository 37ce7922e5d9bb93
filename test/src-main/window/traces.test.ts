import { spawnSync } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { createAutosave } from '../../../src-main/window/autosave'
import { parseCommand } from '../../../src-main/command/commandLine'
import { logFault, programLogIn } from '../../../src-main/program/programLog'
import { recentVisits, recentVisitsIn, rememberVisit } from '../../../src-main/window/recentVisits'
import { removeTraces } from '../../../src-main/window/traces'
import { saveVisit } from '../../../src-main/files/visitStore'
import { type CliRun, runCli } from '../../helpers/runCli'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

let home: string
let own: string
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'visit-report-traces-'))
  own = join(home, 'data', 'visit-report')
})
afterEach(() => {
  rmSync(home, { recursive: true })
})

/** A process that is over. */
const DEAD = spawnSync(process.execPath, ['-e', '']).pid
const mode = (path: string) => statSync(path).mode & 0o777

/** Keeps a visit unsaved as a program that died has left it. */
async function leaveUnsaved(visit: Visit, passphrase: string | null, path: string | null): Promise<void> {
  await createAutosave(own, path).keep(visit, passphrase)
  const folder = join(own, 'unsaved')
  for (const name of readdirSync(folder))
    renameSync(join(folder, name), join(folder, name.replace(`-${process.pid}-`, `-${DEAD}-`)))
}

describe('the list of recent visits', () => {
  it('holds the paths of ten, latest first, once each, for their owner alone', async () => {
    for (let i = 0; i < 12; i++) await rememberVisit(join(home, `${i}.visit`), own)
    await rememberVisit(join(home, '5.visit'), own)
    const names = (await recentVisits(own)).map((path) => path.slice(home.length + 1))
    expect(names).toEqual(['5', '11', '10', '9', '8', '7', '6', '4', '3', '2'].map((i) => `${i}.visit`))
    expect([mode(own), mode(recentVisitsIn(own))]).toEqual([0o700, 0o600])
  })

  it('that is damaged or cannot be written stops nobody', async () => {
    mkdirSync(own, { recursive: true })
    for (const content of ['', '{"a":1}', '[1, null]', '\u0000']) {
      writeFileSync(recentVisitsIn(own), content)
      expect(await recentVisits(own)).toEqual([])
    }
    writeFileSync(join(home, 'file'), '')
    await rememberVisit('a.visit', join(home, 'file'))
    expect(await recentVisits(join(home, 'file'))).toEqual([])
  })
})

describe('the program log', () => {
  it('tells when, which version, where and which kind of fault, nothing of what was read', () => {
    const fault = Object.assign(new RangeError('MARKNOTE\n    at MARKLABEL (/home/MARKNAME/x.js:1:2)\n104'), {
      code: 'ERR_X',
    })
    logFault('report', fault, own)
    logFault('openLogs', 'MARKNOTE', own)
    const [first, second, end] = readFileSync(programLogIn(own), 'utf8').split('\n')
    expect(first).toMatch(
      /^\d{4}-\d\d-\d\dT[\d:.]+Z \d+\.\d+\.\d+ report RangeError ERR_X( [\w.-]+\.[cm]?js:\d+:\d+)*$/,
    )
    expect(second).toMatch(/ openLogs string$/)
    expect(end).toBe('')
    expect(first).not.toMatch(/MARK|104/)
    expect(mode(programLogIn(own))).toBe(0o600)
  })

  it('forgets its oldest lines', () => {
    for (let i = 0; i < 1_000; i++) logFault(`channel-${i}`, new TypeError('x'), own)
    const log = readFileSync(programLogIn(own), 'utf8')
    expect(log.length).toBeLessThan(40_000)
    expect(log).toContain('channel-999 ')
    expect(log).not.toContain('channel-0 ')
  })
})

describe('removing traces', () => {
  it('removes what the program keeps for itself and nothing else', async () => {
    const mine = join(own, 'my.visit')
    await rememberVisit(mine, own)
    await leaveUnsaved(EMPTY_VISIT, null, null)
    logFault('report', new Error('x'), own)
    writeFileSync(mine, 'saved here by its owner')
    writeFileSync(join(own, `.visit-report-${DEAD}-00000000-0000-0000-0000-000000000000.part`), 'half')
    await createAutosave(own, null).keep(EMPTY_VISIT, null)
    expect(await removeTraces(own)).toEqual({ recent: 1, unsaved: 1, log: true, stillOpen: 1, stay: [] })
    expect(readdirSync(own).sort()).toEqual(['my.visit', 'unsaved'])
    expect(readdirSync(join(own, 'unsaved'))).toHaveLength(1)
  })

  it('says so where there was nothing, and leaves no folder behind', async () => {
    const nothing = { recent: 0, unsaved: 0, log: false, stillOpen: 0, stay: [] }
    expect(await removeTraces(own)).toEqual(nothing)
    await rememberVisit('a.visit', own)
    await removeTraces(own)
    expect(existsSync(own)).toBe(false)
  })

  it('names what could not be removed', async () => {
    mkdirSync(recentVisitsIn(own), { recursive: true })
    expect((await removeTraces(own)).stay).toEqual([recentVisitsIn(own)])
  })

  it('stands alone on the command line', () => {
    expect(parseCommand(ENGLISH, ['--remove-traces'])).toEqual({ kind: 'remove-traces' })
    for (const more of [['a.csv'], ['--json', '-'], ['--no-pdf']])
      expect(parseCommand(ENGLISH, ['--remove-traces', ...more])).toMatchObject({ kind: 'wrong' })
  })
})

describe('a whole session', () => {
  const MARKS = ['MARKNOTE', 'MARKLABEL', 'MARKNAME', 'MARKPASS', 'MARKREASON', '137.25']
  const LOG = `Time,Glucose (mg/dL),Note\n2026-03-02 07:10,104,MARKNOTE\n2026-03-02 12:00,137.25,MARKNOTE\n`

  it('of a protected visit leaves no mark in the program’s folder or the temporary one, and tells none', async () => {
    const [work, temp] = ['work', 'tmp'].map((name) => join(home, name))
    for (const folder of [work, temp]) mkdirSync(folder)
    writeFileSync(join(work, 'MARKNAME.csv'), LOG)
    const env = { XDG_DATA_HOME: join(home, 'data'), TMPDIR: temp, HOME: home, APPDATA: join(home, 'data') }
    const cli = (...args: string[]): CliRun => runCli(args, { cwd: work, env, input: 'MARKPASS\n' })
    const fd = ['--passphrase-fd', '0']
    const saved = cli('MARKNAME.csv', '--save', 'MARKNAME.visit', '--label', 'MARKLABEL', '--no-pdf', ...fd)
    expect([saved.status, saved.stderr]).toEqual([0, ''])
    const visit: Visit = { ...EMPTY_VISIT, logs: [visitLog('MARKNAME.csv', LOG)], label: 'MARKLABEL' }
    const path = join(work, 'MARKNAME.visit')
    await leaveUnsaved(visit, 'MARKPASS', path)
    await leaveUnsaved({ ...visit, label: 'MARKREASON' }, null, null)
    await rememberVisit(path, own)
    logFault('report', new Error('MARKNOTE'), own)
    const again = cli('MARKNAME.visit', '--no-pdf', ...fd)
    expect(again.stderr).toMatch(
      /^MARKNAME\.visit: Changes made to this visit on \d{4}-\d\d-\d\d \d\d:\d\d were never saved\. This run [^.]+\.\n$/,
    )
    // Nothing of the protected visit in clear while the traces are there.
    const kept = contents(own)
    for (const mark of ['MARKNOTE', 'MARKPASS', 'MARKLABEL'])
      expect(kept.filter(({ text, isClear }) => !isClear && text.includes(mark))).toEqual([])
    const wrong = runCli(['MARKNAME.visit', ...fd], { cwd: work, env, input: 'other\n' })
    const removed = cli('--remove-traces')
    expect([removed.status, removed.stderr]).toEqual([0, ''])
    expect(removed.stdout).toBe(
      `Removed from ${own}: the list of recent visits (1); the unsaved changes of 2 visits; the program log.\nVisits that you saved are still where you saved them.\n`,
    )
    for (const folder of [join(home, 'data'), temp])
      for (const { name, text } of contents(folder))
        for (const mark of MARKS) expect(`${name} ${text}`).not.toContain(mark)
    expect(existsSync(own)).toBe(false)
    for (const { stderr } of [saved, again, wrong, removed]) {
      // The name is the person's own word on the command line.
      for (const mark of MARKS.filter((mark) => mark !== 'MARKNAME')) expect(stderr).not.toContain(mark)
    }
    expect(cli('--remove-traces').stdout).toContain('There was nothing to remove')
    await expect(saveVisit({ path, visit, passphrase: 'MARKPASS', openedAs: null })).resolves.toHaveLength(64)
  })

  /** Every file below a folder; `isClear` tells the visit that has no passphrase. */
  function contents(folder: string): { name: string; text: string; isClear: boolean }[] {
    if (!existsSync(folder)) return []
    return readdirSync(folder, { recursive: true, withFileTypes: true }).flatMap((entry) => {
      if (!entry.isFile()) return []
      const text = readFileSync(join(entry.parentPath, entry.name), 'latin1')
      return [{ name: entry.name, text, isClear: text.includes('MARKREASON') }]
    })
  }
})
