import { describe, expect, it, vi } from 'vitest'
import { openVisit } from '../../src-core/analysis/openVisit'
import type { Answers, LogFile } from '../../src-core/bridge/contract'
import type { StoppedView } from '../../src-core/bridge/stoppedView'
import type { OpenedView } from '../../src-core/bridge/visitView'
import { type Collaborators, createVisitService } from '../../src-main/visitService'
import { changed, EMPTY_WINDOW, withAnswer, type WindowState } from '../../src-renderer/windowState'

// The window's state and the program behind it, together: logs that ask until every question is answered.

const NOW = { nowMs: Date.UTC(2026, 5, 30, 12), zone: 'Europe/Berlin' }

function program() {
  const reportPdf = vi.fn<Collaborators['reportPdf']>(() => Promise.resolve(new Uint8Array([1, 2, 3])))
  const about = { name: 'Visit report', version: '1' }
  return { reportPdf, service: createVisitService({ about, openVisit, reportPdf, now: () => NOW }) }
}

const { service } = program()

function log(name: string, ...lines: readonly string[]): LogFile {
  return { name, bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) }
}

async function read(state: WindowState, logs: readonly LogFile[], answers: Answers): Promise<WindowState> {
  const view = await service.openLogs({ logs: [...logs], answers })
  return changed(state, { kind: 'read', logs, answers, view })
}

/** Chooses logs and answers what they ask by these labels, in this order. */
async function answered(logs: readonly LogFile[], ...labels: readonly string[]): Promise<WindowState> {
  let state = await read(EMPTY_WINDOW, logs, {})
  for (const label of labels) {
    const question = stopped(state).refusals.find((refusal) => refusal.question !== null)?.question
    const choice = question?.choices.find((one) => one.label === label)
    if (!question || !choice) throw new Error(`'${label}' is no choice`)
    state = await read(state, logs, withAnswer(state.answers, question.asks, choice.answer))
  }
  return state
}

function stopped({ view }: WindowState): StoppedView {
  if (view?.kind !== 'stopped') throw new Error('nothing is asked')
  return view
}

function opened({ view }: WindowState): OpenedView {
  if (view?.kind !== 'opened') throw new Error(`not opened: ${JSON.stringify(view)}`)
  return view
}

function figure(state: WindowState, name: string): string | undefined {
  return opened(state).figures.rows.find((row) => row.name === name)?.asLogged
}

const NO_HEADER = [
  '2026-03-02,07:00,120,15',
  '2026-03-02,12:00,140,20',
  '2026-03-03,07:00,110,25',
  '2026-03-03,12:00,130,30',
]

describe('questions of a log', () => {
  it('about its unit are settled by one answer', async () => {
    const ask = log('a.csv', 'Date,Time,Glucose', '2026-03-02,07:00,20', '2026-03-02,12:00,30')
    expect(figure(await answered([ask], 'mg/dL'), 'Mean')).toBe('25')
    expect(figure(await answered([ask], 'mmol/L'), 'Mean')).toBe('25.0')
  })

  it('about its dates are settled by one answer, with a date of the log beside each', async () => {
    const ask = log('a.csv', 'Date,Time,Glucose (mg/dL)', '02/03/2026,07:00,120', '03/03/2026,07:00,130')
    const asking = stopped(await answered([ask]))
    expect(asking.refusals[0].question?.choices.map(({ label, example }) => [label, example])).toEqual([
      ['day first', '2 March 2026'],
      ['month first', '3 February 2026'],
    ])
    expect(opened(await answered([ask], 'day first')).period).toBe('2 March to 3 March 2026')
    expect(opened(await answered([ask], 'month first')).period).toBe('3 February to 3 March 2026')
  })

  it('about its columns keep the times that tell themselves', async () => {
    const state = await answered([log('a.csv', ...NO_HEADER)], 'column 3')
    expect(figure(state, 'Mean')).toBe('125')
    expect(opened(state).lows.remarks[0]).toBe(
      'Night (00–06) was tested on none of 2 nights; lows there would not show.',
    )
  })

  it('about unit and dates stand there together', async () => {
    const ask = log('a.csv', 'Date,Time,Glucose', '02/03/2026,07:00,20', '03/03/2026,12:00,30')
    expect(stopped(await answered([ask])).refusals.map(({ code }) => code)).toEqual([
      'unit-unknown',
      'date-order-unknown',
    ])
    const state = await answered([ask], 'mg/dL', 'day first')
    expect(opened(state).logs[0].guesses).toBe(
      'Dates: day, month, year, as answered. Unit mg/dL, as answered.',
    )
  })
})

