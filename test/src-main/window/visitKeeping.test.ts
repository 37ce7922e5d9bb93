import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import type * as Crypto from 'node:crypto'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { reportKeeper } from '../../../src-core/visit/visitReport'
import type { FileOutcome } from '../../../src-core/bridge/contract'
import type { FileRequest } from '../../../src-core/bridge/fileRequest'
import { EMPTY_VISIT } from '../../../src-core/visit/visit'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { createCalculator } from '../../../src-main/window/calculator'
import type { FileDialogs } from '../../../src-main/window/fileEffects'
import { createVisitService, type VisitService } from '../../../src-main/window/visitService'
import { lockVisit } from '../../../src-main/files/visitLock'
import { fileContent, loadVisit, saveVisit } from '../../../src-main/files/visitStore'
import { visitLog } from '../../helpers/visits'
import { soon } from '../../helpers/waiting'
import { ENGLISH } from '../../../src-core/wording/english'
import { notWritten } from '../../helpers/notWritten'

vi.mock('node:crypto', async (importOriginal) => {
  const { withCheapKeys } = await import('../../helpers/cheapKeys')
  return withCheapKeys(await importOriginal<typeof Crypto>())
})

// The file of a window's visit, asked for as the window asks for it, on the disk.

const NOW = { nowMs: Date.UTC(2026, 5, 30, 12), zone: 'Europe/Berlin' }
const SECRET = 'four plain words here'
const LOG = visitLog('meter.csv', 'Date,Time,Glucose (mg/dL)\n2026-03-01,07:00,110\n2026-03-02,12:00,62\n')
const VISIT = { ...EMPTY_VISIT, logs: [LOG], label: 'zanzibar' }

let folder: string
let own: string
let path: string
let dialogs: { [name in keyof FileDialogs]: ReturnType<typeof vi.fn<FileDialogs[name]>> } | null
let service: VisitService

function started(): VisitService {
  return createVisitService(ENGLISH, {
    about: { name: 'Visit report', version: '1' },
    calculator: {
      ...createCalculator(ENGLISH, {
        visitReport: reportKeeper(ENGLISH, BYTE_TOOLS),
        reportPdf: () => Promise.reject(new Error('no pages here')),
      }),
      progress: () => null,
      cancel: () => undefined,
    },
    sample: () => ({ name: 'sample.csv', bytes: new Uint8Array(LOG.bytes) }),
    now: () => NOW,
    files: {
      programFolder: own,
      dialogs,
      minuteOf: (ms) => new Date(ms).toISOString(),
    },
    openPdf: null,
  })
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'keeping-'))
  own = join(folder, 'own')
  path = join(folder, 'thursday.visit')
  dialogs = { openVisit: vi.fn(() => Promise.resolve(path)), saveVisit: vi.fn(() => Promise.resolve(path)) }
  service = started()
})
afterEach(() => rmSync(folder, { recursive: true }))

const ask = async (request: FileRequest): Promise<FileOutcome> => service.file(request)
const standing = async () => (await service.show(null)).file
const saved = (visit = VISIT, passphrase: string | null = null) =>
  saveVisit({ path, visit, passphrase, openedAs: null })
const unsavedFiles = () =>
  existsSync(join(own, 'unsaved'))
    ? readdirSync(join(own, 'unsaved')).filter((name) => name.startsWith('unsaved-'))
    : []

async function label(text: string): Promise<void> {
  const { revision } = await service.show(null)
  const { problems } = await service.edit({ revision, edit: { kind: 'set', settings: { label: text } } })
  expect(problems).toEqual([])
}

/** Leaves unsaved what a program that no longer runs would have left. */
async function killed(): Promise<void> {
  await soon(() => expect(unsavedFiles()).toHaveLength(1))
  const [name] = unsavedFiles()
  const content = readFileSync(join(own, 'unsaved', name))
  rmSync(join(own, 'unsaved', name))
  // The largest number that Linux gives to a process is 2^22.
  writeFileSync(join(own, 'unsaved', name.replace(/unsaved-\d+/, 'unsaved-99999999')), content)
  for (const left of readdirSync(folder).filter((one) => one.endsWith('.open'))) rmSync(join(folder, left))
  service = started()
}

