import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { effectView } from '../../../src-core/bridge/effectView'
import { lowsView } from '../../../src-core/bridge/lowsView'
import { pictureScreen } from '../../../src-core/bridge/pictureScreen'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'
import { documentOf, pageTexts, pdfOf } from '../../helpers/pages'
import { FLAG } from '../../../src-core/log/readings'
import { ENGLISH } from '../../../src-core/wording/english'

const day = (date: string) => parseIsoDay(date) ?? 0
const date = (i: number, month: string) => `2026-${month}-${String(i + 1).padStart(2, '0')}`

/** One reading a day at 08:00; the first of the month on. */
function daily(values: readonly FixtureReading['value'][], month = '04'): readonly FixtureReading[] {
  return values.map((value, i) => ({ at: `${date(i, month)} 08:00`, value }))
}
const some = <T>(n: number, value: (i: number) => T) => Array.from({ length: n }, (_, i) => value(i))
const numbers = (n: number) => some(n, (i) => 120 + ((i * 37) % 60))

/** All that is printed or shown of an analysis, pictures and definitions among it. */
function shown(analysis: Analysis) {
  const screen = pictureScreen(ENGLISH, analysis)
  return {
    page: JSON.stringify(documentOf(analysis)),
    screen,
    terminal: terminalSummary(ENGLISH, analysis, []).join('\n'),
  }
}

const large = (analysis: Analysis, label: string) =>
  pictureScreen(ENGLISH, analysis).large.find((figure) => figure.label.startsWith(label))
const row = (analysis: Analysis, name: string) =>
  pictureScreen(ENGLISH, analysis).figures.rows.find((figure) => figure.name.startsWith(name))

const HOURS = ['08:', '13:', '19:']
const HELD = ['Mean', 'SD', 'Coefficient', 'Estimated A1C']

describe.each([
  ['HI alone', daily(some(24, () => 'HI')), '24 of 24 readings', 'HI'],
  ['LO alone', daily(some(24, () => 'LO')), '24 of 24 readings', 'LO'],
  ['LO and HI', daily(some(24, (i) => (i % 2 ? 'LO' : 'HI'))), '24 of 24 readings', '–'],
  [
    'numbers with HI above a tenth of them',
    daily([...numbers(26), 'HI', 'HI', 'HI']),
    '3 of 29 readings',
    null,
  ],
] as const)('a log of %s', (_, rows, share, median) => {
  const analysis = analysisOf(rows)
  const { page, screen, terminal } = shown(analysis)

  it('shows no mean, SD, CV and estimate, and says why in their place', () => {
    for (const label of HELD) {
      expect(large(analysis, label)).toMatchObject({
        value: '–',
        unit: '',
        small: expect.stringContaining(`not shown: ${share} beyond the meter’s limits`) as string,
      })
    }
    for (const name of ['Mean', 'SD', 'Coefficient', 'Estimated A1C']) {
      expect(row(analysis, name)).toMatchObject({ asLogged: '–', checked: '–' })
    }
    expect(screen.figures.remarks.join(' ')).toContain(share)
    expect(terminal).toContain(`Mean, SD and estimated A1C not shown: ${share}`)
    expect(terminal).not.toMatch(/Estimated A1C: |SD \d|Mean \d/)
    expect(page).not.toMatch(/centre \d|Centre of the estimated A1C|"Mean, mg\/dL"|"SD, mg\/dL"/)
  })

  it('prints no limit as if it were a median', () => {
    if (median === null) return expect(row(analysis, 'Median')?.asLogged).toMatch(/^1\d\d$/)
    expect(row(analysis, 'Median')?.asLogged).toBe(median)
    const [block] =
      'table' in screen.day
        ? (screen.day as { table: { rows: readonly (readonly string[])[] } }).table.rows.filter(
            ([hours]) => hours === '06–09',
          )
        : []
    expect(block.slice(2, 6)).toEqual([median, expect.any(String), '–', '–'])
    expect(page).not.toMatch(/Weekdays: median \d/)
  })

  it('says what cannot be judged, and not that nothing is doubtful', () => {
    const trust = screen.trust.join(' ')
    expect(trust).toMatch(/without a number: how far off they may be cannot be judged/)
    expect(trust).not.toContain('No reading was found doubtful')
    expect(page).not.toContain('No reading was found doubtful')
    expect(terminal).not.toContain('0 readings are doubtful')
  })

  it('tells readings in target as a count, and no trend or spread of what has no number', () => {
    const allDay = analysisOf(rows.map((row, i) => ({ ...row, at: row.at.replace('08:', HOURS[i % 3]) })))
    expect(large(allDay, 'Readings 70 to 180')?.value).toMatch(/^\d+ of \d+$/)
    expect(large(analysis, 'Readings 70 to 180')).toMatchObject({
      value: '–',
      small: expect.stringContaining('all tests between 08:00 and 09:00') as string,
    })
    expect(page).not.toMatch(/from week to week|fasting SD/)
    const effect = effectView(ENGLISH, analysis, analysis.periods[0], 0)
    expect(effect.filter(({ name }) => /Mean|SD|Coefficient/.test(name)).map(({ before }) => before)).toEqual(
      ['–', '–', '–'],
    )
  })

  it('keeps the figures in the JSON', () => {
    const json = reportJson(ENGLISH, analysis, { name: 'x', version: '1' }) as {
      periods: { asLogged: { meanMgDl: number; cvPercent: number; estimatedA1cPercent: number } }[]
    }
    const values = rows.map(({ value }) => (value === 'HI' ? 600 : value === 'LO' ? 20 : value))
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length
    expect(json.periods[0].asLogged.meanMgDl).toBeCloseTo(mean, 9)
    expect(json.periods[0].asLogged.estimatedA1cPercent).toBeCloseTo((mean + 46.7) / 28.7, 9)
  })
})

