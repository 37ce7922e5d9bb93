import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { FileRequest } from '../../../src-core/bridge/fileRequest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { emptyWindow, isEdited, type Question, type WindowState } from '../../../src-core/window/state'
import { stepsWith } from '../../../src-core/window/steps'
import { frozen, memoryHost, NOON, placeAt, taken } from '../../helpers/memoryHost'
import { runs } from '../../helpers/runs'
import { ENGLISH } from '../../../src-core/wording/english'

const STEPS = stepsWith(ENGLISH)

// Whatever is asked for in whatever order, by this window and by others around it: nothing that is not saved goes
// unasked, no file is written over unasked, locks are those of the file that is open. What holds is told by the host's
// own maps, not by the state.

const NAMES = ['a.visit', 'b.visit']
const PATHS = NAMES.map((name) => placeAt(name).path)
const SECRETS = ['one', 'two']

type Event =
  | { readonly of: 'file'; readonly request: FileRequest }
  | { readonly of: 'label'; readonly text: string }
  | { readonly of: 'undo' | 'redo' }
  | { readonly of: 'choose'; readonly name: string | null }
  | { readonly of: 'outside'; readonly path: string; readonly passphrase: string | null }
  | { readonly of: 'gone' | 'elsewhere' | 'let-go'; readonly path: string }
  | { readonly of: 'disk'; readonly works: boolean }
  | { readonly of: 'bytes'; readonly logs: number }

const path = fc.constantFrom(...PATHS)
const secret = fc.constantFrom(...SECRETS)
const plain = (
  ...does: readonly Exclude<
    FileRequest['does'],
    'open-recent' | 'recover' | 'discard' | 'protect' | 'open-with'
  >[]
) => fc.constantFrom(...does).map((one): FileRequest => ({ does: one }))
const request: fc.Arbitrary<FileRequest> = fc.oneof(
  { weight: 8, arbitrary: plain('choose', 'save', 'save-as', 'go-on', 'save-first', 'go-on') },
  { weight: 3, arbitrary: plain('begin', 'cancel', 'remove-traces') },
  { weight: 3, arbitrary: secret.map((passphrase) => ({ does: 'open-with' as const, passphrase })) },
  { weight: 1, arbitrary: fc.option(secret).map((passphrase) => ({ does: 'protect' as const, passphrase })) },
  { weight: 3, arbitrary: path.map((mark) => ({ does: 'open-recent' as const, mark })) },
)
const event: fc.Arbitrary<Event> = fc.oneof(
  { weight: 12, arbitrary: request.map((one): Event => ({ of: 'file', request: one })) },
  { weight: 4, arbitrary: fc.string({ maxLength: 3 }).map((text): Event => ({ of: 'label', text })) },
  { weight: 2, arbitrary: fc.constantFrom<Event>({ of: 'undo' }, { of: 'redo' }) },
  {
    weight: 4,
    arbitrary: fc.option(fc.constantFrom(...NAMES)).map((name): Event => ({ of: 'choose', name })),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({ path, passphrase: fc.option(secret) })
      .map((one): Event => ({ of: 'outside', ...one })),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({ of: fc.constantFrom('gone' as const, 'elsewhere' as const, 'let-go' as const), path })
      .map((one): Event => one),
  },
  { weight: 1, arbitrary: fc.boolean().map((works): Event => ({ of: 'disk', works })) },
  { weight: 2, arbitrary: fc.nat(2).map((logs): Event => ({ of: 'bytes', logs })) },
)

