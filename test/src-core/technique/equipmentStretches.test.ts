import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { lowsView } from '../../../src-core/bridge/lowsView'
import { listedReadings, rowsView } from '../../../src-core/bridge/readingRows'
import { visitView } from '../../../src-core/bridge/visitView'
import { daysPicture } from '../../../src-core/charts/daysPicture'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'
import { pageDocument } from '../../../src-core/report/pageDocument'
import { isDoubtfulByEquipment } from '../../../src-core/technique/equipmentStretches'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { reasonsTold } from '../../../src-core/told/reasons'
import { reasonsText } from '../../../src-core/wording/english/reasons'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { analysisOf, type FixtureOptions, type FixtureReading } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

const rows: FixtureReading[] = Array.from({ length: 24 }, (_, i) => ({
  at: `2026-03-${String(i + 1).padStart(2, '0')} 07:00`,
  value: i === 12 ? 62 : 110 + (i % 7),
}))
rows.push({ at: '2026-03-15 12:00', value: 250 }, { at: '2026-03-15 12:03', value: 112 })
const kit = {
  controls: [
    { date: '2026-03-09', result: 118, range: [96, 144] as [number, number], unit: 'mg/dL' as const },
    { date: '2026-03-20', result: 160, range: [96, 144] as [number, number], unit: 'mg/dL' as const },
  ],
}
const analysis = analysisOf(rows, { kit })
const { doubtful } = analysis.technique

describe('readings that a failed control makes doubtful', () => {
  it('are one stretch from the last control that passed on, with their lows', () => {
    const [stretch, ...others] = analysis.stretches
    expect(others).toEqual([])
    expect(stretch).toMatchObject({ direction: 'too-high', toldOnce: true })
    expect(stretch.reasons.map(({ code }) => code)).toEqual(['failed-control'])
    const days = stretch.indexes.map((index) => new Date(analysis.readings.at[index] * 1000).getUTCDate())
    expect([days[0], days.at(-1)]).toEqual([10, 24])
    expect(stretch.indexes.map((index) => analysis.readings.mgDl[index])).toContain(62)
  })

  it('but for one of which something more is known, which stands alone', () => {
    const high = doubtful.find(({ index }) => analysis.readings.mgDl[index] === 250)
    expect(high && isDoubtfulByEquipment(high, analysis.readings, analysis.settings)).toBe(false)
  })

  it('are told once on paper, the low among them named as counted', () => {
    const options = {
      paper: 'A4',
      label: null,
      madeAt: parseIsoDay('2026-07-01') ?? 0,
      programVersion: '1',
    } as const
    const text = JSON.stringify(pageDocument(ENGLISH, analysis, options)).replaceAll('\\u00a0', ' ')
    expect(text.match(/The control test of 20 March 2026 gave 160/g)).toHaveLength(2)
    expect(text).toContain('readings from meter A, 10 March to 24 March')
    expect(text).toContain('counted as lows: ■ 62 on 13 March at 07:00')
  })
})

describe('the picture of the days', () => {
  it('has a bracket over the days of such a stretch', () => {
    const [figures] = analysis.periods
    const scene = daysPicture(ENGLISH, analysis, figures, { width: 520, palette: PRINT_PALETTE })
    const brackets = scene.nodes.find((node) => node.kind === 'group' && node.name === 'brackets')
    const [upright] = brackets?.kind === 'group' ? brackets.nodes : []
    if (upright?.kind !== 'line') throw new Error('there is no bracket')
    // One row of 8.6 points for each day of 24: from the tenth to the last.
    expect(upright.y2 - upright.y1).toBeCloseTo(15 * 8.6 - 2, 6)
  })
})

