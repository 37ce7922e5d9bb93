import { beforeEach, describe, expect, it, vi } from 'vitest'
import type { Changed, LogFile } from '../../../src-core/bridge/contract'
import type { PictureScreenView } from '../../../src-core/bridge/pictureScreen'
import type { ReadingFilter, RowsView } from '../../../src-core/bridge/readingRows'
import type { ReadingView } from '../../../src-core/bridge/readingView'
import type { OpenedView } from '../../../src-core/bridge/visitView'
import type { WindowEdit } from '../../../src-core/bridge/windowEdit'
import { EMPTY_VISIT } from '../../../src-core/visit/visit'
import { visitText } from '../../../src-core/visit/visitFile'
import { reportKeeper } from '../../../src-core/visit/visitReport'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { type CalculatorTools, createCalculator } from '../../../src-main/window/calculator'
import type { PdfOpener } from '../../../src-main/window/openPdf'
import { createVisitService, type VisitService } from '../../../src-main/window/visitService'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

// The program behind one window, asked as the window asks it.

const NOW = { nowMs: Date.UTC(2026, 5, 30, 12), zone: 'Europe/Berlin' }
/** No folder can be made there: what is unsaved is not kept. */
const NOWHERE = '/dev/null/visit-report'
const ALL: ReadingFilter = { show: 'all', text: '', meal: null, meter: null, fromHour: null }

const reportPdf = vi.fn<CalculatorTools['reportPdf']>(() => Promise.resolve(new Uint8Array([1, 2, 3])))
const openPdf = vi.fn<PdfOpener>(() => Promise.resolve(true))
let service: VisitService
let last: Changed
let cancelled = false
let now = NOW

beforeEach(() => {
  reportPdf.mockClear()
  openPdf.mockClear()
  cancelled = false
  now = NOW
  service = serviceWith(null)
})

function serviceWith(opener: PdfOpener | null): VisitService {
  return createVisitService(ENGLISH, {
    about: { name: 'Visit report', version: '1' },
    calculator: {
      ...createCalculator(ENGLISH, {
        visitReport: reportKeeper(ENGLISH, BYTE_TOOLS),
        reportPdf,
        isCancelled: () => cancelled,
      }),
      progress: () => null,
      cancel: () => (cancelled = true),
    },
    sample: () => SAMPLE,
    now: () => now,
    files: { programFolder: NOWHERE, dialogs: null, minuteOf: () => '' },
    openPdf: opener,
  })
}

function log(name: string, ...lines: readonly string[]): LogFile {
  return { name, bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) }
}

/** 62, a low, and 130 three minutes later; a week of others around them. */
const METER = log(
  'meter.csv',
  'Date,Time,Glucose (mg/dL),Meal,Note',
  ...Array.from({ length: 7 }, (_, i) => `2026-03-0${i + 1},07:00,${110 + i},before breakfast,`),
  '2026-03-07,12:00,62,,shaky',
  '2026-03-07,12:03,130,,',
  '2026-03-07,19:00,240,after dinner,"jam on finger, unwashed"',
  '2026-03-07,19:02,121,after dinner,washed',
)
const SAMPLE = log('sample.csv', 'Date,Time,Glucose (mg/dL)', '2026-02-01,07:00,101', '2026-02-02,07:00,102')
const NO_UNIT = log('no-unit.csv', 'Date,Time,Glucose', '2026-03-08,07:00,20', '2026-03-08,12:00,30')
const PICTURE = { name: 'photo.png', bytes: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) }

