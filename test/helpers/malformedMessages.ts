const HASH = 'a'.repeat(64)
const KEY = { at: '2026-03-02T07:00', value: '120', unit: 'mg/dL', meter: 'meter A', log: HASH }
const TYPED = { at: '2026-03-02T07:00', value: 120, unit: 'mg/dL' }

/** Arguments that no channel of the contract takes, each with what is wrong about it. */
export const MALFORMED_MESSAGES: readonly (readonly [why: string, argument: unknown])[] = [
  ['nothing', undefined],
  ['a truth', true],
  ['a number', 1],
  ['no number', NaN],
  ['a big integer', 10n],
  ['a text', 'about'],
  ['an empty text', ''],
  ['a symbol', Symbol('about')],
  ['a function', () => null],
  ['a date', new Date(0)],
  ['a map', new Map([['logs', []]])],
  ['a set', new Set(['logs'])],
  ['a pattern', /logs/],
  ['an error', new Error('logs')],
  ['an empty list', []],
  ['a list with null', [null]],
  ['bytes', new Uint8Array(8)],
  ['a buffer', new ArrayBuffer(8)],
  ['an empty object', {}],
  ['an object without a prototype', Object.create(null)],
  ['a stranger’s key', { open: true }],
  ['a key of the prototype', JSON.parse('{"__proto__": {"logs": []}}')],
  ['a constructor', { constructor: { prototype: { logs: [] } } }],
  ['no log', { logs: [] }],
  ['null for logs', { logs: null }],
  ['a text for logs', { logs: 'meter.csv' }],
  ['an object for logs', { logs: { 0: log(), length: 1 } }],
  ['null for a log', { logs: [null] }],
  ['a path for a log', { logs: ['/etc/passwd'] }],
  ['a log without bytes', { logs: [{ name: 'meter.csv' }] }],
  ['a log without a name', { logs: [{ bytes: new Uint8Array(1) }] }],
  ['a log with an empty name', { logs: [log({ name: '' })] }],
  ['a log with a name of 256 letters', { logs: [log({ name: 'x'.repeat(256) })] }],
  ['a number for a name', { logs: [log({ name: 7 })] }],
  ['a text for bytes', { logs: [log({ bytes: 'Time,Glucose' })] }],
  ['a list for bytes', { logs: [log({ bytes: [1, 2, 3] })] }],
  ['a sparse object for bytes', { logs: [log({ bytes: { length: 1e9 } })] }],
  ['a view of other numbers for bytes', { logs: [log({ bytes: new Float64Array(2) })] }],
  ['a log with a path beside it', { logs: [log({ path: '/etc/passwd' })] }],
  ['51 logs', { logs: Array.from({ length: 51 }, () => log()) }],
  ['more than 100 MB', { logs: [log({ bytes: new Uint8Array(100 * 1024 * 1024 + 1) })] }],
  ['a stranger’s key beside the logs', { logs: [log()], out: '/tmp/report.pdf' }],
  ['a revision below zero', { revision: -1 }],
  ['half a revision', { revision: 0.5 }],
  ['a revision that is a text', { revision: '0' }],
  ['a revision with a path beside it', { revision: 0, out: '/tmp/report.pdf' }],
  ['an edit without a kind', edit({})],
  ['an unknown edit', edit({ kind: 'forget' })],
  ['an edit that is a text', { revision: 0, edit: 'undo' }],
  ['an edit without a revision', { edit: { kind: 'remove-typed', index: 0 } }],
  ['the bytes of a log where only the program adds them', edit({ kind: 'add-logs', logs: [] })],
  ['a log named by a path', edit({ kind: 'remove-log', sha256: '../../etc/passwd' })],
  ['an unknown unit', edit({ kind: 'answer', sha256: HASH, answers: { unit: 'g/L' } })],
  ['an unknown order of dates', edit({ kind: 'answer', sha256: HASH, answers: { dates: 'ydm' } })],
  ['endless columns', edit({ kind: 'answer', sha256: HASH, answers: { columns: 'x'.repeat(2001) } })],
  ['an unknown answer', edit({ kind: 'answer', sha256: HASH, answers: { zone: 'UTC' } })],
  ['null for answers', edit({ kind: 'answer', sha256: HASH, answers: null })],
  ['an unknown choice', edit({ kind: 'decide', reading: KEY, choice: 'delete', reason: '' })],
  ['an endless reason', edit({ kind: 'decide', reading: KEY, choice: 'keep', reason: 'x'.repeat(2001) })],
  ['a decision on no moment', edit({ kind: 'take-back', reading: { ...KEY, at: 'yesterday' } })],
  ['a decision on 30 February', edit({ kind: 'take-back', reading: { ...KEY, at: '2026-02-30' } })],
  ['a reading of nothing', edit({ kind: 'type-reading', reading: { ...TYPED, value: 0 } })],
  ['a reading without end', edit({ kind: 'type-reading', reading: { ...TYPED, value: Infinity } })],
  ['an unknown setting', edit({ kind: 'set', settings: { logs: [] } })],
  ['an unknown paper', edit({ kind: 'set', settings: { paper: 'A3' } })],
  ['an endless label', edit({ kind: 'set', settings: { label: 'x'.repeat(201) } })],
  ['days that run backwards', edit({ kind: 'set', settings: { period: { from: 2, to: 1 } } })],
  ['a kit of another kind', edit({ kind: 'set', settings: { kit: { insulin: [] } } })],
  ['an unknown list', rows({ show: 'none' })],
  ['a list by an endless text', rows({ text: 'x'.repeat(201) })],
  ['a list by an unknown meal', rows({ meal: 'snack' })],
  ['a list of more rows than fit', { ...rows({}), count: 501 }],
  ['a list of no rows', { ...rows({}), count: 0 }],
  ['a list from before its beginning', { ...rows({}), from: -1 }],
  ['a reading before the first', { revision: 0, index: -1 }],
  ['half a reading', { revision: 0, index: 0.5 }],
  ['a file by its path', { does: 'open-recent', mark: '/home/anna/thursday.visit' }],
  ['a path to save at', { does: 'save', path: '/etc/passwd' }],
  ['an empty passphrase', { does: 'protect', passphrase: '' }],
  ['an endless passphrase', { does: 'open-with', passphrase: 'x'.repeat(100_001) }],
  ['no passphrase', { does: 'protect' }],
  ['an unknown request', { does: 'delete' }],
]

function log(changes: object = {}): object {
  return { name: 'meter.csv', bytes: new Uint8Array([1]), ...changes }
}

function edit(changes: object): object {
  return { revision: 0, edit: changes }
}

function rows(changes: object): { readonly from: number; readonly count: number } {
  const filter = { show: 'all', text: '', meal: null, meter: null, fromHour: null, ...changes }
  return { revision: 0, filter, from: 0, count: 1 } as { from: number; count: number }
}