describe('an answer about one log', () => {
  const CARBS_FIRST = log(
    'meter.csv',
    'Date,Time,Carbohydrate (g),Glucose (mg/dL)',
    '2026-03-04,07:00,45,150',
    '2026-03-04,12:00,40,160',
  )

  it('moves no column of another log that has said its own', async () => {
    for (const logs of [
      [CARBS_FIRST, log('a.csv', ...NO_HEADER)],
      [log('a.csv', ...NO_HEADER), CARBS_FIRST],
    ]) {
      const state = await answered(logs, 'column 3')
      // (120 + 140 + 110 + 130 + 150 + 160) / 6; the grams of carbohydrate would be two lows.
      expect(figure(state, 'Mean')).toBe('135')
      expect(figure(state, 'Readings below 70')).toBe('0')
    }
  })

  it('does not change the unit or the dates that another log names', async () => {
    const names = log('b.csv', 'Date,Time,Glucose (mmol/L)', '13/03/2026,07:00,6.0')
    const asks = log('a.csv', 'Date,Time,Glucose', '02/03/2026,07:00,20', '03/03/2026,12:00,30')
    const state = await answered([asks, names], 'mg/dL', 'month first')
    expect(opened(state).logs.map(({ guesses }) => guesses)).toEqual([
      'Dates: month, day, year, as answered. Unit mg/dL, as answered.',
      'Dates: day, month, year, from rows that allow no other order. Unit mmol/L, from the column’s header.',
    ])
  })
})

describe('the program behind one window', () => {
  const FIRST = log('a.csv', 'Date,Time,Glucose (mg/dL)', '2026-03-02,07:00,120')
  const NO_LOG = log('b.csv', '%PDF-1.7')
  const PAGES = { paper: 'Letter', label: 'Room 4' } as const

  it('makes the pages of the visit that it opened last, at the moment of asking', async () => {
    const { service: one, reportPdf } = program()
    const view = await one.openLogs({ logs: [FIRST], answers: {} })
    if (view.kind !== 'opened') throw new Error('not opened')
    expect(await one.makePdf({ visit: view.visit, ...PAGES })).toEqual({
      kind: 'made',
      fileName: 'visit-report-2026-03-02-to-2026-03-02.pdf',
      bytes: new Uint8Array([1, 2, 3]),
    })
    expect(reportPdf.mock.calls.map(([, options]) => options)).toEqual([{ ...PAGES, madeAtMs: NOW.nowMs }])
  })

  it.each([
    ['other logs', FIRST],
    ['a file that is no log', NO_LOG],
  ])('makes no pages of a visit once it was given %s', async (_what, next) => {
    const { service: one, reportPdf } = program()
    const view = await one.openLogs({ logs: [FIRST], answers: {} })
    if (view.kind !== 'opened') throw new Error('not opened')
    await one.openLogs({ logs: [next], answers: {} })
    expect(await one.makePdf({ visit: view.visit, ...PAGES })).toEqual({ kind: 'closed' })
    expect(reportPdf).not.toHaveBeenCalled()
  })

  it('makes no pages before anything was opened, and none of a visit of another window', async () => {
    const { service: one } = program()
    const { service: other } = program()
    const view = await other.openLogs({ logs: [FIRST], answers: {} })
    if (view.kind !== 'opened') throw new Error('not opened')
    expect(await one.makePdf({ visit: view.visit, ...PAGES })).toEqual({ kind: 'closed' })
    await one.openLogs({ logs: [FIRST], answers: {} })
    expect(await one.makePdf({ visit: view.visit, ...PAGES })).toEqual({ kind: 'closed' })
  })
})
