import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import type * as FileSystem from 'node:fs/promises'
import type { FileHandle } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { fileContent, loadVisit, saveVisit } from '../../../src-main/files/visitStore'
import { WriteFailed, writeOutputs } from '../../../src-main/files/writeFiles'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'
import { notWritten, toldOf } from '../../helpers/notWritten'

/** Which calls fail and how; counted from 1. */
const fault = vi.hoisted(() => ({ calls: [] as string[], fails: none() }))
type Fails = (call: number, name: string) => string | null
function none(): Fails {
  return () => null
}

vi.mock('node:fs/promises', async (importOriginal) => {
  const real = await importOriginal<typeof FileSystem>()
  type Call = (...args: never[]) => Promise<unknown>
  const watched =
    (name: string, call: Call): Call =>
    async (...args) => {
      fault.calls.push(name)
      const code = fault.fails(fault.calls.length, name)
      if (code !== null) throw Object.assign(new Error(`${code}: injected`), { code })
      return call(...args)
    }
  const names = ['copyFile', 'link', 'readdir', 'readFile', 'rename', 'rm', 'stat', 'writeFile'] as const
  const calls = Object.fromEntries(names.map((name) => [name, watched(name, real[name] as Call)]))
  const open = async (...args: never[]) => {
    const file = (await watched('open', real.open)(...args)) as FileHandle
    return {
      writeFile: watched('write', file.writeFile.bind(file)),
      sync: watched('sync', file.sync.bind(file)),
      chmod: watched('chmod', file.chmod.bind(file)),
      chown: watched('chown', file.chown.bind(file)),
      stat: file.stat.bind(file),
      // A file that cannot be closed would stay open for ever: the fault comes after.
      close: async () => {
        await file.close()
        await watched('close', () => Promise.resolve())()
      },
    }
  }
  return { ...real, ...calls, open }
})

let folder: string
let path: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-fails-'))
  path = join(folder, 'my.visit')
})
afterEach(() => {
  Object.assign(fault, { calls: [], fails: () => null })
  rmSync(folder, { recursive: true })
})

const OLD: Visit = { ...EMPTY_VISIT, label: 'old' }
const NEW: Visit = { ...EMPTY_VISIT, label: 'new', logs: [visitLog('a.csv', 'x'.repeat(200_000))] }
const save = (visit: Visit, openedAs: string | null = null) =>
  saveVisit({ path, visit, passphrase: null, openedAs })
const content = () => readFileSync(path, 'utf8')

/** The old visit, and an older one beside it, as two saves leave them. */
async function stand(): Promise<void> {
  for (const [at, label] of [
    [path, 'old'],
    [`${path}.previous`, 'oldest'],
  ]) {
    // Both may be names of one file.
    rmSync(at, { force: true })
    writeFileSync(at, await fileContent({ ...OLD, label }, null), { mode: 0o600 })
  }
}

/** Saves over an old visit with faults; what stands then, and what was said. */
async function faulty(fails: Fails) {
  Object.assign(fault, { calls: [], fails: () => null })
  await stand()
  Object.assign(fault, { calls: [], fails })
  const said = await save(NEW).then(
    () => null,
    (error: unknown) => error,
  )
  fault.fails = () => null
  return said
}