async function add(...logs: readonly LogFile[]): Promise<Changed> {
  return (last = await service.addLogs({ logs: [...logs] }))
}
async function edit(change: WindowEdit): Promise<Changed> {
  return (last = await service.edit({ revision: last.state.revision, edit: change }))
}
async function step(which: 'undo' | 'redo'): Promise<Changed> {
  return (last = await service[which]({ revision: last.state.revision }))
}
function opened({ state: { report } }: Changed = last): OpenedView {
  if (report.kind !== 'opened') throw new Error(`not opened: ${JSON.stringify(report)}`)
  return report
}
async function rows(filter: Partial<ReadingFilter> = {}): Promise<RowsView> {
  const { revision } = last.state
  const view = await service.readings({ revision, filter: { ...ALL, ...filter }, from: 0, count: 100 })
  if (view.kind === 'stale') throw new Error('stale')
  return view
}
async function reading(value: string): Promise<ReadingView> {
  const row = (await rows()).rows.find((one) => one.value === value)
  if (!row) throw new Error(`no ${value}`)
  const view = await service.reading({ revision: last.state.revision, index: row.index })
  if (view.kind === 'stale') throw new Error('stale')
  return view
}
async function decide(value: string, choice: 'keep' | 'leave-out', reason = ''): Promise<Changed> {
  const { key } = await reading(value)
  return edit({ kind: 'decide', reading: key, choice, reason })
}

describe('what is counted', () => {
  it('beside finger-sticks are the finger-sticks alone, also in the list of lows', async () => {
    const minutes = Array.from({ length: 288 }, (_, i) => i * 5)
    const two = (n: number) => String(n).padStart(2, '0')
    const sensor = minutes.map((m) => `2026-03-06 ${two(Math.floor(m / 60))}:${two(m % 60)},60`)
    await add(METER, log('sensor.csv', 'Timestamp,Sensor glucose (mg/dL)', ...sensor))
    expect(opened().extent).toBe('11 finger-stick readings on 7 of 7 days')
    expect((await rows({ show: 'lows' })).rows.map(({ value }) => value)).toEqual(['62'])
    expect((await rows()).total).toBe(299)
  })

  it('as doubtful for one known cause names that cause', async () => {
    await add(METER)
    await edit({ kind: 'set', settings: { kit: { strips: [{ expires: '2026-03-01' }] } } })
    const view = await service.picture({ revision: last.state.revision })
    expect(view.kind === 'picture' && view.figures.remarks).toContainEqual(
      expect.stringMatching(
        /A cause is known: 8 readings from meter A with strips past their date, .* may read too high or too low\./,
      ),
    )
  })

  it('below what meters show is asked about, and as answered told as perhaps of the other unit', async () => {
    const { state } = await add(
      METER,
      log('odd.csv', 'Date,Time,Glucose (mg/dL)', '2026-03-05,12:00,5.4', '2026-03-06,12:00,6.1'),
    )
    expect(state.report.kind).toBe('stopped')
    await edit({ kind: 'answer', sha256: state.visit.logs[1].sha256, answers: { unit: 'mg/dL' } })
    expect(opened().lows.remarks).toContainEqual(
      expect.stringContaining('2 lows are below 20 mg/dL, where meters show LO'),
    )
  })
})

describe('readings typed by hand', () => {
  const typed = (at: string, value: number | 'LO') =>
    service.form({
      revision: last.state.revision,
      form: {
        form: 'typed',
        place: null,
        fields: { date: at.slice(0, 10), time: at.slice(11), value: String(value), unit: 'mg/dL' },
      },
    })

  it('count however old they are, and LO is a low', async () => {
    await add(METER)
    last = await typed('2004-12-31T08:30', 45)
    last = await typed('2026-03-07T21:00', 120)
    last = await typed('2026-03-07T23:00', 'LO')
    expect(opened().lows.lowest.map(({ values }) => values)).toEqual([
      '45 (typed)',
      '62 → 130?',
      'LO (typed)',
    ])
  })

  it('that correct one of the log are no repeat of it, and the low stays among the lows', async () => {
    await add(METER, log('wrong.csv', 'Date,Time,Glucose (mg/dL)', '2026-03-05,12:00,41'))
    const { key: corrects } = await reading('41')
    const fields = { date: '2026-03-05', time: '12:00', value: '141', unit: 'mg/dL' }
    const { revision } = last.state
    last = await service.form({ revision, form: { form: 'typed', place: null, fields, corrects } })
    expect(opened().lows.lowest.map(({ values }) => values)).toEqual(['41', '62 → 130?'])
    expect((await reading('141')).doubt).toBeNull()
    expect((await rows({ show: 'doubtful' })).rows.map(({ value }) => value)).not.toContain('141')
  })
})

