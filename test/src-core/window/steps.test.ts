import { beforeEach, describe, expect, it } from 'vitest'
import type { FileOutcome } from '../../../src-core/bridge/contract'
import type { FileRequest } from '../../../src-core/bridge/fileRequest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { addLogs } from '../../../src-core/window/adding'
import { make } from '../../../src-core/window/making'
import { open } from '../../../src-core/window/opening'
import { save } from '../../../src-core/window/saving'
import { emptyWindow, fileOpening, isEdited, type WindowState } from '../../../src-core/window/state'
import { end, openWith, stepsWith } from '../../../src-core/window/steps'
import { frozen, memoryHost, NOON, placeAt, taken } from '../../helpers/memoryHost'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

const STEPS = stepsWith(ENGLISH)

// The program behind the window, step by step, with outcomes given by hand: no disk, no thread.

const THURSDAY = placeAt('thursday.visit')
const FRIDAY = placeAt('friday.visit')
const LOG = visitLog('meter.csv', 'a log')
const VISIT: Visit = { ...EMPTY_VISIT, logs: [LOG], label: 'zanzibar' }
const OTHER: Visit = { ...EMPTY_VISIT, label: 'other' }
const SECRET = 'four plain words here'

let memory: ReturnType<typeof memoryHost>
let state: WindowState

beforeEach(() => {
  memory = memoryHost()
  state = frozen(emptyWindow(NOON, true))
})

function ask(request: FileRequest): FileOutcome {
  const step = taken(STEPS.file(state, request), memory, (standing) => (state = standing))
  state = frozen(step.state)
  return step.answer
}
function label(text: string): void {
  const edit = { kind: 'set' as const, settings: { label: text } }
  const { answer, ...step } = taken(STEPS.edit(state, { revision: state.revision, edit }), memory)
  expect(answer.problems).toEqual([])
  state = frozen(step.state)
}
function opened(visit = VISIT, passphrase: string | null = null): void {
  memory.store(THURSDAY.path, visit, passphrase)
  memory.chosen = THURSDAY
  ask({ does: 'choose' })
  memory.asked.length = 0
}
const does = () => memory.asked.map((effect) => effect.does)
const visit = () => state.history.visit

