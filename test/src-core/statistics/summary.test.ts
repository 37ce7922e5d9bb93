import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { LIMITS } from '../../../src-core/reference/limits'
import { summarise, type Summary } from '../../../src-core/statistics/summary'
import { hourly, readingsOf, row } from '../analysis/readingsOf'

/** Twelve readings; their figures below were worked out with numpy 2.4 (quantiles: method 'linear'). */
const SET_A = [112, 95, 187, 142, 68, 210, 155, 130, 99, 174, 256, 121]

function summaryOf(readings: Readings, leaveOut = 0): Summary {
  return summarise(readings, 0, readings.n, DEFAULT_SETTINGS, leaveOut)
}

describe('summary of readings', () => {
  const summary = summaryOf(hourly(SET_A))

  it('has mean, sample standard deviation and coefficient of variation', () => {
    expect(summary.n).toBe(12)
    expect(summary.meanMgDl).toBe(145.75)
    expect(summary.sdMgDl).toBeCloseTo(53.67261871755467, 10)
    expect(summary.cvPercent).toBeCloseTo(36.82512433451435, 10)
  })

  it('has quantiles of type 7 and the extremes', () => {
    expect([summary.q1MgDl, summary.medianMgDl, summary.q3MgDl]).toEqual([108.75, 136, 177.25])
    expect([summary.minMgDl, summary.maxMgDl]).toEqual([68, 256])
  })

  it('has shares of readings by the consensus limits', () => {
    // Below 54: 0; below 70: 68; 70 to 180: 8; above 180: 187, 210, 256; above 250: 256.
    expect(summary.percentBelow54).toBe(0)
    expect(summary.percentBelow70).toBeCloseTo(100 / 12, 10)
    expect(summary.percentInTarget).toBeCloseTo(800 / 12, 10)
    expect(summary.percentAbove180).toBeCloseTo(300 / 12, 10)
    expect(summary.percentAbove250).toBeCloseTo(100 / 12, 10)
  })

  it('has the estimated A1C with its published range and the risk indices', () => {
    expect(summary.estimatedA1cPercent).toBeCloseTo(6.7055749128919855, 12)
    expect(summary.estimatedA1cMmolMol).toBeCloseTo(49.77672620126787, 10)
    // From the rows 120 to 152 (5 to 6 %) and 123 to 147 (7 to 8 %) of the study's table.
    expect(summary.estimatedA1cRangePercent?.[0]).toBeCloseTo(5 + 25.75 / 32, 12)
    expect(summary.estimatedA1cRangePercent?.[1]).toBeCloseTo(7 + 22.75 / 24, 12)
    expect(summary.lbgi).toBeCloseTo(0.857215298168906, 10)
    expect(summary.hbgi).toBeCloseTo(4.9616250609276245, 10)
  })

  it('covers only the readings asked for', () => {
    const readings = hourly(SET_A)
    expect(summarise(readings, 2, 4, DEFAULT_SETTINGS).meanMgDl).toBe((187 + 142) / 2)
  })

  it('has no figures without readings and no spread of a single one', () => {
    const none = summarise(hourly(SET_A), 3, 3, DEFAULT_SETTINGS)
    expect(none.n).toBe(0)
    expect([
      none.meanMgDl,
      none.medianMgDl,
      none.percentBelow70,
      none.lbgi,
      none.estimatedA1cRangePercent,
    ]).toEqual([null, null, null, null, null])
    const one = summaryOf(hourly([120]))
    expect([one.meanMgDl, one.medianMgDl, one.q1MgDl, one.sdMgDl, one.cvPercent]).toEqual([
      120,
      120,
      120,
      null,
      null,
    ])
  })
})

describe('limits', () => {
  it('are held against the unit that the reading was logged in', () => {
    // 10.0 mmol/L is 180.156 mg/dL and 13.9 is 250.417, yet both are the upper limit itself.
    const summary = summaryOf(hourly([3.9, 10.0, 13.9, 3.8], { unit: 'mmol/L' }))
    expect(summary.percentBelow70).toBe(25)
    expect(summary.percentInTarget).toBe(50)
    expect(summary.percentAbove180).toBe(25)
    expect(summary.percentAbove250).toBe(0)
  })

  it('are held before rounding', () => {
    const summary = summaryOf(hourly([69.96, 180.4, 54, 250]))
    expect(summary.percentBelow70).toBe(50)
    expect(summary.percentBelow54).toBe(0)
    expect(summary.percentInTarget).toBe(0)
    expect(summary.percentAbove180).toBe(50)
    expect(summary.percentAbove250).toBe(0)
  })

  it('of the target move, the fixed ones do not', () => {
    const readings = hourly([63, 65, 140, 141])
    const pregnancy = { targetLow: LIMITS.pregnancyLow, targetHigh: LIMITS.pregnancyHigh }
    const summary = summarise(readings, 0, readings.n, pregnancy)
    expect(summary.percentInTarget).toBe(75)
    expect(summary.percentBelow70).toBe(50)
  })
})