describe('the meters of the kit', () => {
  it('are chosen among those of the logs, and one that no log has is told', async () => {
    await add(METER)
    const [{ value }] = opened().meters
    expect([value, opened().unknownMeters]).toEqual(['meter A', []])
    await edit({ kind: 'set', settings: { kit: { strips: [{ meter: value }, { meter: 'bag' }] } } })
    expect(opened().unknownMeters).toEqual(['bag'])
  })
})

describe('logs that are added', () => {
  it('are nothing at first, and then read', async () => {
    expect(await service.show(null)).toMatchObject({ revision: 0, report: { kind: 'empty' } })
    expect(opened(await add(METER)).extent).toBe('11 readings on 7 of 7 days')
    expect(await service.show(null)).toEqual(last.state)
  })

  it('are told and left out where they are no logs; the others open', async () => {
    const { problems, state } = await add(PICTURE, METER)
    expect(problems).toEqual([
      { about: 'photo.png', message: expect.stringContaining('picture, not a CSV file') as string },
    ])
    expect(state.visit.logs.map(({ name }) => name)).toEqual(['meter.csv'])
    expect(opened().counts.readings).toBe(11)
  })

  it('leave the visit as it is where none of them is a log', async () => {
    await add(METER)
    const { state, problems } = await add(PICTURE)
    expect(problems).toHaveLength(1)
    expect(state.revision).toBe(1)
    expect(opened().counts.readings).toBe(11)
  })

  it('are told where they are in the visit already', async () => {
    await add(METER)
    const { problems, state } = await add({ ...METER, name: 'again.csv' })
    expect(problems).toEqual([{ about: 'again.csv', message: 'It is among the logs already.' }])
    expect(state.visit.logs).toHaveLength(1)
  })

  it('are told to join those that were there, for they may be another person’s', async () => {
    expect((await add(METER)).notices).toEqual([])
    expect((await add(NO_UNIT)).notices).toEqual([
      'Added to the logs that were there. Another person’s log? Undo, then begin an empty visit.',
    ])
    expect((await add(METER)).notices).toEqual([])
  })

  it('ask what they leave open, each for itself', async () => {
    const { state } = await add(METER, NO_UNIT, {
      ...NO_UNIT,
      name: 'b.csv',
      bytes: log('', 'Date,Time,Glucose', '2026-03-09,07:00,21', '2026-03-09,12:00,31').bytes,
    })
    if (state.report.kind !== 'stopped') throw new Error('nothing is asked')
    expect(state.report.refusals.map(({ sha256, code }) => [sha256, code])).toEqual([
      [state.visit.logs[1].sha256, 'unit-unknown'],
      [state.visit.logs[2].sha256, 'unit-unknown'],
    ])
    await edit({ kind: 'answer', sha256: state.visit.logs[1].sha256, answers: { unit: 'mmol/L' } })
    await edit({ kind: 'answer', sha256: state.visit.logs[2].sha256, answers: { unit: 'mg/dL' } })
    expect(opened().logs.map(({ guesses }) => /Unit [^.]*\./.exec(guesses)?.[0])).toEqual([
      'Unit mg/dL, from the column’s header.',
      'Unit mmol/L, as answered.',
      'Unit mg/dL, as answered.',
    ])
  })

  it('are asked again once an answer is taken back', async () => {
    const { state } = await add(NO_UNIT)
    const [{ sha256 }] = state.visit.logs
    await edit({ kind: 'answer', sha256, answers: { unit: 'mmol/L' } })
    expect(opened().unit).toBe('mmol/L')
    await edit({ kind: 'answer', sha256, answers: {} })
    expect(last.state.report.kind).toBe('stopped')
  })

  it('can all be removed, and undo brings them back', async () => {
    const { state } = await add(METER)
    await edit({ kind: 'remove-log', sha256: state.visit.logs[0].sha256 })
    expect(last.state.report).toEqual({ kind: 'empty' })
    await step('undo')
    expect(opened().counts.readings).toBe(11)
  })
})