describe('readings HI', () => {
  it('stand in a list with the lows, with advice that leaves it to the person’s plan', () => {
    const analysis = analysisOf(daily(some(24, () => 'HI')))
    const highs = lowsView(ENGLISH, analysis, analysis.periods[0]).highs
    expect(highs?.headline).toBe(
      '24 readings HI, above the meter’s range: on 24 days, the latest 24 April, 08:00. Follow your plan for highs, ' +
        'test for ketones if the plan says so, and contact the care team.',
    )
    expect(highs?.latest).toHaveLength(8)
    expect(highs?.latestTold).toBe('The latest 8 of 24:')
    const { page, terminal } = shown(analysis)
    expect(page.split('▲ HI')).toHaveLength(9)
    expect(page.indexOf('▲ HI')).toBeLessThan(page.indexOf('The numbers'))
    expect(terminal).toContain('24 readings HI, above the meter’s range')
  })

  it('that are one are told in one sentence, and none are not told', () => {
    const one = analysisOf(daily([...numbers(20), 'HI']))
    expect(lowsView(ENGLISH, one, one.periods[0]).highs).toMatchObject({
      headline: expect.stringMatching(
        /^1 reading HI, above the meter’s range: 21 April, 08:00 \(doubtful, test again\)\. Follow/,
      ) as string,
      latest: [],
    })
    const none = analysisOf(daily(numbers(20)))
    expect(lowsView(ENGLISH, none, none.periods[0]).highs).toBeNull()
    expect(shown(none).page).not.toContain('▲')
  })
})

describe('a tenth of the readings', () => {
  it('is not yet more than a tenth: the figures are shown, and those without the markers', () => {
    const analysis = analysisOf(daily([...numbers(27), 'HI', 'LO', 'HI']))
    expect(large(analysis, 'Mean')?.value).toMatch(/^\d+$/)
    expect(shown(analysis).page).toContain('Without them: mean')
  })
})

describe('two periods, one of them full of markers', () => {
  const april = numbers(30)
  const may = some(30, (i) => (i % 3 === 0 ? 'HI' : 150 + (i % 20)))
  const rows = [
    ...daily(april, '04'),
    ...daily(may, '05'),
    // A second block without markers: its change may be told.
    ...some(30, (i) => ({ at: `${date(i, '04')} 12:30`, value: 110 + (i % 9) })),
    ...some(30, (i) => ({ at: `${date(i, '05')} 12:30`, value: 150 + (i % 9) })),
  ].sort((a, b) => (a.at < b.at ? -1 : 1))
  const analysis = analysisOf(rows, {
    period: { from: day('2026-05-01'), to: day('2026-05-31') },
    versus: { from: day('2026-04-01'), to: day('2026-04-30') },
  })

  it('set no mean, SD and CV side by side, and call nothing of them higher or lower', () => {
    const compared = pictureScreen(ENGLISH, analysis).compared
    const rowOf = (name: string) => compared?.measures.rows.find(([label]) => label === name)
    for (const name of ['Mean', 'SD', 'Coefficient of variation']) {
      expect(rowOf(name)).toEqual([name, '–', '–', 'not shown: 10 of 60 readings beyond the meter’s limits'])
    }
    expect(rowOf('Median')?.[3]).toMatch(/Higher|No clear change/)
    expect(compared?.blocks?.rows.find(([hours]) => hours === '06–09')).toEqual([
      '06–09',
      '– (30)',
      '– (30)',
      '–',
      'not shown: 10 of 30 readings beyond the meter’s limits',
    ])
    expect(compared?.blocks?.rows.find(([hours]) => hours === '12–15')?.[4]).toBe('Higher')
    const { terminal } = shown(analysis)
    expect(terminal).toContain('mean not shown: 10 of 60 readings')
    expect(terminal).not.toMatch(/mean \d+ → \d+|At the same times of day/)
  })
})

it('a HI that the next test contradicts is told as doubtful wherever HI are told', async () => {
  const log = analysisOf([
    ...inventedLog({ days: 20, repeats: 0 }),
    { at: '2026-03-24 12:00', value: 'HI' },
    { at: '2026-03-24 12:04', value: 118 },
  ])
  expect(log.technique.doubtful.map(({ index }) => log.readings.flags[index] & FLAG.aboveRange)).toContain(
    FLAG.aboveRange,
  )
  const told = '24 March, 12:00 (doubtful, test again)'
  const [first, ...behind] = await pageTexts(await pdfOf(log))
  expect(first).toContain(told)
  expect(behind.join(' ')).toContain(told)
  expect(terminalSummary(ENGLISH, log, []).join(' ')).toContain('24 March 2026, 12:00 (doubtful, test again)')
})