describe('a visit file', () => {
  it('is opened from the dialog, edited, saved, and opens again', async () => {
    await saved()
    const { state, said } = await ask({ does: 'choose' })
    expect(said).toBe('Opened thursday.visit.')
    expect(state.report.kind).toBe('opened')
    expect(state.file).toMatchObject({ name: 'thursday.visit', folder, edited: false, isProtected: false })
    await label('new label')
    expect((await standing()).edited).toBe(true)
    expect((await ask({ does: 'save' })).said).toBe('Saved thursday.visit.')
    expect((await standing()).edited).toBe(false)
    expect(await loadVisit(ENGLISH, path, () => Promise.reject(new Error('not protected')))).toMatchObject({
      kind: 'loaded',
      visit: { label: 'new label', zone: 'Europe/Berlin', logs: [{ name: 'meter.csv' }] },
    })
  })

  it('is not edited any more once its edits are undone', async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('new label')
    await soon(() => expect(unsavedFiles()).toHaveLength(1))
    const { revision } = await service.show(null)
    const undone = await service.undo({ revision })
    expect(undone.state.file.edited).toBe(false)
    await soon(() => expect(unsavedFiles()).toEqual([]))
  })

  it('is saved under the name that the dialog gives, and from then on there', async () => {
    await service.addSample(null)
    await ask({ does: 'save' })
    expect(dialogs?.saveVisit).toHaveBeenCalledWith('Invented sample, not a person.visit')
    await label('again')
    await ask({ does: 'save' })
    expect(dialogs?.saveVisit).toHaveBeenCalledOnce()
    path = join(folder, 'friday.visit')
    await ask({ does: 'save-as' })
    expect(await standing()).toMatchObject({ name: 'friday.visit', edited: false })
    expect(readdirSync(folder).filter((name) => name.endsWith('.open'))).toEqual(['.friday.visit.open'])
  })

  it('is told where it is no visit or cannot be read; the visit in hand stays', async () => {
    await service.addSample(null)
    await ask({ does: 'save' })
    const before = await service.show(null)
    path = join(folder, 'gone.visit')
    expect((await ask({ does: 'choose' })).problems).toMatchObject([
      { about: 'gone.visit', message: expect.stringContaining('no longer there') as string },
    ])
    writeFileSync(path, 'Date,Glucose')
    expect((await ask({ does: 'choose' })).problems).toMatchObject([
      { message: expect.stringContaining('not a visit file of this program') as string },
    ])
    expect(await service.show(null)).toEqual(before)
  })

  it('opens with what is damaged told for as long as it is open', async () => {
    await saved()
    writeFileSync(path, readFileSync(path, 'utf8').replace('zanzibar', 'zanzibaR'))
    await ask({ does: 'choose' })
    expect((await standing()).cautions[0]).toMatch(/^Line 2 is damaged/)
    await label('x')
    expect((await standing()).cautions[0]).toMatch(/^Line 2 is damaged/)
  })

  it('that is damaged and saved leaves the good version beside it, and is itself kept', async () => {
    await saved()
    await saved({ ...VISIT, label: 'zanzibar again' })
    const good = readFileSync(`${path}.previous`, 'utf8')
    const damaged = readFileSync(path, 'utf8').replace('zanzibar', 'zanzibaR')
    writeFileSync(path, damaged)
    await ask({ does: 'choose' })
    for (const text of ['first', 'second']) {
      await label(text)
      expect((await ask({ does: 'save' })).said).toBe('Saved thursday.visit.')
      expect(readFileSync(path, 'utf8')).toContain(text)
      expect(readFileSync(`${path}.previous`, 'utf8')).toBe(good)
      expect(readFileSync(`${path}.damaged`, 'utf8')).toBe(damaged)
    }
    await ask({ does: 'protect', passphrase: SECRET })
    await ask({ does: 'save' })
    // Neither stays in clear beside a protected one.
    expect(readdirSync(folder).filter((name) => /previous|damaged/.test(name))).toEqual([])
  })

  it('that is damaged is kept by itself also where no previous version stands there, whatever is saved later', async () => {
    await saved()
    const damaged = readFileSync(path, 'utf8').replace('zanzibar', 'zanzibaR')
    writeFileSync(path, damaged)
    // Opened anew each time, as the command line does.
    for (const text of ['first', 'second', 'third']) {
      await ask({ does: 'choose' })
      await label(text)
      await ask({ does: 'save' })
      expect(readFileSync(path, 'utf8')).toContain(text)
      expect(readFileSync(`${path}.damaged`, 'utf8')).toBe(damaged)
    }
  })
})

