import { describe, expect, it } from 'vitest'
import { ENGLISH } from '../../../src-core/wording/english'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'

function summary(rows: readonly FixtureReading[], options: Parameters<typeof analysisOf>[1] = {}): string {
  return terminalSummary(ENGLISH, analysisOf(rows, options), ['report.pdf']).join('\n')
}

/** `n` tests of 110 to 149 on consecutive days, at seven or at changing hours. */
function mornings(n: number, hours = ['07']): FixtureReading[] {
  return Array.from({ length: n }, (_, i) => ({
    at: `2026-03-${String(1 + i).padStart(2, '0')} ${hours[i % hours.length]}:00`,
    value: 110 + ((i * 17) % 40),
  }))
}

const ALL_DAY = ['07', '12', '19']

describe('the summary at the end of a run', () => {
  it('says what was read and how it was understood', () => {
    const text = summary(mornings(20), {
      sources: [
        {
          name: 'log.csv',
          rows: { total: 22, accepted: 20, setAside: 2 },
          setAside: [
            { line: 7, reason: 'empty-value', text: '2026-03-05,07:00,,a secret note' },
            { line: 9, reason: 'empty-value', text: '' },
          ],
          notes: [{ code: 'dates-filled-down', rows: 3 }],
        },
      ],
    })
    expect(text).toContain(
      'log.csv: 20 of 22 rows read; mg/dL from the header; dates year-month-day by their form',
    )
    expect(text).toContain('set aside, empty-value: lines 7 and 9')
    expect(text).toContain('  3 rows without a date took the date of the row above')
    expect(text).toContain('1 to 20 March 2026: 20 finger-stick readings on 20 of 20 days')
    expect(text).toContain('Wrote report.pdf')
    expect(text).not.toContain('secret')
  })

  it('names at most five lines of a reason', () => {
    const setAside = Array.from({ length: 8 }, (_, i) => ({
      line: i + 2,
      reason: 'duplicate' as const,

      text: '',
    }))
    expect(summary(mornings(3), { sources: [{ setAside }] })).toContain(
      'duplicate: lines 2, 3, 4, 5, 6 and 3 more',
    )
  })

  it('tells lows before any average, and of none that it shows nothing', () => {
    const none = summary(mornings(20))
    expect(none).toContain('Lows: none recorded. That does not show that there were none.')
    expect(none.indexOf('Lows:')).toBeLessThan(none.indexOf('Mean'))
    const some = summary([
      ...mornings(20),
      { at: '2026-03-21 07:00', value: 52 },
      { at: '2026-03-21 12:00', value: 66 },
    ])
    expect(some).toContain('Lows: 2 readings below 70, 1 below 54. Every one counts.')
  })

  it('holds SD, CV and the estimate back below 15 readings', () => {
    expect(summary(mornings(14))).not.toMatch(/SD|variation|A1C: \d/)
    expect(summary(mornings(14))).toContain('Estimated A1C: not shown: fewer than 15 readings')
    const enough = summary(mornings(15, ALL_DAY))
    expect(enough).toMatch(/Mean \d+ mg\/dL, SD \d+, coefficient of variation \d+ %/)
    expect(enough).toMatch(
      /Estimated A1C: .* %, over 15 days, 15 with readings; from finger-sticks, not a laboratory A1C/,
    )
  })

  it('speaks of percent of readings, not of time, and gives limits in the printed unit', () => {
    expect(summary(mornings(20, ALL_DAY))).toContain('100 % of readings from 70 to 180 mg/dL')
    expect(summary(mornings(20, ALL_DAY), { settings: { unit: 'mmol/L' } })).toContain(
      'of readings from 3.9 to 10.0 mmol/L',
    )
    expect(summary(mornings(20))).not.toMatch(/time in range|glucose management/i)
  })

  it('says why neither spread nor share speaks of the day where all tests fall into one hour', () => {
    expect(summary(mornings(20))).toMatch(
      /Mean \d+ mg\/dL, SD \d+, coefficient of variation and readings in 70 to 180 mg\/dL not shown: all tests between 07:00 and 08:00\n/,
    )
    expect(summary(mornings(10))).toMatch(
      /Mean \d+ mg\/dL, readings in 70 to 180 mg\/dL not shown: all tests/,
    )
  })

  it('does not call a sensor’s readings finger-sticks', () => {
    const sensor = Array.from({ length: 96 }, (_, i) => ({
      at: `2026-03-02 ${String(Math.floor(i / 4)).padStart(2, '0')}:${String(15 * (i % 4)).padStart(2, '0')}`,
      value: 110 + (i % 30),
      sensor: true,
    }))
    const text = summary(sensor)
    expect(text).toContain('96 sensor readings')
    expect(text).toContain('Sensor readings are not judged')
    expect(text.replace('is for finger-sticks only', '')).not.toContain('finger-stick')
  })

  it('says how many readings are doubtful and that the others are not proven right', () => {
    const text = summary(inventedLog({ days: 60, repeats: 0.3, wrong: 0.3 }))
    expect(text).toMatch(
      /\d+ readings are doubtful; the others are not proven right\. \d+ of \d+ sets of repeat readings agree\./,
    )
    expect(summary(mornings(3))).toContain(
      'No reading was found doubtful, which does not prove them right. No reading was repeated within 10 minutes.',
    )
  })

  it('ends with the caution on doses', () => {
    expect(summary(mornings(3))).toMatch(
      /For discussion with the care team\. Do not change doses from these figures\.$/,
    )
  })
})