describe('days that were chosen before', () => {
  const LATER = log('later.csv', 'Date,Time,Glucose (mg/dL)', '2026-03-12,07:00,99', '2026-03-13,07:00,98')
  /** 1 March 2026. */
  const FIRST = 20_513

  it('leave new readings out: that is told, with how many', async () => {
    await add(METER)
    await edit({ kind: 'set', settings: { period: { from: FIRST, to: FIRST + 6 } } })
    expect(opened()).toMatchObject({ outside: null, sinceLast: null })
    expect((await add(LATER)).notices).toContain('2 of the new readings lie outside the days of this report.')
    expect(opened()).toMatchObject({
      outside: '2 readings lie outside the days of this report.',
      sinceLast: null,
    })
    await edit({ kind: 'set', settings: { period: null, versus: null } })
    expect(opened().outside).toBeNull()
  })

  it('of a visit opened next time: the days since are offered, beside those before, until they are shown', async () => {
    const visit = { ...EMPTY_VISIT, logs: [visitLog('meter.csv', METER.bytes)] }
    await add({ name: 'thursday.visit', bytes: new TextEncoder().encode(visitText(visit, BYTE_TOOLS)) })
    expect(opened().sinceLast).toBeNull()
    await add(LATER)
    const { sinceLast } = opened()
    expect(sinceLast).toEqual({
      period: { from: FIRST + 7, to: FIRST + 12 },
      versus: { from: FIRST, to: FIRST + 6 },
    })
    await edit({ kind: 'set', settings: sinceLast ?? {} })
    expect(opened()).toMatchObject({ outside: null, sinceLast: null })
  })
})

describe('what could not be opened at the start', () => {
  it('is told in the window until something is there', async () => {
    const problem = { about: '/gone.csv', message: 'It cannot be read.' }
    service.tellUnopened([problem])
    expect((await service.show(null)).unopened).toEqual([problem])
    expect((await add(METER)).state.unopened).toEqual([])
  })
})

describe('the sample', () => {
  const addSample = async () => (last = await service.addSample(null))
  const names = () => last.state.visit.logs.map(({ name }) => name)

  it('is told by its label to be no person, and goes away for the logs of one, in one step', async () => {
    expect((await addSample()).state.visit).toMatchObject({ label: 'Invented sample, not a person' })
    await edit({ kind: 'set', settings: { period: { from: 20_485, to: 20_485 } } })
    expect((await add(METER)).notices).toEqual(['The sample was put away.'])
    expect(names()).toEqual(['meter.csv'])
    expect(last.state.visit).toMatchObject({ label: '', period: null })
    await step('undo')
    expect(names()).toEqual(['sample.csv'])
    expect(last.state.visit.label).toBe('Invented sample, not a person')
    await step('redo')
    expect(names()).toEqual(['meter.csv'])
  })

  it('stays where nothing of what is added can be read', async () => {
    await addSample()
    expect((await add(PICTURE)).notices).toEqual([])
    expect(names()).toEqual(['sample.csv'])
  })

  it('stays once it was worked on, and the person is told that it is among the logs', async () => {
    await addSample()
    await decide('101', 'keep')
    const { notices } = await add(METER)
    expect(notices).toContain(
      'The invented sample is among the logs. Remove it under Logs before anything is printed.',
    )
    expect(names()).toEqual(['sample.csv', 'meter.csv'])
    await edit({ kind: 'remove-log', sha256: last.state.visit.logs[0].sha256 })
    expect(last.state.visit.label).toBe('')
  })

  it('is told to be among the logs where a reading of one’s own is typed', async () => {
    await addSample()
    const fields = { date: '2026-05-20', time: '22:51', value: '58', unit: 'mg/dL' }
    const { revision } = last.state
    const typed = await service.form({ revision, form: { form: 'typed', place: null, fields } })
    expect(typed.notices).toHaveLength(1)
  })

  it('is a log as any other where a person added its file', async () => {
    await add(SAMPLE)
    expect(last.state.visit.label).toBe('')
    await add(METER)
    expect(names()).toEqual(['sample.csv', 'meter.csv'])
  })
})