it.each([true, false])('nothing is lost or written over unasked, with dialogs: %s', (hasDialogs) => {
  const seen = new Set<string>()
  fc.assert(
    fc.property(fc.array(event, { maxLength: 40, size: 'max' }), (events) => {
      const memory = memoryHost()
      memory.chosen = placeAt(NAMES[0])
      let state: WindowState = frozen(emptyWindow(NOON, hasDialogs))
      /** By path, SHA-256 of what this window read or wrote there last. */
      const known = new Map<string, string>()
      let outside = 0
      const given: Visit[] = []
      const inZone = (visit: Visit): Visit => ({ ...visit, zone: visit.zone ?? NOON.zone })
      const contentOf = memory.host.contentOf
      memory.instead.contentOf = (content) => {
        given.push(content.visit)
        return contentOf(content)
      }
      memory.instead.read = (of) => {
        const found = memory.host.read(of)
        if (of.source.kind === 'file' && found.kind === 'loaded') known.set(of.source.path, found.sha256)
        return found
      }
      let works = true
      let question: Question | null = null
      let isGoingOn = false
      memory.instead.save = (order) => {
        const standing = memory.files.get(order.path)
        const mayGo =
          isGoingOn && question !== null && 'place' in question && question.place.path === order.path
        expect(standing === undefined || standing.sha256 === known.get(order.path) || mayGo).toBe(true)
        expect([...memory.locks.values()].filter((one) => one === order.path).length).toBe(
          memory.elsewhere.has(order.path) && state.file.lock === null ? 0 : 1,
        )
        if (!works) return { kind: 'failed', fault: { path: order.path, why: { code: 'disk' }, run: null } }
        const saved = memory.host.save(order)
        if (saved.kind === 'saved') known.set(order.path, saved.sha256)
        return saved
      }

      for (const one of events) {
        const before = state
        question = before.question
        isGoingOn = one.of === 'file' && one.request.does === 'go-on'
        switch (one.of) {
          case 'file':
            state = taken(STEPS.file(state, one.request), memory).state
            break
          case 'label': {
            const edit = { kind: 'set' as const, settings: { label: one.text } }
            state = taken(STEPS.edit(state, { revision: state.revision, edit }), memory).state
            break
          }
          case 'undo':
          case 'redo':
            state = taken(STEPS[one.of](state, { revision: state.revision }), memory).state
            break
          case 'bytes': {
            const logs = Array.from({ length: one.logs + 1 }, (_, i) => ({
              name: `${i}.csv`,
              bytes: new Uint8Array([i]),
            }))
            state = taken(STEPS.addLogs(state, { logs }), memory).state
            break
          }
          case 'choose':
            memory.chosen = one.name === null ? null : placeAt(one.name)
            break
          case 'outside':
            memory.store(one.path, { ...EMPTY_VISIT, label: `outside ${++outside}` }, one.passphrase)
            break
          case 'gone':
            memory.files.delete(one.path)
            break
          case 'elsewhere':
            // Two programs never hold one lock.
            if (![...memory.locks.values()].includes(one.path)) memory.elsewhere.add(one.path)
            break
          case 'let-go':
            memory.elsewhere.delete(one.path)
            break
          case 'disk':
            works = one.works
        }
        frozen(state)
        if (state.question !== null) seen.add(state.question.kind)
        const { lock, place, passphrase } = state.file
        expect([...memory.locks.values()]).toEqual(lock === null ? [] : [place?.path])
        const content = { visit: state.history.visit, passphrase }
        if (isEdited(state)) expect(memory.kept).toMatchObject(content)
        else expect(memory.kept).toBeNull()
        expect(memory.keptFor).toBe(place && place.path)
        if (state.visitNumber !== before.visitNumber && isEdited(before)) {
          const wasAsked = isGoingOn && question?.kind === 'unsaved'
          const mayGo = question?.next?.unsavedMayGo === true
          const saved = [...[...memory.files.values()].map(({ visit }) => visit), ...given]
          const isSaved = saved.some(
            (visit) => JSON.stringify(visit) === JSON.stringify(inZone(before.history.visit)),
          )
          expect(wasAsked || mayGo || isSaved).toBe(true)
        }
        // A question is about something: what waits for its answer goes with it.
        if (one.of === 'file' && one.request.does === 'cancel') expect(state.question).toBeNull()
      }
    }),
    { numRuns: runs(150), seed: 20261129 },
  )
  // What is drawn comes to every question that this host can bring about.
  const ofSaving = ['changed-outside', 'gone-outside', ...(hasDialogs ? ['other-stands'] : [])]
  expect([...seen].sort()).toEqual(
    [...ofSaving, 'unsaved', 'passphrase', 'open-elsewhere', 'remove-traces'].sort(),
  )
})