describe('markers', () => {
  const marked = readingsOf([
    ...SET_A.map((value, i) => row(`2026-03-01 ${String(i).padStart(2, '0')}:00`, value)),
    row('2026-03-01 12:00', 600, { flags: FLAG.aboveRange }),
    row('2026-03-01 13:00', 20, { flags: FLAG.belowRange }),
  ])

  it('are used at their limit and counted', () => {
    const summary = summaryOf(marked)
    // Set A with 600 and 20, numpy 2.4: mean 169.2143, CV 81.3 %.
    expect(summary.meanMgDl).toBeCloseTo(169.2143, 4)
    expect(summary.cvPercent).toBeCloseTo(81.3, 1)
    expect([summary.belowRange, summary.aboveRange]).toEqual([1, 1])
    expect(summary.percentBelow54).toBeCloseTo(100 / 14, 10)
  })

  it('can be left out', () => {
    const summary = summaryOf(marked, FLAG.aboveRange | FLAG.belowRange)
    expect(summary).toEqual(summaryOf(hourly(SET_A)))
  })

  it('at a limit lie beyond that limit', () => {
    const atLimits = readingsOf([
      row('2026-03-01 07:00', 70, { flags: FLAG.belowRange }),
      row('2026-03-01 08:00', 250, { flags: FLAG.aboveRange }),
      row('2026-03-01 09:00', 80, { flags: FLAG.belowRange }),
      row('2026-03-01 10:00', 120),
    ])
    const summary = summaryOf(atLimits)
    expect(summary.percentBelow70).toBe(25)
    expect(summary.percentAbove250).toBe(25)
  })
})

describe('balanced mean', () => {
  it('gives every block of three hours with five readings the same weight', () => {
    // Five readings of 110 before 09:00, six of 150 before 12:00, four of 300 after: too few to count.
    const readings = readingsOf([
      ...[0, 1, 2, 3, 4].map((i) => row(`2026-03-0${i + 1} 06:30`, 110)),
      ...[0, 1, 2, 3, 4, 5].map((i) => row(`2026-03-0${i + 1} 11:59`, 150)),
      ...[0, 1, 2, 3].map((i) => row(`2026-03-0${i + 1} 12:00`, 300)),
    ])
    const summary = summaryOf(readings)
    expect(summary.balancedMeanMgDl).toBe(130)
    expect(summary.balancedBlocks).toBe(2)
  })

  it('does not count readings without a time of day', () => {
    const dayOnly = { flags: FLAG.dayOnly }
    const readings = readingsOf([1, 2, 3, 4, 5].map((day) => row(`2026-03-0${day} 00:00`, 100, dayOnly)))
    expect(summaryOf(readings)).toMatchObject({
      n: 5,
      meanMgDl: 100,
      balancedMeanMgDl: null,
      balancedBlocks: 0,
    })
  })
})

describe('the same log', () => {
  it('has the same figures whatever the order of its rows', () => {
    const rows = SET_A.map((value, i) => row(`2026-03-01 ${String(i).padStart(2, '0')}:00`, value))
    expect(summaryOf(readingsOf(rows.toReversed()))).toEqual(summaryOf(readingsOf(rows)))
  })

  it('has the same figures in the other unit', () => {
    const inMmol = summaryOf(hourly([4.0, 5.6, 7.8, 12.2, 10.0], { unit: 'mmol/L' }))
    const inMgDl = summaryOf(hourly([4.0, 5.6, 7.8, 12.2, 10.0].map((mmol) => mmol * 18.0156)))
    expect(inMmol.meanMgDl).toBeCloseTo(inMgDl.meanMgDl as number, 10)
    expect(inMmol.sdMgDl).toBeCloseTo(inMgDl.sdMgDl as number, 10)
    expect(inMmol.cvPercent).toBeCloseTo(inMgDl.cvPercent as number, 10)
    expect(inMmol.estimatedA1cPercent).toBeCloseTo(inMgDl.estimatedA1cPercent as number, 10)
    expect(inMmol.hbgi).toBeCloseTo(inMgDl.hbgi as number, 10)
    // 145.75 and 53.6726 mg/dL are 8.09021 and 2.97923 mmol/L (numpy 2.4, factor 18.0156).
    const setA = summaryOf(
      hourly(
        SET_A.map((mgDl) => mgDl / 18.0156),
        { unit: 'mmol/L' },
      ),
    )
    expect((setA.meanMgDl as number) / 18.0156).toBeCloseTo(8.09021, 5)
    expect((setA.sdMgDl as number) / 18.0156).toBeCloseTo(2.97923, 5)
    expect(setA.cvPercent).toBeCloseTo(36.8251, 4)
  })
})