describe('opening', () => {
  it('asks for its effects in this order, and lets the visit before go only once the other one is made', () => {
    memory.store(THURSDAY.path, VISIT)
    const { told } = taken(open(ENGLISH, state, fileOpening(THURSDAY)), memory)
    expect(told.said).toEqual([{ code: 'opened', name: 'thursday.visit' }])
    expect(does()).toEqual([
      ...['read', 'lock', 'now', 'now', 'report'],
      ...['keepFor', 'endHanded', 'discardHanded', 'forget', 'remember'],
    ])
  })

  it('holds the lock of the file that is open and no other', () => {
    opened()
    memory.store(FRIDAY.path, OTHER)
    memory.chosen = FRIDAY
    ask({ does: 'choose' })
    expect([...memory.locks.values()]).toEqual([FRIDAY.path])
    taken(end(state, true), memory)
    expect(memory.locks.size).toBe(0)
  })

  it('the same file again keeps its lock', () => {
    opened()
    ask({ does: 'choose' })
    expect(does()).not.toContain('lock')
    expect(does()).not.toContain('release')
    expect([...memory.locks.values()]).toEqual([THURSDAY.path])
  })

  it('reads nothing before it is asked whether what is not saved may go', () => {
    label('mine')
    memory.store(THURSDAY.path, VISIT)
    memory.chosen = THURSDAY
    memory.asked.length = 0
    expect(ask({ does: 'choose' }).state.file.asked).toEqual({ kind: 'unsaved', next: 'thursday.visit' })
    expect(does()).toEqual(['chooseVisit'])
    ask({ does: 'cancel' })
    expect(ask({ does: 'go-on' }).state.visit.label).toBe('mine')
    ask({ does: 'choose' })
    ask({ does: 'go-on' })
    expect(visit()).toBe(VISIT)
  })

  it.each([
    ['refused', { kind: 'refused' as const, message: 'no' }, { code: 'in-words', text: 'no' }],
    ['stopped by the person', { kind: 'cancelled' as const }, { code: 'opening-cancelled' }],
  ])('leaves the visit in hand as it was, and no lock, where its figures are %s', (_, made, why) => {
    opened()
    memory.store(FRIDAY.path, { ...VISIT, label: 'second' })
    memory.instead.report = () => made
    const { told, state: after } = taken(open(ENGLISH, state, fileOpening(FRIDAY)), memory)
    expect(told.problems).toEqual([{ about: null, why }])
    expect(after).toEqual(state)
    expect([...memory.locks.values()]).toEqual([THURSDAY.path])
  })

  it.each(['keepFor', 'discardHanded', 'remember'] as const)(
    'that meets a fault in %s stands with the new visit and its own file, never with the one before',
    (effect) => {
      opened()
      memory.store(FRIDAY.path, OTHER)
      memory.chosen = FRIDAY
      memory.instead[effect] = () => {
        throw new Error('a fault')
      }
      expect(() => ask({ does: 'choose' })).toThrow('a fault')
      expect([visit(), state.file.place, isEdited(state)]).toEqual([OTHER, FRIDAY, false])
    },
  )

  it('that meets a fault while figures are made stands with the visit before and its file', () => {
    opened()
    const before = state
    memory.store(FRIDAY.path, { ...VISIT, label: 'second' })
    memory.chosen = FRIDAY
    memory.instead.report = () => {
      throw new Error('a fault')
    }
    expect(() => ask({ does: 'choose' })).toThrow('a fault')
    expect(state).toEqual(before)
  })

  it('adds the logs that came with it once its passphrase is given', () => {
    memory.store(THURSDAY.path, OTHER, SECRET)
    const files = [{ name: 'meter.csv', bytes: LOG.bytes as Uint8Array<ArrayBuffer> }]
    state = taken(openWith(ENGLISH, state, THURSDAY, files), memory).state
    expect(visit()).toBe(EMPTY_VISIT)
    for (const tries of [0, 1]) {
      expect(ask({ does: 'open-with', passphrase: 'no' }).state.file.asked).toEqual({
        kind: 'passphrase',
        name: 'thursday.visit',
        again: 'wrong',
        tries: tries + 1,
      })
    }
    ask({ does: 'open-with', passphrase: SECRET })
    expect(visit()).toMatchObject({ label: 'other', logs: [{ name: 'meter.csv' }] })
    expect(isEdited(state)).toBe(true)
  })

  it('that is given up while the visit in hand is to be saved first adds no log to it', () => {
    label('mine')
    memory.store(THURSDAY.path, OTHER)
    const files = [{ name: 'meter.csv', bytes: LOG.bytes as Uint8Array<ArrayBuffer> }]
    state = taken(openWith(ENGLISH, state, THURSDAY, files), memory).state
    memory.chosen = null
    ask({ does: 'save-first' })
    expect(visit()).toMatchObject({ label: 'mine', logs: [] })
    expect(state.question).toBeNull()
  })

  it('of a file that another window has open says so from then on', () => {
    memory.elsewhere.add(THURSDAY.path)
    opened()
    expect(state.question?.kind).toBe('open-elsewhere')
    expect(ask({ does: 'go-on' }).state.file.cautions).toHaveLength(1)
    expect([state.file.lock, visit()]).toEqual([null, VISIT])
  })

  it('of what was left unsaved is not saved yet; what was left goes once this window keeps it', () => {
    const left = { visit: VISIT, passphrase: null }
    const source = { kind: 'unsaved' as const, file: '/own/unsaved-1', path: THURSDAY.path, keptAtMs: 0 }
    memory.unsaved.set('mark', {
      opening: { name: THURSDAY.name, place: THURSDAY, source },
      content: left,
    })
    memory.instead.isKept = () => false
    ask({ does: 'recover', mark: 'mark' })
    expect([isEdited(state), memory.unsaved.size]).toEqual([true, 1])
    delete memory.instead.isKept
    ask({ does: 'recover', mark: 'mark' })
    ask({ does: 'go-on' })
    expect([isEdited(state), memory.unsaved.size, memory.keptFor]).toEqual([true, 0, THURSDAY.path])
    expect(memory.kept).toMatchObject(left)
  })
})