describe('saving where a file stands that this window did not open', () => {
  const other = () => join(folder, 'friday.visit')
  beforeEach(async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('mine')
    dialogs?.saveVisit.mockImplementation(() => Promise.resolve(other()))
  })

  it.each([
    ['a visit', () => fileContent({ ...VISIT, label: 'theirs' }, null), true],
    ['any other file', () => Promise.resolve('shopping list'), false],
  ])('asks before it writes over %s', async (_, content, isVisit) => {
    const theirs = await content()
    writeFileSync(other(), theirs)
    await ask({ does: 'save-as' })
    expect((await standing()).asked).toEqual({ kind: 'other-stands', name: 'friday.visit', isVisit })
    await ask({ does: 'cancel' })
    expect(readFileSync(other(), 'utf8')).toBe(theirs)
    expect(await standing()).toMatchObject({ name: 'thursday.visit', edited: true, asked: null })
    await ask({ does: 'save-as' })
    expect((await ask({ does: 'go-on' })).said).toBe('Saved friday.visit.')
    expect(readFileSync(other(), 'utf8')).toContain('"mine"')
    expect(await standing()).toMatchObject({ name: 'friday.visit', edited: false, asked: null })
    // From then on it is this window's own.
    await label('mine again')
    expect((await ask({ does: 'save' })).said).toBe('Saved friday.visit.')
  })

  it('asks nothing of an empty file, and of none', async () => {
    writeFileSync(other(), '')
    expect((await ask({ does: 'save-as' })).said).toBe('Saved friday.visit.')
    dialogs?.saveVisit.mockImplementation(() => Promise.resolve(join(folder, 'new.visit')))
    expect((await ask({ does: 'save-as' })).said).toBe('Saved new.visit.')
  })

  it('asks too where the file of a recovered visit was gone and another stands there now', async () => {
    await killed()
    rmSync(path)
    const [unsaved] = (await service.beginning(null)).unsaved
    await ask({ does: 'recover', mark: unsaved.mark })
    writeFileSync(path, 'shopping list')
    await ask({ does: 'save' })
    expect((await standing()).asked).toEqual({ kind: 'other-stands', name: 'thursday.visit', isVisit: false })
    expect(readFileSync(path, 'utf8')).toBe('shopping list')
  })

  it('goes on to the visit that waited once it is replaced', async () => {
    writeFileSync(other(), 'shopping list')
    await ask({ does: 'save-as' })
    await ask({ does: 'cancel' })
    await ask({ does: 'begin' })
    await ask({ does: 'go-on' })
    await service.addSample(null)
    await ask({ does: 'choose' })
    await ask({ does: 'save-first' })
    expect((await standing()).asked?.kind).toBe('other-stands')
    expect((await ask({ does: 'go-on' })).said).toBe('Saved friday.visit. Opened thursday.visit.')
  })
})

describe('another visit while this one is not saved', () => {
  beforeEach(async () => {
    await saved()
    await service.addSample(null)
  })

  it('is opened only after that is said', async () => {
    await ask({ does: 'choose' })
    expect((await standing()).asked).toEqual({ kind: 'unsaved', next: 'thursday.visit' })
    await ask({ does: 'cancel' })
    expect((await standing()).asked).toBeNull()
    expect((await service.show(null)).visit.label).toBe('Invented sample, not a person')
    await ask({ does: 'choose' })
    await ask({ does: 'go-on' })
    expect((await service.show(null)).visit.label).toBe('zanzibar')
    await soon(() => expect(unsavedFiles()).toEqual([]))
  })

  it('is opened after this one was saved', async () => {
    await ask({ does: 'choose' })
    const other = join(folder, 'friday.visit')
    dialogs?.saveVisit.mockResolvedValue(other)
    const { said } = await ask({ does: 'save-first' })
    expect(said).toBe('Saved friday.visit. Opened thursday.visit.')
    expect(existsSync(other)).toBe(true)
  })

  it('is not opened where saving was given up', async () => {
    await ask({ does: 'choose' })
    dialogs?.saveVisit.mockResolvedValue(null)
    await ask({ does: 'save-first' })
    expect(await standing()).toMatchObject({ name: null, edited: true })
  })

  it('begins empty in the same way', async () => {
    await ask({ does: 'begin' })
    expect((await standing()).asked).toEqual({ kind: 'unsaved', next: null })
    const { state } = await ask({ does: 'go-on' })
    expect(state.report.kind).toBe('empty')
    expect(state.visit.undo).toBeNull()
  })
})

