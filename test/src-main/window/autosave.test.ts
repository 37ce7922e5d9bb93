import { spawnSync } from 'node:child_process'
import {
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import {
  createAutosave,
  discardUnsaved,
  loadUnsaved,
  newerUnsaved,
  unsavedVisits,
} from '../../../src-main/window/autosave'
import { programFolder } from '../../../src-main/program/programFolder'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-unsaved-'))
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

const VISIT: Visit = { ...EMPTY_VISIT, logs: [visitLog('MARKFILE.csv', 'MARKNOTE')], label: 'MARKLABEL' }
const noPassphrase = () => Promise.reject(new Error('a passphrase was asked for'))
const files = () => readdirSync(join(folder, 'unsaved')).map((name) => join(folder, 'unsaved', name))

/** A process that is over. */
const DEAD = spawnSync(process.execPath, ['-e', '']).pid

/** As if the program that kept the file had died. */
function die(): void {
  for (const file of files()) renameSync(file, file.replace(`-${process.pid}-`, `-${DEAD}-`))
}

describe('what is not saved', () => {
  it('is offered after the program died, with the place of its visit, and opens', async () => {
    const autosave = createAutosave(folder, '/home/me/my.visit')
    // Two at once: the later one stands in the end.
    await Promise.all([autosave.keep(EMPTY_VISIT, null), autosave.keep(VISIT, null, '1 log: MARKFILE.csv')])
    expect(await unsavedVisits(folder)).toEqual([])
    expect(statSync(files()[0]).mode & 0o777).toBe(0o600)
    expect(statSync(join(folder, 'unsaved')).mode & 0o777).toBe(0o700)
    die()
    const [unsaved, ...more] = await unsavedVisits(folder)
    expect(more).toEqual([])
    expect(unsaved).toMatchObject({
      visitPath: '/home/me/my.visit',
      isProtected: false,
      holds: '1 log: MARKFILE.csv',
    })
    expect(await loadUnsaved(ENGLISH, unsaved.file, noPassphrase)).toMatchObject({
      kind: 'loaded',
      visit: VISIT,
      damage: [],
    })
  })

  it('is protected as its visit is', async () => {
    await createAutosave(folder, null).keep(VISIT, 'MARKPASS', '1 log: MARKFILE.csv')
    die()
    const content = readFileSync(files()[0], 'latin1')
    for (const marker of ['MARKNOTE', 'MARKFILE', 'MARKLABEL', 'MARKPASS', visitLog('', 'MARKNOTE').sha256])
      expect(content).not.toContain(marker)
    const [unsaved] = await unsavedVisits(folder)
    expect(unsaved).toMatchObject({ visitPath: null, isProtected: true, holds: '' })
    expect(await loadUnsaved(ENGLISH, unsaved.file, () => Promise.resolve('MARKPASS'))).toMatchObject({
      visit: VISIT,
    })
    expect(await loadUnsaved(ENGLISH, unsaved.file, () => Promise.resolve('x'))).toMatchObject({
      kind: 'refused',
    })
  })

  it('is removed after a save, also one still under way', async () => {
    const autosave = createAutosave(folder, null)
    void autosave.keep(VISIT, null)
    await autosave.remove()
    expect(files()).toEqual([])
    await autosave.remove()
  })

  it('is told of the visit it belongs to, by whatever path, while it is newer than the file', async () => {
    const path = join(folder, 'my.visit')
    writeFileSync(path, '')
    symlinkSync(path, join(folder, 'link.visit'))
    await createAutosave(folder, join(folder, 'link.visit')).keep(VISIT, null)
    await createAutosave(folder, null).keep(VISIT, null)
    expect(await newerUnsaved(folder, path)).toBeNull()
    die()
    utimesSync(path, 0, 0)
    const unsaved = await newerUnsaved(folder, path)
    expect(unsaved?.visitPath).toBe(join(folder, 'link.visit'))
    expect(await newerUnsaved(folder, files()[0])).toBeNull()
    utimesSync(path, 4e9, 4e9)
    expect(await newerUnsaved(folder, path)).toBeNull()
    utimesSync(path, 0, 0)
    await discardUnsaved(unsaved?.file ?? '')
    expect(await newerUnsaved(folder, path)).toBeNull()
    expect(await unsavedVisits(folder)).toHaveLength(1)
  })

  it('that is damaged or no such file hides no other', async () => {
    await createAutosave(folder, null).keep(VISIT, null)
    die()
    for (const [i, content] of ['', 'null\n', '{"visitPath":1}\nx', '\xff'].entries()) {
      const name = `unsaved-${DEAD}-00000000-0000-0000-0000-00000000000${i}.visit`
      writeFileSync(join(folder, 'unsaved', name), content, 'latin1')
    }
    writeFileSync(join(folder, 'unsaved', 'notes.txt'), '')
    const found = await unsavedVisits(folder)
    const loaded = await Promise.all(found.map(({ file }) => loadUnsaved(ENGLISH, file, noPassphrase)))
    expect(loaded.map(({ kind }) => kind).sort()).toEqual([
      'loaded',
      'refused',
      'refused',
      'refused',
      'refused',
    ])
  })
})

describe('the program’s own folder', () => {
  it.each<[NodeJS.Platform, Record<string, string>, string]>([
    ['linux', {}, '/home/me/.local/share/visit-report'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/visit-report'],
    ['linux', { XDG_DATA_HOME: 'data' }, '/home/me/.local/share/visit-report'],
    ['darwin', { XDG_DATA_HOME: '/data' }, '/home/me/Library/Application Support/visit-report'],
    ['win32', { APPDATA: '/Users/me/Roaming' }, '/Users/me/Roaming/visit-report'],
    ['win32', {}, '/home/me/AppData/Roaming/visit-report'],
  ])('on %s with %o is %s', (platform, env, expected) => {
    expect(programFolder(platform, env, '/home/me')).toBe(expected)
  })
})