describe('saving', () => {
  it('is asked about before anything is locked where the file was changed since', () => {
    opened()
    label('mine')
    memory.store(THURSDAY.path, OTHER)
    memory.asked.length = 0
    expect(ask({ does: 'save' }).state.file.asked).toEqual({
      kind: 'changed-outside',
      name: 'thursday.visit',
    })
    expect(does()).toEqual(['isSameFile', 'changedOutside'])
    ask({ does: 'go-on' })
    expect(memory.files.get(THURSDAY.path)?.visit.label).toBe('mine')
    expect(isEdited(state)).toBe(false)
  })

  it.each(['visit', 'output', 'other'] as const)('leaves %s that stands there until it may go', (what) => {
    opened()
    const standing = memory.store(FRIDAY.path, OTHER, null, what)
    memory.chosen = FRIDAY
    expect(ask({ does: 'save-as' }).state.file.asked).toEqual({
      kind: 'other-stands',
      name: 'friday.visit',
      isVisit: what === 'visit',
    })
    expect(memory.files.get(FRIDAY.path)).toBe(standing)
    expect([...memory.locks.values()]).toEqual([THURSDAY.path])
    ask({ does: 'go-on' })
    expect(memory.files.get(FRIDAY.path)?.visit.label).toBe('zanzibar')
    expect([...memory.locks.values()]).toEqual([FRIDAY.path])
  })

  it('that fails or meets a fault leaves the visit unsaved, kept, with its own file and lock alone', () => {
    opened()
    label('mine')
    memory.chosen = FRIDAY
    memory.instead.save = () => ({
      kind: 'failed',
      fault: { path: 'x.visit', why: { code: 'system', errno: 'ENOSPC', folder: null }, run: null },
    })
    expect(ask({ does: 'save-as' }).problems).toEqual([
      {
        about: null,
        message: 'x.visit could not be written: the disk is full. Free some space, or choose another disk.',
      },
    ])
    memory.instead.save = () => {
      throw new Error('a fault')
    }
    expect(() => ask({ does: 'save-as' })).toThrow('a fault')
    expect([isEdited(state), state.file.place, [...memory.locks.values()]]).toEqual([
      true,
      THURSDAY,
      [THURSDAY.path],
    ])
    expect(memory.kept?.visit.label).toBe('mine')
  })

  it('goes on with the visit that waited, also where a question came between', () => {
    opened()
    label('mine')
    memory.store(FRIDAY.path, OTHER)
    memory.chosen = FRIDAY
    ask({ does: 'choose' })
    memory.store(THURSDAY.path, OTHER)
    ask({ does: 'save-first' })
    expect(state.question).toMatchObject({
      kind: 'changed-outside',
      next: { opening: { name: 'friday.visit' } },
    })
    const { said } = ask({ does: 'go-on' })
    expect(said).toContain('thursday.visit')
    expect(said).toContain('friday.visit')
    expect([visit(), memory.files.get(THURSDAY.path)?.visit.label]).toEqual([OTHER, 'mine'])
  })

  it('in a browser gives the visit away and keeps it, as nobody knows whether it was saved', () => {
    state = frozen(emptyWindow(NOON, false))
    label('mine')
    const { told, state: after } = taken(save(ENGLISH, state), memory)
    expect(told.said).toEqual([{ code: 'handed', name: 'mine.visit' }])
    expect(told.download?.fileName).toBe('mine.visit')
    expect([memory.kept, memory.handed?.visit.label, isEdited(after)]).toEqual([null, 'mine', false])
  })

  it('in a browser gives a copy of a visit that has its place, which is no save of it', () => {
    opened()
    state = frozen({ ...state, hasDialogs: false })
    label('mine')
    expect(ask({ does: 'save-as' }).download?.fileName).toBe('thursday.visit')
    expect([isEdited(state), memory.handed]).toEqual([true, null])
    expect(memory.kept?.visit.label).toBe('mine')
  })

  it('with another protection is to be done anew; what is kept meanwhile has it already', () => {
    opened()
    ask({ does: 'protect', passphrase: SECRET })
    expect(memory.kept).toMatchObject({ visit: VISIT, passphrase: SECRET })
    ask({ does: 'save' })
    expect([memory.kept, memory.files.get(THURSDAY.path)?.passphrase]).toEqual([null, SECRET])
  })

  it('names the zone in the file, and leaves the visit in hand as it is', () => {
    opened()
    label('mine')
    ask({ does: 'save' })
    expect(memory.files.get(THURSDAY.path)?.visit.zone).toBe(NOON.zone)
    expect([visit().zone, isEdited(state)]).toEqual([null, false])
  })
})

describe('the end of a window', () => {
  it.each([
    ['is left to be recovered', true, false, [false, true]],
    ['goes where it is meant to', true, true, [true, true]],
    ['is nothing where all is saved; what a browser was given stays', false, false, [true, false]],
  ])('what is not saved %s', (_, edits, discard, removed) => {
    if (edits) label('mine')
    memory.asked.length = 0
    taken(end(state, discard), memory)
    expect(memory.asked.map(({ of }) => of)).toEqual(removed)
    expect(does()).toEqual(['endKept', 'endHanded'])
  })
})