describe('a protected visit', () => {
  it('asks for its passphrase, again where it is wrong, and stays protected', async () => {
    await saved(VISIT, SECRET)
    await ask({ does: 'choose' })
    expect((await standing()).asked).toEqual({
      kind: 'passphrase',
      name: 'thursday.visit',
      again: null,
      tries: 0,
    })
    for (const tries of [1, 2]) {
      await ask({ does: 'open-with', passphrase: 'wrong' })
      const { asked } = await standing()
      if (asked?.kind !== 'passphrase') throw new Error('not asked again')
      expect(asked.again).toContain('not the passphrase')
      // Another number each time, so that the window tells it each time.
      expect(asked.tries).toBe(tries)
    }
    const { state } = await ask({ does: 'open-with', passphrase: SECRET })
    expect(state.file).toMatchObject({ isProtected: true, edited: false, asked: null })
    await label('xylophone')
    await ask({ does: 'save' })
    expect(readFileSync(path, 'utf8')).not.toContain('xylophone')
    expect(await loadVisit(ENGLISH, path, () => Promise.resolve(SECRET))).toMatchObject({
      visit: { label: 'xylophone' },
    })
  })

  it('is so from the next save on, and what is kept unsaved is never in clear', async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('xylophone')
    await soon(() => expect(unsavedFiles()).toHaveLength(1))
    await ask({ does: 'protect', passphrase: SECRET })
    expect(await standing()).toMatchObject({ isProtected: true, protectionChanged: true, edited: true })
    await soon(() => {
      for (const name of unsavedFiles()) {
        expect(readFileSync(join(own, 'unsaved', name), 'utf8')).not.toContain('xylophone')
      }
    })
    await ask({ does: 'save' })
    expect(await standing()).toMatchObject({ isProtected: true, protectionChanged: false })
    expect(readdirSync(folder).filter((name) => name.endsWith('.previous'))).toEqual([])
    expect(readFileSync(path, 'utf8')).toContain('"protected"')
    await ask({ does: 'protect', passphrase: null })
    await ask({ does: 'save' })
    expect(readFileSync(path, 'utf8')).toContain('xylophone')
  })

  it('keeps logs that came with it until it is open', async () => {
    await saved({ ...VISIT, logs: [] }, SECRET)
    const bytes = new Uint8Array(readFileSync(path))
    await service.addLogs({
      logs: [
        { name: 'meter.csv', bytes: new Uint8Array(LOG.bytes) },
        { name: 'thursday.visit', bytes },
      ],
    })
    expect((await service.show(null)).report.kind).toBe('empty')
    const { state } = await ask({ does: 'open-with', passphrase: SECRET })
    expect(state.visit).toMatchObject({ label: 'zanzibar', logs: [{ name: 'meter.csv' }] })
    expect(state.file).toMatchObject({ name: 'thursday.visit', folder: null, edited: true })
  })
})

describe('two windows', () => {
  it('are told of each other', async () => {
    await saved()
    const release = await lockVisit(path)
    await ask({ does: 'choose' })
    expect((await standing()).asked).toEqual({ kind: 'open-elsewhere', name: 'thursday.visit' })
    await ask({ does: 'cancel' })
    expect((await standing()).name).toBeNull()
    await ask({ does: 'choose' })
    await ask({ does: 'go-on' })
    expect((await standing()).cautions[0]).toContain('Another window or program has this visit open')
    await release?.()
  })

  it('do not save over each other unasked', async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('mine')
    await saved({ ...VISIT, label: 'theirs' })
    await ask({ does: 'save' })
    expect((await standing()).asked).toEqual({ kind: 'changed-outside', name: 'thursday.visit' })
    await ask({ does: 'cancel' })
    expect(readFileSync(path, 'utf8')).toContain('theirs')
    await ask({ does: 'save' })
    expect((await ask({ does: 'go-on' })).said).toBe('Saved thursday.visit.')
    expect(readFileSync(path, 'utf8')).toContain('mine')
    expect(readFileSync(`${path}.previous`, 'utf8')).toContain('theirs')
  })

  it('may not save under the name that the other one has open', async () => {
    await saved()
    const release = await lockVisit(path)
    await service.addSample(null)
    expect((await ask({ does: 'save' })).problems).toHaveLength(1)
    expect((await standing()).edited).toBe(true)
    await release?.()
  })
})

