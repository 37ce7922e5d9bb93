import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { dayOfDate, isoMoment } from '../../../src-core/units/wallClock'
import type { Medicine } from '../../../src-core/kit/kit'
import { disturbancesTold } from '../../../src-core/told/kit'
import { analysisOf } from '../../helpers/analysisFixture'
import { at } from '../analysis/readingsOf'
import { besideText, interferenceSentence } from '../../../src-core/wording/english/kit'
import { interferencesOf } from '../../../src-core/kit/interferences'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { ENGLISH } from '../../../src-core/wording/english'

/** One reading a day at noon from 1 January 2026 on. */
function daily(days: number, mgDl: (day: number) => number) {
  return Array.from({ length: days }, (_, day) => ({
    at: isoMoment(at('2026-01-01 12:00') + day * 86_400).replace('T', ' '),
    value: mgDl(day),
  }))
}

const beside = (rows: ReturnType<typeof daily>, date: string, percent: number) =>
  analysisOf(rows, { kit: { laboratoryA1c: [{ date, percent }] } }).laboratory[0]

describe('a laboratory A1C', () => {
  it('is set beside the 90 days before it, its own day left out', () => {
    // 1 January to 31 March are 90 days; the reading of 1 April itself would move the mean.
    const rows = daily(91, (day) => (day === 90 ? 400 : 154))
    const { before, difference, position } = beside(rows, '2026-04-01', 7.4)
    expect(before.n).toBe(90)
    expect(before.daysWithReadings).toBe(90)
    // ADAG, Diabetes Care 2008;31:1473: (154 + 46.7) / 28.7 = 6.993
    expect(difference).toBeCloseTo(7.4 - 200.7 / 28.7, 12)
    expect(position).toBe('within')
  })

  it('that differs is explained first by the days without readings, by thirds of the 90', () => {
    // Days 0 to 4 of the first 30, none of the second, 30 to 89 without 60 to 69 left out of the third.
    const rows = daily(90, () => 123).filter((_, day) => day < 5 || day >= 70)
    const found = beside(rows, '2026-04-01', 8)
    expect(found.daysByMonth).toEqual([5, 0, 20])
    expect(besideText(found, { unit: 'mg/dL' })).toContain(
      'higher than that. Days without readings may explain it: in the three stretches of 30 days before the sample, 5, 0 and 20 days have readings',
    )
    const covered = besideText(
      beside(
        daily(90, () => 123),
        '2026-04-01',
        8,
      ),
      { unit: 'mg/dL' },
    )
    expect(covered).toContain('higher than that. Highs at untested hours')
  })

  it('does not reach further back', () => {
    const rows = daily(120, (day) => (day < 30 ? 400 : 154))
    expect(beside(rows, '2026-05-01', 7).before.meanMgDl).toBe(154)
  })

  it('lies above or below the published range only outside its limits', () => {
    // The table of the ADAG study at 7 %: 123 to 185 mg/dL; a mean of 123 is within that of 5.6 to 7 %.
    const rows = daily(90, () => 123)
    expect(beside(rows, '2026-04-01', 7).position).toBe('within')
    expect(beside(rows, '2026-04-01', 7.1).position).toBe('above')
    expect(
      beside(
        daily(90, () => 185),
        '2026-04-01',
        6.9,
      ).position,
    ).toBe('below')
  })

  it('is not explained where readings are too few, and never called wrong', () => {
    expect(
      besideText(
        beside(
          daily(5, () => 150),
          '2026-04-01',
          9,
        ),
        DEFAULT_SETTINGS,
      ),
    ).toBe('The 90 days before it hold 5 readings on 5 days: too few to compare with it.')
    expect(
      besideText(
        beside(
          daily(90, () => 123),
          '2026-04-01',
          9,
        ),
        DEFAULT_SETTINGS,
      ),
    ).toContain(
      'higher than that. Highs at untested hours, a meter reading low, or a condition that raises A1C',
    )
    expect(
      besideText(
        beside(
          daily(90, () => 185),
          '2026-04-01',
          5,
        ),
        { ...DEFAULT_SETTINGS, unit: 'mmol/L' },
      ),
    ).toContain(
      'lower than that. Tests taken mainly when high, sugar on the finger, or a condition that lowers A1C',
    )
  })

  it('is converted from mmol/mol as NGSP publishes it, and stands in the JSON', () => {
    const analysis = analysisOf(
      daily(90, () => 154),
      { kit: { laboratoryA1c: [{ date: '2026-04-01', mmolMol: 53 }] } },
    )
    const { laboratoryA1c } = reportJson(ENGLISH, analysis, { name: 'x', version: '1' }) as {
      laboratoryA1c: { percent: number; readingsBefore: number }[]
    }
    // 0.09148 x 53 + 2.152
    expect(laboratoryA1c[0].percent).toBeCloseTo(7.00044, 10)
    expect(laboratoryA1c[0].readingsBefore).toBe(90)
  })
})

describe('medicines and supplements that disturb meters', () => {
  const found = (name: string, milligramsADay?: number) =>
    interferencesOf({ medicines: [{ name, ...(milligramsADay !== undefined && { milligramsADay }) }] })

  it('are known by their names in several languages', () => {
    for (const name of [
      'Vitamin C',
      'vitamine C',
      'Ascorbinsäure',
      'Icodextrin dialysis',
      'Maltose',
      'Paracetamol',
    ])
      expect(found(name)).toHaveLength(1)
    for (const name of ['vitamin B12', 'vitamin D', 'metformin', 'vitamin complex'])
      expect(found(name)).toEqual([])
  })

  it('count for vitamin C above 500 mg a day, or where the amount is not told', () => {
    expect(found('vitamin C', 500)).toEqual([])
    expect(found('vitamin C', 501)).toHaveLength(1)
    expect(found('vitamin C')).toHaveLength(1)
    expect(found('icodextrin', 1)).toHaveLength(1)
  })

  const toldOf = (medicine: Medicine, latest = '2026-05-01') =>
    interferenceSentence(disturbancesTold({ medicines: [medicine] }, dayOfDate(latest))[0])

  it('are to be confirmed or asked about, never stopped', () => {
    expect(toldOf({ name: 'icodextrin' })).toContain('can hide a low. Confirm today that this strip is safe')
    expect(toldOf({ name: 'vitamin C' })).toContain('Do not stop it without asking')
  })

  it('that ended are told of the readings up to their end, not to be confirmed today', () => {
    const told = toldOf({ name: 'icodextrin', to: '2026-04-02' }, '2026-04-03')
    expect(told).toContain('can hide a low. This may be so of the readings up to 2 April 2026')
    expect(told).not.toContain('today')
    expect(toldOf({ name: 'icodextrin', to: '2026-04-02' }, '2026-04-02')).toContain('Confirm today')
  })
})