describe('an edit', () => {
  it('of an older state asks for nothing', () => {
    label('first')
    memory.asked.length = 0
    const edit = { kind: 'set' as const, settings: { label: 'second' } }
    const step = taken(STEPS.edit(state, { revision: state.revision - 1, edit }), memory)
    expect([step.state, does(), step.answer.problems.length]).toEqual([state, [], 1])
  })

  it('of the label alone computes nothing, and what is undone is not kept any more', () => {
    opened()
    label('mine')
    expect(does()).toEqual(['keep'])
    state = taken(STEPS.undo(state, { revision: state.revision }), memory).state
    expect(does()).toEqual(['keep', 'forget'])
    expect(isEdited(state)).toBe(false)
  })

  it('that the person stops leaves everything as it was', () => {
    opened()
    memory.instead.report = () => ({ kind: 'cancelled' })
    const edit = { kind: 'set' as const, settings: { unit: 'mmol/L' as const } }
    const { told, state: after } = taken(make(ENGLISH, state, edit), memory)
    expect([told.cancelled, after]).toEqual([true, state])
  })

  it('adds what a report carries in its place, and tells what is not among it or why it is not read', () => {
    const pdf = (name: string) => ({ name, bytes: new TextEncoder().encode('%PDF-1.7') })
    const readings = { name: 'readings.csv (march.pdf)', bytes: new Uint8Array([1]) }
    memory.instead.unpack = ({ name }) =>
      name === 'march.pdf' ? { files: [readings] } : { fault: 'damaged' }
    const logs = [pdf('march.pdf'), pdf('april.pdf')]
    const { answer, state: after } = taken(STEPS.addLogs(state, { logs }), memory)
    expect(answer.problems).toEqual([
      { about: 'april.pdf', message: ENGLISH.attachments.ATTACHMENT_FAULT.damaged },
    ])
    expect(answer.notices).toContain(ENGLISH.attachments.READINGS_ALONE)
    expect(after.history.visit.logs.map(({ name }) => name)).toEqual([readings.name])
  })

  it('opens the visit that a report carries, as any visit; two of them are too many', () => {
    const visit = { name: 'march.visit', bytes: new TextEncoder().encode('{"format":"visit-report visit"') }
    memory.instead.unpack = () => ({ files: [visit] })
    memory.instead.read = () => ({ kind: 'protected', again: null })
    const pdf = { name: 'march.pdf', bytes: new TextEncoder().encode('%PDF-1.7') }
    const one = taken(STEPS.addLogs(state, { logs: [pdf] }), memory).answer
    expect(one.state.file.asked).toEqual({ kind: 'passphrase', name: 'march.visit', again: null, tries: 0 })
    const two = taken(STEPS.addLogs(state, { logs: [pdf, pdf] }), memory).answer
    expect(two.problems).toEqual([{ about: null, message: ENGLISH.visitWindow.VISIT_ALONE }])
  })

  it('adds what is a log and tells of what is none', () => {
    const good = { name: 'good.csv', bytes: new Uint8Array([1]) }
    const bad = { name: 'bad.csv', bytes: new Uint8Array([2]) }
    const { sha256 } = visitLog('bad.csv', bad.bytes)
    const refusal = {
      log: 'bad.csv',
      sha256,
      code: 'no-readings' as const,
      line: null,
      message: 'no',
      question: null,
    }
    memory.instead.report = ({ visit: { logs } }) => ({
      kind: 'stopped',
      refusals: logs.some((log) => log.sha256 === sha256) ? [refusal] : [],
    })
    const { told, state: after } = taken(addLogs(ENGLISH, state, [bad, good, good]), memory)
    expect(told.problems).toEqual([
      { about: 'good.csv', why: { code: 'log-held-already' } },
      { about: 'bad.csv', why: { code: 'in-words', text: 'no' } },
    ])
    expect(after.history.visit.logs.map(({ name }) => name)).toEqual(['good.csv'])
  })
})

it('the same state and the same outcomes give the same effects, state and answer', () => {
  memory.store(THURSDAY.path, VISIT)
  const twin = memoryHost()
  twin.store(THURSDAY.path, VISIT)
  const [one, other] = [memory, twin].map((of) => ({
    step: taken(openWith(ENGLISH, state, THURSDAY, [{ name: 'a.csv', bytes: new Uint8Array([7]) }]), of),
    asked: of.asked,
  }))
  expect(one).toEqual(other)
})