describe('what a killed program left', () => {
  it('is offered with its name and when, recovered, and gone once saved', async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('not saved')
    await killed()
    const { unsaved } = await service.beginning(null)
    const holds = '1 to 2 March 2026 · 1 log: meter.csv'
    expect(unsaved).toMatchObject([{ name: 'thursday.visit', isProtected: false, holds }])
    expect(Date.parse(unsaved[0].when)).toBeGreaterThan(0)
    const { state, said } = await ask({ does: 'recover', mark: unsaved[0].mark })
    expect(said).toBe('Recovered. It is not saved yet.')
    expect(state.visit.label).toBe('not saved')
    expect(state.file).toMatchObject({ name: 'thursday.visit', edited: true })
    // Kept by this window now, so that a second kill loses nothing.
    expect(unsavedFiles()).toHaveLength(1)
    expect(unsavedFiles()[0]).toContain(`unsaved-${process.pid}-`)
    expect((await ask({ does: 'save' })).said).toBe('Saved thursday.visit.')
    await soon(() => expect(unsavedFiles()).toEqual([]))
  })

  it('asks before it replaces a file that was saved again since', async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('not saved')
    await killed()
    const later = new Date(Date.now() + 60_000)
    utimesSync(path, later, later)
    const { unsaved } = await service.beginning(null)
    await ask({ does: 'recover', mark: unsaved[0].mark })
    await ask({ does: 'save' })
    expect((await standing()).asked).toEqual({ kind: 'changed-outside', name: 'thursday.visit' })
  })

  it('asks for the passphrase where the visit is protected', async () => {
    await saved(VISIT, SECRET)
    await ask({ does: 'choose' })
    await ask({ does: 'open-with', passphrase: SECRET })
    await label('xylophone')
    await killed()
    const { unsaved } = await service.beginning(null)
    expect(unsaved).toMatchObject([{ isProtected: true, holds: '' }])
    await ask({ does: 'recover', mark: unsaved[0].mark })
    expect((await standing()).asked?.kind).toBe('passphrase')
    const { state } = await ask({ does: 'open-with', passphrase: SECRET })
    expect(state.visit.label).toBe('xylophone')
  })

  it('is discarded where nobody wants it', async () => {
    await service.addSample(null)
    await killed()
    const { unsaved } = await service.beginning(null)
    expect(unsaved).toMatchObject([{ name: null }])
    await ask({ does: 'discard', mark: unsaved[0].mark })
    expect((await service.beginning(null)).unsaved).toEqual([])
  })

  it('stays where the program ends by itself, and goes where its window is closed', async () => {
    await service.addSample(null)
    await service.end(false)
    expect(unsavedFiles()).toHaveLength(1)
    await service.end(true)
    expect(unsavedFiles()).toEqual([])
  })
})

describe('a visit file that is gone', () => {
  it('is told to be gone, and written anew where that is wanted', async () => {
    await saved()
    await ask({ does: 'choose' })
    await label('mine')
    rmSync(path)
    await ask({ does: 'save' })
    expect((await standing()).asked).toEqual({ kind: 'gone-outside', name: 'thursday.visit' })
    await ask({ does: 'cancel' })
    expect(existsSync(path)).toBe(false)
    await ask({ does: 'save' })
    expect((await ask({ does: 'go-on' })).said).toBe('Saved thursday.visit.')
    expect(readFileSync(path, 'utf8')).toContain('mine')
    expect((await standing()).edited).toBe(false)
  })

  it('is not written by a program that does not ask', async () => {
    expect(
      await notWritten(saveVisit({ path, visit: VISIT, passphrase: null, openedAs: 'a'.repeat(64) })),
    ).toContain('it has been moved or removed since it was opened')
  })
})

describe('what is not saved', () => {
  it('is told to be nowhere where the disk does not take it, until it does or is saved', async () => {
    await saved()
    await ask({ does: 'choose' })
    expect(await service.kept(null)).toBe('')
    rmSync(own, { recursive: true })
    writeFileSync(own, 'no folder')
    await label('first')
    const told = await service.kept(null)
    expect(told).toContain(
      `cannot be kept on the disk either: ${join(own, 'unsaved')} could not be written: `,
    )
    expect(told).toMatch(/Save the visit now\.$/)
    await ask({ does: 'save' })
    expect(await service.kept(null)).toBe('')
    await label('second')
    expect(await service.kept(null)).not.toBe('')
    rmSync(own)
    await label('third')
    expect(await service.kept(null)).toBe('')
    expect(unsavedFiles()).toHaveLength(1)
  })
})