describe('a decision', () => {
  beforeEach(() => add(METER))

  it('keeps a doubtful reading, which stays in the list with its reasons', async () => {
    // The test after the low may carry sugar: it is doubtful too.
    expect(opened().counts).toMatchObject({ doubtful: 2, open: 2 })
    await decide('240', 'keep', ' I had eaten ')
    expect(opened().counts).toMatchObject({ doubtful: 1, open: 1 })
    const list = await rows({ show: 'doubtful' })
    expect(list.told).toBe('1 doubtful reading and 1 kept by you, lows on top. None of them disappears.')
    expect(list.rows).toMatchObject([
      { value: '130', decided: null, doubtful: true },
      { value: '240', decided: 'keep', doubtful: false },
    ])
    const kept = await reading('240')
    const why = 'I had eaten'
    expect(kept.decision).toEqual({ choice: 'keep', text: 'Kept', why, reason: why })
    expect(kept.doubt?.reasons).not.toEqual([])
  })

  it('is counted as doubtful where the pages do: in the days of the report, and not once it is kept', async () => {
    const { trust } = (await service.picture({ revision: last.state.revision })) as PictureScreenView
    expect(trust[0]).toContain('2 readings are doubtful')
    await decide('130', 'leave-out')
    expect(opened().counts).toMatchObject({ doubtful: 2, open: 1 })
    // Both stand on the seventh day.
    await edit({ kind: 'set', settings: { period: { from: 20_513, to: 20_518 } } })
    expect(opened().counts).toMatchObject({ doubtful: 0, open: 0 })
    expect((await rows({ show: 'doubtful' })).total).toBe(0)
  })

  it('never takes a low out of the lows, nor out of the row of lows', async () => {
    const low = await reading('62')
    expect(low.leaveOutLabel).toBe('Leave out of averages (stays among the lows)')
    expect(low.effect[0]).toEqual({ name: 'Readings below 70', before: '1', after: '1' })
    // Eleven readings with a mean of 1344 / 11; without 62 it is 1282 / 10.
    expect(low.effect[1]).toEqual({ name: 'Mean, mg/dL', before: '122.2', after: '128.2' })
    await decide('62', 'leave-out', 'wet finger')
    expect(opened().lows.lowest.map(({ values }) => values)).toEqual(['62 → 130?'])
    expect((await rows({ show: 'lows' })).rows).toMatchObject([
      { value: '62', low: true, decided: 'leave-out' },
    ])
  })

  it('is told beside the figures that it bears on, and HI is told of as on page 1', async () => {
    const picture = async () =>
      (await service.picture({ revision: last.state.revision })) as PictureScreenView
    expect((await picture()).figures.checkedTitle).toBe('Doubtful left out')
    expect((await picture()).markers).toBeNull()
    await decide('240', 'keep')
    expect((await picture()).figures.checkedTitle).toBe('Without doubtful ones, with your decisions')
    await add(log('high.csv', 'Date,Time,Glucose (mg/dL)', '2026-03-06,12:00,HI'))
    expect((await picture()).markers).toContain('Beyond the meter’s limits: 1 reading HI')
  })

  it('is undone and done again, with its name', async () => {
    await decide('240', 'leave-out')
    expect(last.state.visit).toMatchObject({ undo: 'leaving out 240', redo: null })
    await step('undo')
    expect((await reading('240')).decision).toBeNull()
    expect(last.state.visit).toMatchObject({ undo: 'adding meter.csv', redo: 'leaving out 240' })
    await step('redo')
    expect((await reading('240')).decision?.choice).toBe('leave-out')
    await edit({ kind: 'take-back', reading: (await reading('240')).key })
    expect((await reading('240')).decision).toBeNull()
  })

  it('of a window that is behind is not taken; that window is told and shown what stands', async () => {
    const { key } = await reading('240')
    const behind = last.state.revision
    await decide('62', 'keep')
    const answer = await service.edit({
      revision: behind,
      edit: { kind: 'decide', reading: key, choice: 'keep', reason: '' },
    })
    expect(answer.problems).toHaveLength(1)
    expect(answer.state).toEqual(last.state)
    expect(await service.reading({ revision: behind, index: 0 })).toEqual({ kind: 'stale' })
  })
})