describe('a save of which a call fails', () => {
  it.each(['ENOSPC', 'EACCES', 'EIO'])('with %s, once or from then on, leaves the old file or the new one, whole', async (code) => {
    const [old, fresh] = [await fileContent(OLD, null), await fileContent(NEW, null)]
    const told = { saved: 0, failed: 0 }
    await faulty(() => null)
    const calls = fault.calls.length
    expect(calls).toBeGreaterThan(15)
    for (const forEver of [false, true]) {
      for (let at = 1; at <= calls + 1; at++) {
        const failed: string[] = []
        const said = await faulty((call, name) => {
          const fails = forEver ? call >= at : call === at
          if (fails) failed.push(name)
          return fails ? code : null
        })
        const case_ = [code, forEver, at, failed[0]]
        if (said === null) {
          told.saved++
          expect([...case_, content() === fresh]).toEqual([...case_, true])
        } else {
          told.failed++
          expect([...case_, said instanceof WriteFailed]).toEqual([...case_, true])
          expect(toldOf(said)).toMatch(/^\/.*my\.visit could not be written: .+\.$/)
          expect([...case_, content() === old]).toEqual([...case_, true])
        }
        // What stays is only what could not be removed, and the next save clears it once this program is over.
        const left = readdirSync(folder).filter((name) => !['my.visit', 'my.visit.previous'].includes(name))
        if (!failed.includes('rm')) expect([...case_, left]).toEqual([...case_, []])
        const previous = readFileSync(`${path}.previous`, 'utf8')
        expect([...case_, /"label":"(old|oldest)"/.test(previous)]).toEqual([...case_, true])
        // A lock that could not be removed must not stop the saves of the next round.
        for (const name of left) if (name.endsWith('.part')) rmSync(join(folder, name))
      }
    }
    expect(Math.min(told.saved, told.failed)).toBeGreaterThan(3)
  }) // prettier-ignore

  it('says what to do', async () => {
    expect(toldOf(await faulty((_, name) => (name === 'write' ? 'ENOSPC' : null)))).toContain(
      'the disk is full',
    )
    expect(toldOf(await faulty((_, name) => (name === 'rename' ? 'EACCES' : null)))).toContain(
      'Choose another folder',
    )
  })

  it('waits on Windows for a file that is held open for a moment, and says so where it stays so', async () => {
    vi.stubGlobal('process', Object.create(process, { platform: { value: 'win32' } }))
    let held = 3
    expect(await faulty((_, name) => (name === 'rename' && held-- > 0 ? 'EPERM' : null))).toBeNull()
    expect(toldOf(await faulty((_, name) => (name === 'rename' ? 'EPERM' : null)))).toContain(
      'another program has it open',
    )
    vi.unstubAllGlobals()
  })

  it('syncs the file before it is moved and the folder after', async () => {
    await faulty(() => null)
    const order = fault.calls.filter((name) => ['write', 'sync', 'rename'].includes(name))
    expect(order).toEqual(['write', 'sync', 'rename', 'rename', 'sync'])
  })

  it('keeps the previous version by a copy where the file system has no second names', async () => {
    await faulty((_, name) => (name === 'link' ? 'EPERM' : null))
    expect(content()).toBe(await fileContent(NEW, null))
    expect(readFileSync(`${path}.previous`, 'utf8')).toBe(await fileContent(OLD, null))
  })
})

