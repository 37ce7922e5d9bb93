import { expect, it } from 'vitest'
import { trustLimits } from '../../../src-core/told/trustLimits'
import { trustLimitText, trustText } from '../../../src-core/wording/english/firstPage'
import { doubtsOf } from '../../../src-core/told/doubts'
import { plainText } from '../../../src-core/wording/phrases'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { documentOf } from '../../helpers/pages'
import { analysisOf, type FixtureOptions, type FixtureReading } from '../../helpers/analysisFixture'

const dateOf = (i: number) => new Date(Date.UTC(2026, 2, 1 + i)).toISOString().slice(0, 10)
const daily = (n: number, ...more: readonly FixtureReading[]): FixtureReading[] => [
  ...Array.from({ length: n }, (_, i) => ({ at: `${dateOf(i)} 07:0${i % 10}`, value: 118 + (i % 9) })),
  ...more,
]

function limitsOf(rows: readonly FixtureReading[], options: FixtureOptions = {}) {
  const analysis = analysisOf(rows, options)
  const [period] = analysis.periods
  const limits = trustLimits(analysis, period)
  return {
    codes: limits.map(({ code }) => code),
    texts: limits.map((limit) =>
      trustLimitText(limit, analysis.readings.meters, analysis.settings.unit, 'without-year'),
    ),
    trust: plainText(trustText(doubtsOf(analysis, period))),
  }
}

it('a plain log on one meter has none', () => {
  expect(limitsOf(daily(30)).codes).toEqual([])
})

it('a stretch whose clock seems half a day out is told, in a period that it touches', () => {
  const day = (date: string) => parseIsoDay(date) ?? 0
  const shift = { from: day('2026-03-10'), to: day('2026-03-16'), minutes: 720 }
  const sources = [{ notes: [{ code: 'half-day-off' as const, readings: 28, shift }] }]
  const { codes, texts } = limitsOf(daily(30), { sources })
  expect(codes).toEqual(['half-day-off'])
  expect(texts[0]).toContain('10–16 March: 28 readings look half a day out')
  const later = { from: day('2026-03-20'), to: day('2026-03-30') }
  expect(limitsOf(daily(30), { sources, period: later }).codes).toEqual([])
})

it('HI and LO are told with what they count as, and the figures without them', () => {
  const { codes, texts } = limitsOf(daily(30, { at: '2026-03-30 20:00', value: 'HI' }))
  expect(codes).toEqual(['markers'])
  expect(texts[0]).toContain('HI counts as 600 mg/dL. Without them: mean 122')
  // Of more than one in ten the figures themselves are held back.
  expect(limitsOf(daily(8, { at: '2026-03-08 20:00', value: 'HI' })).codes).toEqual([])
})

it('strips past their date are named as the cause, and no cause is looked for', () => {
  const strips = [{ vial: 'one', lot: 'AB12', expires: '2026-03-10', opened: '2026-03-01' }]
  const { codes, texts, trust } = limitsOf(daily(30), { kit: { strips } })
  expect(codes).toEqual(['fault'])
  expect(texts[0]).toContain('20 readings from meter A with strips past their date, 11 to 30 March 2026')
  expect(trust).toContain('20 of 30 readings are doubtful, more than one in ten.')
  expect(trust).not.toContain('‘?’')
  expect(trust).not.toContain('look for one cause')
})

it('two meters of which one surely reads higher are told, not two that read alike', () => {
  const pairs = (factor: number) =>
    Array.from({ length: 20 }, (_, i): FixtureReading[] => [
      { at: `${dateOf(i)} 07:00`, value: 120 + i, meter: 'one' },
      { at: `${dateOf(i)} 07:03`, value: Math.round(factor * (120 + i)), meter: 'two' },
    ]).flat()
  const { codes, texts } = limitsOf(pairs(1.13))
  expect(codes).toEqual(['meters-differ'])
  expect(texts[0]).toContain('One read 12 % lower than two (20 pairs)')
  expect(limitsOf(pairs(1.02)).codes).toEqual([])
})

it('a laboratory A1C far above what the readings let expect is told, not one within their range', () => {
  const kit = (percent: number) => ({ laboratoryA1c: [{ date: '2026-03-31', percent }] })
  const { codes, texts } = limitsOf(daily(30), { kit: kit(7.9) })
  expect(codes).toEqual(['laboratory'])
  expect(texts[0]).toContain('7.9 % (63 mmol/mol) on 31 March, is higher than the range estimated')
  expect(limitsOf(daily(30), { kit: kit(5.8) }).codes).toEqual([])
})

it('a log of both units that were told apart by size is told, not one whose cells say theirs', () => {
  const unit = (basis: 'answer' | 'cell') => ({ sources: [{ unit: { value: 'mixed' as const, basis } }] })
  expect(limitsOf(daily(30), unit('answer')).codes).toEqual(['mixed-units'])
  expect(limitsOf(daily(30), unit('cell')).codes).toEqual([])
})

it('tests of a trial are told, and that no other reading was found doubtful', () => {
  const trial = ['washed and dried', 'wet finger', 'washed again'].map((what, i) => ({
    at: `2026-03-31 10:0${2 * i}`,
    value: [120, 96, 121][i],
    note: `trial: ${what}`,
  }))
  const log = analysisOf(daily(30, ...trial))
  expect(trustLimits(log, log.periods[0])).toEqual([{ code: 'trials', n: 3 }])
  const [page] = [JSON.stringify(documentOf(log, { onePage: true }))]
  expect(page).toContain('Beside what is told here, no reading was found doubtful')
  expect(page).toContain('3 tests of technique trials are not judged.')
})

it('readings whose notes name somebody else are told as long as nothing is decided of them', () => {
  const { codes, texts } = limitsOf(
    daily(30, { at: '2026-03-31 12:00', value: 290, note: 'not mine, neighbour’s' }),
  )
  expect(codes).toEqual(['others'])
  expect(texts[0]).toContain('The notes of 1 reading (31 March) say that it may be somebody else’s')
})

it('rows set aside as repeats of a day and value are told of a log without times alone', () => {
  const setAside = ['duplicate', 'duplicate', 'empty-value'].map((reason, i) => ({ line: i + 2, reason }))
  const sources = [{ setAside: setAside as never }]
  const days = daily(30).map(({ at, ...one }) => ({ ...one, at: at.slice(0, 10) }))
  expect(limitsOf(days, { sources }).codes).toEqual(['repeated-days'])
  expect(limitsOf(days, { sources }).texts[0]).toContain('2 rows with the same day and value')
  expect(limitsOf(daily(30), { sources }).codes).toEqual([])
})