describe('a fault of strips or meter', () => {
  /** Tests at seven on so many days from the first of March, the readings at `places` with a note. */
  const days = (n: number, note = '', places: readonly number[] = []): FixtureReading[] =>
    Array.from({ length: n }, (_, i) => ({
      at: `2026-03-${String(i + 1).padStart(2, '0')} 07:00`,
      value: i === 20 ? 61 : 110 + (i % 9),
      ...(places.includes(i) && { note }),
    }))
  const firstOf = (n: number) => Array.from({ length: n }, (_, i) => i)
  const expiredOn = (expires: string) => ({ strips: [{ lot: '4711', expires }] })

  it.each<[string, FixtureReading[], FixtureOptions, number, boolean]>([
    // Of 25 readings a fifth are five.
    ['expired strips', days(25), { kit: expiredOn('2026-03-20') }, 5, false],
    ['expired strips', days(25), { kit: expiredOn('2026-03-19') }, 6, true],
    [
      'strips open too long',
      days(25),
      { kit: { strips: [{ opened: '2026-02-10', daysOnceOpen: 37 }] } },
      6,
      true,
    ],
    ['the cold', days(25, '5 °C', firstOf(5)), {}, 5, false],
    ['the cold', days(25, '5 °C', firstOf(6)), {}, 6, true],
  ])('by %s is told once above a fifth of the readings: %#', (_, readings, options, n, toldOnce) => {
    const { stretches, marked, bracketed, technique } = analysisOf(readings, options)
    expect(stretches.map(({ indexes, toldOnce }) => [indexes.length, toldOnce])).toEqual([[n, toldOnce]])
    expect([marked.size, bracketed.size]).toEqual(toldOnce ? [0, n] : [n, 0])
    expect(technique.doubtful).toHaveLength(n)
  })

  it('keeps the mark of a reading that something of its own speaks against', () => {
    const rows = [...days(25), { at: '2026-03-25 12:00', value: 250 }, { at: '2026-03-25 12:03', value: 112 }]
    const { readings, marked, bracketed } = analysisOf(rows, { kit: expiredOn('2026-02-28') })
    expect([...marked].map((index) => readings.mgDl[index])).toEqual([250])
    expect(bracketed.size).toBe(26)
    expect([...bracketed].map((index) => readings.mgDl[index])).toContain(61)
  })

  it('is told once where it fills the period of the report, or the one beside it', () => {
    const day = (date: string) => parseIsoDay(date) as number
    const kit = expiredOn('2026-03-22')
    const march = { from: day('2026-03-01'), to: day('2026-03-20') }
    const last = { from: day('2026-03-21'), to: day('2026-03-25') }
    const toldOnce = (options: object) => analysisOf(days(25), { kit, ...options }).stretches[0].toldOnce
    expect(toldOnce({})).toBe(false)
    expect(toldOnce({ period: march })).toBe(false)
    expect(toldOnce({ period: last })).toBe(true)
    expect(toldOnce({ period: march, versus: last })).toBe(true)
  })

  it.each([
    [160, 'The meter may read high: a low may be lower still.'],
    [80, 'The meter may read low: a high may be higher still. A low counts all the same.'],
  ])(
    'of a control at %d says which way the meter may err, for paper, window and terminal',
    (result, words) => {
      const controls = [
        { date: '2026-03-20', result, range: [96, 144] as [number, number], unit: 'mg/dL' as const },
      ]
      const told = analysisOf(days(25), { kit: { controls } })
      expect(pageText(told)).toContain(words)
      expect(
        visitView(ENGLISH, told, { nowMs: Date.UTC(2026, 6, 1), zone: 'UTC' }).toldOnce.join(),
      ).toContain(words)
      expect(terminalSummary(ENGLISH, told, []).join('\n')).toContain(words)
      const [low] = told.periods[0].lows.each
      const reasons = reasonsTold([told.technique.doubtful[0].reasons[0]], told.readings, low.index)
      expect(reasonsText(reasons, told.readings, 'mg/dL')).toMatch(
        result > 144 ? /above 96–144/ : /below 96–144/,
      )
    },
  )

  it('has no ‘?’ in the lists of pages and window but a bracket, and lows above all', () => {
    const told = analysisOf(days(25), { kit: expiredOn('2026-02-28') })
    const text = pageText(told)
    expect(text).not.toMatch(/\d\?/)
    expect(text).toContain('[ ■ 61')
    expect(text).toContain('All count, doubtful or not.')
    const [low] = told.periods[0].lows.each
    const rows = rowsView(ENGLISH, told, 'doubtful', listedReadings(ENGLISH, told, ANY), 0, 30).rows
    expect(rows).toHaveLength(25)
    expect(rows[0]).toMatchObject({ index: low.index, doubtful: false, bracketed: true })
    expect(lowsView(ENGLISH, told, told.periods[0]).lowest).toMatchObject([
      { values: '61', doubtful: false, bracketed: true },
    ])
  })

  it('hides no contradiction of a low within it', () => {
    const rows = [...days(20), { at: '2026-03-25 12:00', value: 62 }, { at: '2026-03-25 12:03', value: 130 }]
    const told = analysisOf(rows, { kit: expiredOn('2026-02-28') })
    expect(pageText(told)).toMatch(/62, then 130 three minutes later/)
  })
})

const ANY = { show: 'doubtful', text: '', meal: null, meter: null, fromHour: null } as const

function pageText(analysis: Analysis): string {
  const options = {
    paper: 'A4',
    label: null,
    madeAt: parseIsoDay('2026-07-01') ?? 0,
    programVersion: '1',
  } as const
  return JSON.stringify(pageDocument(ENGLISH, analysis, options)).replaceAll('\u00a0', ' ')
}