describe('a run with several outputs of which a call fails', () => {
  const NAMES = ['report.pdf', 'numbers.json', 'new.csv', 'my.visit']

  /** Writes all of them over old ones, `new.csv` where nothing stands. */
  async function run(fails: Fails) {
    Object.assign(fault, { calls: [], fails: none() })
    for (const name of ['report.pdf', 'numbers.json']) writeFileSync(join(folder, name), `old ${name}`)
    rmSync(join(folder, 'new.csv'), { force: true })
    await stand()
    Object.assign(fault, { calls: [], fails })
    const others = NAMES.slice(0, -1).map((name) => ({ path: join(folder, name), content: `new ${name}` }))
    const said = await saveVisit({ path, visit: NEW, passphrase: null, openedAs: null }, others).then(
      () => null,
      (error: unknown) => error,
    )
    fault.fails = none()
    return said
  }

  /** Which of them are the new ones; one that is neither new nor as before ends the test. */
  async function inPlace(): Promise<readonly string[]> {
    const [old, fresh] = [await fileContent(OLD, null), await fileContent(NEW, null)]
    return NAMES.filter((name) => {
      const content = existsSync(join(folder, name)) ? readFileSync(join(folder, name), 'utf8') : null
      const [before, after] =
        name === 'my.visit' ? [old, fresh] : [name === 'new.csv' ? null : `old ${name}`, `new ${name}`]
      expect([before, after]).toContain(content)
      return content === after
    })
  }

  const namesIn = (text: string) => NAMES.filter((name) => text.includes(name))

  it.each(['ENOSPC', 'EIO'])('with %s leaves all of them or none, and the message says which', async (code) => {
    await run(none())
    expect(await inPlace()).toEqual(NAMES)
    const calls = fault.calls.length
    expect(calls).toBeGreaterThan(30)
    const told = { none: 0, some: 0 }
    for (const forEver of [false, true]) {
      for (let at = 1; at <= calls; at++) {
        const said = await run((call) => ((forEver ? call >= at : call === at) ? code : null))
        const stand = await inPlace()
        for (const name of readdirSync(folder).filter((one) => one.endsWith('.part'))) rmSync(join(folder, name))
        if (said === null) {
          expect([at, stand]).toEqual([at, NAMES])
          continue
        }
        expect(said).toBeInstanceOf(WriteFailed)
        const message = toldOf(said)
        // The visit goes last: it never stands there without the others.
        expect([at, stand.includes('my.visit')]).toEqual([at, false])
        // Only where nothing can be moved back either may some stay.
        if (!forEver) expect([at, stand]).toEqual([at, []])
        if (!/wrote no file|Already written/.test(message)) expect([at, stand]).toEqual([at, []])
        else if (stand.length === 0) {
          told.none++
          expect(message).toContain('This run wrote no file')
        } else {
          told.some++
          const [, placed, missing] = /Already written: (.*)\. Not written: (.*)\.$/.exec(message) ?? []
          expect([at, namesIn(placed)]).toEqual([at, stand])
          expect(namesIn(missing)).toEqual(NAMES.filter((name) => !stand.includes(name)))
        }
      }
    }
    expect(Math.min(told.none, told.some)).toBeGreaterThan(1)
  }) // prettier-ignore

  it('puts nothing in its place before all are on the disk', async () => {
    await run(none())
    const { calls } = fault
    expect(calls.indexOf('rename')).toBeGreaterThan(calls.lastIndexOf('write'))
    expect(calls.filter((name) => name === 'sync').length).toBeGreaterThan(NAMES.length)
    const syncs = calls.slice(0, calls.indexOf('rename')).filter((name) => name === 'sync')
    expect(syncs).toHaveLength(NAMES.length)
  })

  it.skipIf(!existsSync('/dev/full'))(
    'with a device among them that takes nothing leaves the files as they were',
    async () => {
      writeFileSync(join(folder, 'report.pdf'), 'old')
      const outputs = ['/dev/full', join(folder, 'report.pdf')].map((of) => ({ path: of, content: 'new' }))
      expect(await notWritten(writeOutputs(outputs))).toMatch(/disk is full.*This run wrote no file/)
      expect(readFileSync(join(folder, 'report.pdf'), 'utf8')).toBe('old')
    },
  )
})

describe('the mode of an output', () => {
  const mode = (name: string) => statSync(join(folder, name)).mode & 0o777
  const write = (name: string) => writeOutputs([{ path: join(folder, name), content: 'new' }])

  it.each([0o600, 0o640, 0o604, 0o666])('is that of the file that it replaces: %o', async (of) => {
    writeFileSync(join(folder, 'report.pdf'), 'old')
    chmodSync(join(folder, 'report.pdf'), of)
    await write('report.pdf')
    expect([readFileSync(join(folder, 'report.pdf'), 'utf8'), mode('report.pdf')]).toEqual(['new', of])
  })

  it('is what the system gives to new files where nothing stood', async () => {
    await write('report.pdf')
    writeFileSync(join(folder, 'other'), '')
    expect(mode('report.pdf')).toBe(mode('other'))
  })

  it('is the owner’s alone of a visit, unless a visit stood there that others may read', async () => {
    await save(OLD)
    expect(mode('my.visit')).toBe(0o600)
    chmodSync(path, 0o640)
    await save(NEW)
    expect(mode('my.visit')).toBe(0o640)
    writeFileSync(path, 'no visit')
    chmodSync(path, 0o644)
    await save(NEW)
    expect(mode('my.visit')).toBe(0o600)
  })

  it('is the owner’s alone until all of it stands there', async () => {
    writeFileSync(join(folder, 'report.pdf'), 'old')
    chmodSync(join(folder, 'report.pdf'), 0o666)
    const modes: number[] = []
    fault.fails = (_, name) => {
      if (name === 'write' || name === 'chmod')
        modes.push(
          ...readdirSync(folder)
            .filter((one) => one.endsWith('.part'))
            .map(mode),
        )
      return null
    }
    await write('report.pdf')
    expect(modes).toEqual([0o600, 0o600])
  })

  it('gives nothing to a group that the file before did not have', async () => {
    writeFileSync(join(folder, 'report.pdf'), 'old')
    chmodSync(join(folder, 'report.pdf'), 0o664)
    if (process.getuid?.() !== 0) return
    chownSync(join(folder, 'report.pdf'), 0, 12_345)
    fault.fails = (_, name) => (name === 'chown' ? 'EPERM' : null)
    await write('report.pdf')
    expect(mode('report.pdf')).toBe(0o604)
  })
})

