import { describe, expect, it } from 'vitest'
import type { LogFile } from '../../src-core/bridge/contract'
import type { OpenedView, VisitView } from '../../src-core/bridge/visitView'
import { changed, EMPTY_WINDOW, withAnswer, type WindowState } from '../../src-renderer/windowState'

const LOG: LogFile = { name: 'meter.csv', bytes: new Uint8Array([1]) }
const OTHER: LogFile = { name: 'bag.csv', bytes: new Uint8Array([2]) }
const STOPPED: VisitView = { kind: 'stopped', refusals: [] }
const OPENED: OpenedView = {
  kind: 'opened',
  visit: 'visit-1',
  latest: null,
  period: '2 March to 30 May 2026',
  extent: '438 readings on 88 of 90 days',
  unit: 'mg/dL',
  lows: { headline: '', items: [], remarks: [] },
  picture: { description: '', light: '', dark: '' },
  figures: { rows: [], showsChecked: false, remarks: [] },
  standsOut: { findings: [], remark: null },
  trust: [],
  logs: [],
}

/** A window with a visit open, a PDF just made, and its pages told what to be. */
const FULL: WindowState = {
  logs: [LOG],
  answers: { unit: 'mg/dL' },
  view: OPENED,
  busy: null,
  fault: '',
  done: 'Made visit-report.pdf.',
  paper: 'Letter',
  label: 'Room 4',
}

describe('a change of the window', () => {
  it('leaves the state before it as it was', () => {
    const before = structuredClone(FULL)
    changed(FULL, { kind: 'started', work: 'reading' })
    changed(FULL, { kind: 'read', logs: [OTHER], answers: {}, view: STOPPED })
    changed(FULL, { kind: 'emptied' })
    expect(FULL).toEqual(before)
  })

  it.each(['reading', 'making-pdf'] as const)(
    'that starts work (%s) takes old news away, nothing else',
    (work) => {
      const failed = { ...FULL, fault: 'It failed.' }
      expect(changed(failed, { kind: 'started', work })).toEqual({ ...FULL, busy: work, fault: '', done: '' })
    },
  )

  it('that brings read logs holds them with their answers and says what was read', () => {
    const busy = changed(FULL, { kind: 'started', work: 'reading' })
    const answers = { dates: 'dmy' } as const
    expect(changed(busy, { kind: 'read', logs: [LOG, OTHER], answers, view: OPENED })).toEqual({
      ...FULL,
      logs: [LOG, OTHER],
      answers,
      done: 'Read: 438 readings on 88 of 90 days.',
    })
  })

  it('that brings questions says nothing of what was read', () => {
    const next = changed(FULL, { kind: 'read', logs: [LOG], answers: {}, view: STOPPED })
    expect(next).toMatchObject({ view: STOPPED, busy: null, done: '' })
  })

  it('that takes the last log away forgets the logs and answers, and keeps what the pages were told', () => {
    expect(changed(FULL, { kind: 'emptied' })).toEqual({ ...EMPTY_WINDOW, paper: 'Letter', label: 'Room 4' })
  })

  it('that tells of a failure keeps all that was there', () => {
    const busy = changed(FULL, { kind: 'started', work: 'making-pdf' })
    expect(changed(busy, { kind: 'failed', fault: 'It failed.' })).toEqual({
      ...FULL,
      fault: 'It failed.',
      done: '',
    })
  })

  it('that tells of pages names their file and keeps the visit', () => {
    const busy = changed(FULL, { kind: 'started', work: 'making-pdf' })
    const next = changed(busy, { kind: 'pdf-made', fileName: 'pages.pdf' })
    expect(next).toEqual({ ...FULL, done: 'Made pages.pdf.' })
  })

  it('to the pages changes that alone', () => {
    expect(changed(FULL, { kind: 'paper-chosen', paper: 'A4' })).toEqual({ ...FULL, paper: 'A4' })
    expect(changed(FULL, { kind: 'label-written', label: 'x' })).toEqual({ ...FULL, label: 'x' })
  })
})

describe('an answer', () => {
  it('joins those given before', () => {
    expect(withAnswer({ unit: 'mg/dL' }, 'dates', 'dmy')).toEqual({ unit: 'mg/dL', dates: 'dmy' })
  })

  it('takes the place of an earlier one to the same question', () => {
    expect(withAnswer({ unit: 'mg/dL' }, 'unit', 'mmol/L')).toEqual({ unit: 'mmol/L' })
  })

  it('about a column is added to the columns named before', () => {
    const once = withAnswer({}, 'columns', 'glucose=3')
    expect(once).toEqual({ columns: 'glucose=3' })
    expect(withAnswer(once, 'columns', 'date=1')).toEqual({ columns: 'glucose=3,date=1' })
  })

  it('leaves the answers before it as they were', () => {
    const answers = { columns: 'glucose=3' }
    withAnswer(answers, 'columns', 'date=1')
    expect(answers).toEqual({ columns: 'glucose=3' })
  })
})