describe('the list of readings', () => {
  beforeEach(() => add(METER))

  it.each([
    ['lows', { show: 'lows' }, ['62']],
    ['a meal', { meal: 'after-dinner' }, ['240', '121']],
    ['hours of the day', { fromHour: 12 }, ['62', '130']],
    ['words of a note, in any order', { text: 'FINGER jam' }, ['240']],
    ['a value', { text: '121' }, ['121']],
    ['a date', { text: '2026-03-02' }, ['111']],
    ['a meter', { meter: 0, show: 'lows' }, ['62']],
    ['a part of a value, which is none', { text: '12' }, []],
    ['a day with its month', { text: '1 March' }, ['110']],
    ['a month alone', { text: 'march', meal: 'after-dinner' }, ['240', '121']],
    ['the word low', { text: 'Low' }, ['62']],
    ['the word doubtful', { text: 'doubtful' }, ['130', '240']],
    ['a meter by its name', { text: 'meter 62' }, ['62']],
    ['words that nothing holds', { text: 'nowhere' }, []],
  ] as const)('is narrowed by %s', async (_what, filter, values) => {
    const list = await rows(filter)
    expect(list.rows.map(({ value }) => value)).toEqual(values)
    expect(list.total).toBe(values.length)
    expect(list.told).toBe(`${values.length} of 11 readings`)
  })

  it('is given in stretches', async () => {
    const { revision } = last.state
    const view = await service.readings({ revision, filter: ALL, from: 7, count: 2 })
    expect(view).toMatchObject({
      total: 11,
      from: 7,
      rows: [
        { index: 7, value: '62' },
        { index: 8, value: '130' },
      ],
    })
  })
})

describe('what cannot be', () => {
  it('is told, and the visit stays: days without a reading, targets of the other unit', async () => {
    await add(METER)
    for (const settings of [{ period: { from: 0, to: 1 } }, { targets: { low: 4, high: 10 } }]) {
      const before = last.state
      const { state, problems } = await edit({ kind: 'set', settings })
      expect(problems).toHaveLength(1)
      expect(state).toEqual(before)
    }
  })
})

describe('what the person stops', () => {
  it('leaves the visit and its figures as they were', async () => {
    await add(METER)
    const before = last.state
    const list = await rows({})
    await service.cancel(null)
    expect(await add(log('more.csv', 'Date,Time,Glucose (mg/dL)', '2026-03-09,07:00,99'))).toEqual({
      state: before,
      problems: [],
      notices: [],
      cancelled: true,
    })
    expect((await decide('62', 'keep')).cancelled).toBe(true)
    expect(last.state).toEqual(before)
    expect(await rows({})).toEqual(list)
  })
})