describe('a save', () => {
  it('over a file that another program has changed or removed is refused', async () => {
    const openedAs = await save(OLD)
    await save(NEW)
    expect(await notWritten(save(OLD, openedAs))).toContain('another program has changed it')
    expect(content()).toBe(await fileContent(NEW, null))
    rmSync(path)
    expect(await notWritten(save(OLD, openedAs))).toContain(
      'it has been moved or removed since it was opened',
    )
  })

  it('over the file it was opened from gives what the next save is held against', async () => {
    const loaded = await loadVisit(ENGLISH, (await save(OLD), path), () => Promise.reject(new Error('asked')))
    const next = await save(NEW, loaded.kind === 'loaded' ? loaded.sha256 : '')
    await save(OLD, next)
    expect(content()).toBe(await fileContent(OLD, null))
  })

  it('where a folder stands, or in none, says so', async () => {
    mkdirSync(path)
    await expect(save(OLD)).rejects.toBeInstanceOf(WriteFailed)
    expect(
      await notWritten(
        saveVisit({ path: join(folder, 'none', 'x'), visit: OLD, passphrase: null, openedAs: null }),
      ),
    ).toContain('does not exist')
    expect(readdirSync(folder)).toEqual(['my.visit'])
  })

  it('clears what a killed program left half-written, and nothing of a living one', async () => {
    const { pid } = spawnSync(process.execPath, ['-e', ''])
    const uuid = '00000000-0000-4000-8000-000000000000'
    const names = [
      `.visit-report-${pid}-${uuid}.part`,
      // Of a program that had the number of this one, as happens in a container.
      `.visit-report-${process.pid}-${uuid}.part`,
      `.visit-report-${process.ppid}-${uuid}.part`,
      '.visit-report-x.part',
    ]
    for (const name of names) writeFileSync(join(folder, name), '')
    writeFileSync(join(folder, '.my.visit.saving'), '')
    await writeOutputs([])
    rmSync(join(folder, '.my.visit.saving'))
    await save(OLD)
    expect(readdirSync(folder).sort()).toEqual([...names.slice(2), 'my.visit'].sort())
  })

  const canMount = process.getuid?.() === 0 && process.platform === 'linux'
  it.skipIf(!canMount)('on a full disk of 128 kB leaves the old visit', async (context) => {
    const disk = join(folder, 'disk')
    mkdirSync(disk)
    if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=128k', 'tmpfs', disk]).status !== 0)
      return context.skip('no file system can be mounted here')
    try {
      path = join(disk, 'my.visit')
      await save(OLD)
      expect(await notWritten(save(NEW))).toContain('the disk is full')
      expect(content()).toBe(await fileContent(OLD, null))
      expect(readdirSync(disk)).toEqual(['my.visit'])
      expect(existsSync(`${path}.previous`)).toBe(false)
    } finally {
      spawnSync('umount', [disk])
    }
  })

  it.skipIf(process.getuid?.() !== 0)('in a read-only folder is refused', async (context) => {
    const disk = join(folder, 'read-only')
    mkdirSync(disk)
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'ro', 'tmpfs', disk]).status === 0
    if (!mounted) return context.skip('no file system can be mounted here')
    path = join(disk, 'my.visit')
    expect(await notWritten(save(OLD))).toContain('is read-only')
    spawnSync('umount', [disk])
  })
})