describe('recent visits', () => {
  it('are listed and opened, and removed with all other traces after a question', async () => {
    await saved()
    await ask({ does: 'choose' })
    service = started()
    await ask({ does: 'begin' })
    const { recent } = await service.beginning(null)
    expect(recent).toMatchObject([{ name: 'thursday.visit', folder }])
    await ask({ does: 'open-recent', mark: recent[0].mark })
    // The window before it still has it open.
    await ask({ does: 'go-on' })
    expect((await standing()).name).toBe('thursday.visit')
    await ask({ does: 'remove-traces' })
    expect((await standing()).asked).toEqual({ kind: 'remove-traces' })
    expect((await ask({ does: 'go-on' })).said).toContain('the list of recent visits (1)')
    expect((await service.beginning(null)).recent).toEqual([])
    expect(existsSync(path)).toBe(true)
  })

  it('open nothing that is not listed', async () => {
    await saved()
    expect((await ask({ does: 'open-recent', mark: 'a'.repeat(64) })).problems).toHaveLength(1)
    expect((await standing()).name).toBeNull()
  })
})

describe('in the browser', () => {
  beforeEach(() => {
    dialogs = null
    service = started()
  })

  it('a visit without a place is given to the browser to save', async () => {
    await service.addSample(null)
    const { download, said, state } = await ask({ does: 'save' })
    expect(said).toContain('look for it among your downloads')
    expect(download?.fileName).toBe('Invented sample, not a person.visit')
    expect(state.file).toMatchObject({
      name: 'Invented sample, not a person.visit',
      folder: null,
      edited: false,
    })
    writeFileSync(path, download?.bytes ?? '')
    expect(await loadVisit(ENGLISH, path, () => Promise.reject(new Error('not protected')))).toMatchObject({
      visit: { logs: [{ name: 'sample.csv' }] },
    })
  })

  it('what the browser was given is kept and offered, until it is seen saved or discarded', async () => {
    await service.addSample(null)
    await ask({ does: 'save' })
    const { download } = await ask({ does: 'save' })
    expect(unsavedFiles()).toHaveLength(1)
    await ask({ does: 'begin' })
    await service.end(false)
    await killed()
    const { unsaved } = await service.beginning(null)
    expect(unsaved).toMatchObject([{ name: 'Invented sample, not a person.visit', handed: true }])
    // Another file, though of the same visit, was not what is kept.
    const opens = (bytes = new Uint8Array()) =>
      service.addLogs({ logs: [{ name: 'Invented sample, not a person.visit', bytes }] })
    await opens(new TextEncoder().encode(await fileContent(VISIT, null)))
    expect((await service.beginning(null)).unsaved).toHaveLength(1)
    await opens(download?.bytes)
    expect((await service.beginning(null)).unsaved).toEqual([])
    expect(unsavedFiles()).toEqual([])
  })

  it('what was given is recovered as not saved', async () => {
    await service.addSample(null)
    await ask({ does: 'save' })
    await service.end(false)
    await killed()
    const [{ mark }] = (await service.beginning(null)).unsaved
    const { state } = await ask({ does: 'recover', mark })
    expect(state.visit.logs).toMatchObject([{ name: 'sample.csv' }])
    expect(state.file).toMatchObject({ name: 'Invented sample, not a person.visit', edited: true })
    expect(unsavedFiles()).toHaveLength(1)
  })

  it('a copy of a visit that has its place is no save of it', async () => {
    await saved()
    await service.openWith(path, [])
    await label('mine')
    const { download, state } = await ask({ does: 'save-as' })
    expect(new TextDecoder().decode(download?.bytes)).toContain('mine')
    expect(state.file.edited).toBe(true)
  })

  it('a visit that the command line names is saved in its place', async () => {
    await saved()
    expect(
      await service.openWith(path, [{ name: 'meter.csv', bytes: new Uint8Array(LOG.bytes) }]),
    ).toMatchObject([{ about: 'meter.csv', message: 'It is among the logs already.' }])
    await label('mine')
    expect(await ask({ does: 'save' })).toMatchObject({ said: 'Saved thursday.visit.', download: null })
  })

  it('says what could not be saved, and keeps the edits', async () => {
    mkdirSync(join(folder, 'sub'))
    path = join(folder, 'sub', 'thursday.visit')
    await saved()
    await service.openWith(path, [])
    await label('mine')
    rmSync(join(folder, 'sub'), { recursive: true })
    await ask({ does: 'save' })
    const { problems, state } = await ask({ does: 'go-on' })
    expect(problems[0].message).toContain('could not be written')
    expect(state.file.edited).toBe(true)
  })
})