describe('the pages', () => {
  it('are made of the visit as it stands, at the moment of asking', async () => {
    await add(METER)
    await edit({ kind: 'set', settings: { paper: 'Letter', label: 'Room 4' } })
    expect(await service.makePdf({ revision: last.state.revision })).toEqual({
      kind: 'made',
      revision: last.state.revision,
      fileName: 'Room 4 visit-report-2026-03-01-to-2026-03-07.pdf',
      bytes: new Uint8Array([1, 2, 3]),
    })
    expect(reportPdf.mock.calls.map(([, options]) => options)).toEqual([
      { paper: 'Letter', label: 'Room 4', printed: {}, attach: null, madeAtMs: NOW.nowMs },
    ])
  })

  it('that were looked at are those that are saved: made once of one state, anew of another and on another day', async () => {
    await add(METER)
    const makes = async (printed = {}) => {
      const before = reportPdf.mock.calls.length
      await service.makePdf({ revision: last.state.revision, printed })
      return reportPdf.mock.calls.length - before
    }
    expect([await makes(), await makes()]).toEqual([1, 0])
    expect([await makes({ onePage: true }), await makes({ onePage: true })]).toEqual([1, 0])
    await decide('62', 'keep')
    expect([await makes(), await makes()]).toEqual([1, 0])
    await edit({ kind: 'set', settings: { paper: 'Letter' } })
    expect([await makes(), await makes()]).toEqual([1, 0])
    // Noon by the clock of UTC: twelve hours on, another day has begun.
    now = { ...NOW, nowMs: NOW.nowMs + 12 * 3_600_000 - 1 }
    expect([await makes(), await makes()]).toEqual([1, 0])
    now = { ...NOW, nowMs: NOW.nowMs + 12 * 3_600_000 }
    expect(await makes()).toBe(1)
    // What is carried is the visit as it stands.
    await service.makePdf({ revision: last.state.revision, attach: true })
    expect(reportPdf.mock.lastCall?.[1].attach).toEqual({ visitFile: null })
  })

  it('carry the readings where that is asked for, and the visit where it was opened from a file', async () => {
    await add(METER)
    await service.makePdf({ revision: last.state.revision, attach: true })
    const file = new TextEncoder().encode(
      visitText({ ...EMPTY_VISIT, logs: [visitLog(METER.name, METER.bytes)] }, BYTE_TOOLS),
    )
    await add({ name: 'own.visit', bytes: file })
    await service.file({ does: 'go-on' })
    const { revision } = await service.show(null)
    await service.makePdf({ revision, attach: true })
    const [alone, withVisit] = reportPdf.mock.calls.map(([, { attach }]) => attach)
    expect(alone).toEqual({ visitFile: null })
    expect(new TextDecoder().decode(withVisit?.visitFile ?? new Uint8Array())).toContain(METER.name)
  })

  it('are not made while a log leaves something open, nor of another state of the visit', async () => {
    await add(METER)
    const { revision } = last.state
    await add(NO_UNIT)
    expect(await service.makePdf({ revision })).toEqual({ kind: 'stale' })
    expect(await service.makePdf({ revision: last.state.revision })).toEqual({ kind: 'stale' })
    expect(reportPdf).not.toHaveBeenCalled()
  })

  it('are of the state that was asked for, also where the visit is changed while they are made', async () => {
    await add(METER)
    let make: (bytes: Uint8Array) => void = () => undefined
    reportPdf.mockImplementationOnce(() => new Promise((resolve) => (make = resolve)))
    const { revision } = last.state
    const pages = service.makePdf({ revision })
    const change = edit({ kind: 'set', settings: { label: 'Room 4' } })
    const after = service.makePdf({ revision })
    await vi.waitFor(() => expect(reportPdf).toHaveBeenCalledOnce())
    make(new Uint8Array([4]))
    expect(await pages).toEqual(expect.objectContaining({ revision, bytes: new Uint8Array([4]) }))
    expect(reportPdf.mock.calls[0][1].label).toBe('')
    expect((await change).state.revision).toBe(revision + 1)
    expect(await after).toEqual({ kind: 'stale' })
  })

  it('are printed by the page in a browser, and opened in its viewer on a desktop', async () => {
    await add(METER)
    const { revision } = last.state
    expect(await service.print({ revision })).toEqual(await service.makePdf({ revision }))
    service = serviceWith(openPdf)
    await add(METER)
    expect(await service.print({ revision })).toEqual({ kind: 'opened' })
    expect(openPdf.mock.calls).toEqual([
      ['visit-report-2026-03-01-to-2026-03-07.pdf', new Uint8Array([1, 2, 3])],
    ])
    openPdf.mockResolvedValueOnce(false)
    expect(await service.print({ revision })).toEqual({ kind: 'not-opened' })
    expect(await service.print({ revision: revision + 1 })).toEqual({ kind: 'stale' })
  })
})
