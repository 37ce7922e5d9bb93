import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { lockVisit, whileSaving } from '../../../src-main/files/visitLock'

let folder: string
let visit: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-lock-'))
  visit = join(folder, 'my.visit')
  writeFileSync(visit, '')
})
afterEach(() => {
  rmSync(folder, { recursive: true })
})

const DEAD = spawnSync(process.execPath, ['-e', '']).pid

/** A lock as another process of this computer would have left it. */
async function leftBy(pid: number | string): Promise<void> {
  const release = await lockVisit(visit)
  const lock = join(folder, '.my.visit.open')
  const content = readFileSync(lock, 'utf8').replace(/^\d+/, String(pid))
  await release?.()
  writeFileSync(lock, content)
}

describe('a visit that is open', () => {
  it('is told to the next window, by whatever path, until it is closed', async () => {
    symlinkSync(visit, join(folder, 'link.visit'))
    const release = await lockVisit(visit)
    expect(await lockVisit(visit)).toBeNull()
    expect(await lockVisit(join(folder, 'link.visit'))).toBeNull()
    expect(await lockVisit(join(folder, 'other.visit'))).not.toBeNull()
    expect(statSync(join(folder, '.my.visit.open')).mode & 0o777).toBe(0o600)
    await release?.()
    expect(await lockVisit(visit)).not.toBeNull()
  })

  it('by a program that died is free', async () => {
    await leftBy(DEAD)
    const release = await lockVisit(visit)
    expect(release).not.toBeNull()
    expect(await lockVisit(visit)).toBeNull()
    await release?.()
    expect(readdirSync(folder)).toEqual(['my.visit'])
  })

  it('on another computer is not free, though no process of that number runs here', async () => {
    await leftBy(DEAD)
    const lock = join(folder, '.my.visit.open')
    writeFileSync(lock, readFileSync(lock, 'utf8').replace(/ [0-9a-f]{16} /, ' 0123456789abcdef '))
    expect(await lockVisit(visit)).toBeNull()
  })

  it('is opened by one of many windows that find a dead one’s lock at once', async () => {
    await leftBy(DEAD)
    const locks = await Promise.all(Array.from({ length: 20 }, () => lockVisit(visit)))
    expect(locks.filter((lock) => lock !== null).length).toBeLessThanOrEqual(1)
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([])
  })

  it('is not given back by one who lost it', async () => {
    const release = await lockVisit(visit)
    writeFileSync(join(folder, '.my.visit.open'), 'taken by another')
    await release?.()
    expect(readFileSync(join(folder, '.my.visit.open'), 'utf8')).toBe('taken by another')
  })

  it.skipIf(process.getuid?.() === 0)('in a folder that may not be written opens all the same', async () => {
    chmodSync(folder, 0o500)
    expect(await lockVisit(visit)).not.toBeNull()
    chmodSync(folder, 0o700)
  })
})

describe('saves of one visit', () => {
  it('follow one another and leave nothing behind', async () => {
    const events: string[] = []
    const save = (name: string) =>
      whileSaving(visit, async () => {
        events.push(`${name} begins`)
        await new Promise(setImmediate)
        events.push(`${name} ends`)
      })
    await Promise.all([save('a'), save('b'), save('c')])
    expect(events).toHaveLength(6)
    for (let i = 0; i < 6; i += 2) expect(events[i + 1]).toBe(events[i].replace('begins', 'ends'))
    expect(readdirSync(folder)).toEqual(['my.visit'])
  })

  it('are let in after a fault, and where a lock is older than any save', async () => {
    await expect(whileSaving(visit, () => Promise.reject(new Error('fault')))).rejects.toThrow('fault')
    const lock = join(folder, '.my.visit.saving')
    writeFileSync(lock, '1 0123456789abcdef of another computer\n')
    utimesSync(lock, new Date(0), new Date(0))
    expect(await whileSaving(visit, () => Promise.resolve('saved'))).toBe('saved')
  })
})
