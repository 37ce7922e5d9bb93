import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'
import { CONTEXT, logOf } from '../../helpers/logs'
import { ENGLISH } from '../../../src-core/wording/english'

const PROGRAM = { name: 'visit-report', version: '1.2.3' }

/** The report as a reader of the file gets it: through JSON text. */
function jsonOf(analysis: Analysis): Json {
  return JSON.parse(JSON.stringify(reportJson(ENGLISH, analysis, PROGRAM))) as Json
}

type Json = { readonly [key: string]: Value }
type Value = null | boolean | number | string | readonly Value[] | Json

function openedJson(text: string, name = 'log.csv'): Json {
  const outcome = openVisit([logOf(text, name)], {}, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
  return jsonOf(outcome.analysis)
}

/** What stands at 'periods.0.lows' and the like. */
function at(json: Json, path: string): Value {
  return path.split('.').reduce<Value>((value, key) => (value as Json)[key], json)
}

function keysAt(json: Json, path: string): string[] {
  return Object.keys((path === '' ? json : at(json, path)) as Json)
}

/** Tests with doubtful readings, lows, markers, several meters and two rows set aside. */
function fullAnalysis(): Analysis {
  const rows: FixtureReading[] = [
    ...inventedLog({ days: 60, repeats: 0.3, wrong: 0.3, spread: 0.4 }),
    { at: '2026-05-10 03:00', value: 'LO' },
    { at: '2026-05-10 12:00', value: 'HI', meter: 'meter B' },
    { at: '2026-05-11 03:00', value: 119, note: 'washed hands' },
    { at: '2026-05-11 03:03', value: 180, note: 'juice on the finger' },
    { at: '2026-05-11 03:06', value: 121, meter: 'meter B' },
  ]
  return analysisOf(rows, {
    sources: [
      {
        columns: [{ index: 0, header: 'Date', role: 'timestamp' }],
        tables: [{ headerLine: 1, firstLine: 2, lastLine: 9, read: true, rows: 8 }],
        notUsed: [{ index: 4, header: 'Pulse', filled: 3 }],
        setAside: [
          { line: 900, reason: 'empty-date', text: ',52', maybeLow: true },
          { line: 901, reason: 'footer', text: 'end' },
        ],
      },
    ],
  })
}

// The contract of the JSON file: every key, in its place. 'a.0' is the first of a list.
const SUMMARY =
  'n meanMgDl sdMgDl cvPercent medianMgDl q1MgDl q3MgDl minMgDl maxMgDl belowRange aboveRange ' +
  'percentBelow54 percentBelow70 percentInTarget percentAbove180 percentAbove250 ' +
  'estimatedA1cPercent estimatedA1cMmolMol estimatedA1cRangePercent balancedMeanMgDl balancedBlocks lbgi hbgi ci95 ' +
  'balancedMeanCi95MgDl'
const CONTRACT: Readonly<Record<string, string>> = {
  '': 'schemaVersion program settings sources readings periods comparison laboratoryA1c technique',
  program: 'name version',
  settings:
    'unit targetLow targetHigh targetPreset repeatWindowMinutes doubtThreshold doubtThresholdLow seed',
  'sources.0':
    'name sha256 bytes encoding delimiter headerLine columns tables notUsed unit dateOrder rows setAsideByReason setAside notes',
  'sources.0.columns.0': 'index header role',
  'sources.0.tables.0': 'headerLine firstLine lastLine read rows',
  'sources.0.notUsed.0': 'index header filled',
  'sources.0.unit': 'value basis',
  'sources.0.dateOrder': 'value basis',
  'sources.0.rows': 'total accepted setAside',
  'sources.0.setAside.0': 'line reason detail text',
  readings: 'n firstAt lastAt duplicatesAcrossLogs',
  'periods.0':
    'from to days daysWithReadings readingsPerDay kind asLogged checked timeOfDay byMeal week latest30Days withoutPrompted lows latestA1c findings',
  'periods.0.asLogged': SUMMARY,
  'periods.0.checked': SUMMARY,
  'periods.0.timeOfDay': 'hours blocks curve',
  'periods.0.timeOfDay.hours.7': 'hour n p10 q1 median q3 p90',
  'periods.0.timeOfDay.curve.28': 'minute effectiveN p10 q1 median q3 p90',
  'periods.0.timeOfDay.blocks.2':
    'fromHour toHour n meanMgDl sdMgDl percentBelow70 percentAbove180 q1MgDl medianMgDl q3MgDl ' +
    'medianCi95MgDl percentBelow70Ci95 percentAbove180Ci95',
  'periods.0.byMeal': 'tagged n moments untagged pairs rises',
  'periods.0.week': 'weekdays weekend daysWithEnough hoursNeverTested trendMgDlPerWeek trendCi95',
  'periods.0.lows':
    'readingsBelow70 readingsBelow54 nightsTested nights nightsTestedByHour daysWithLows episodes notCounted',
  'periods.0.latestA1c': 'from to n daysWithReadings meanMgDl percent mmolMol rangePercent',
  'periods.0.lows.episodes.0': 'from to lowestMgDl readings doubtful recovered',
  'periods.0.lows.notCounted.0': 'source line why',
  technique:
    'doubtful stretches decided decisionsGone repeatSets repeatability fitsBadly notDoubtfulForIt meters meterPairs trials',
  'technique.doubtful.0': 'source line at mgDl doubt reasons',
  'technique.doubtful.0.reasons.0': 'code text evidence',
  'technique.repeatSets.0': 'from to members meanMgDl consensusMgDl spreadPercent agree holdsLow',
  'technique.repeatSets.0.members.0': 'source line at mgDl doubt',
  'technique.repeatability': 'sets readings withinSdMgDl withinCvPercent withinCvCi95 unsurprising',
  'technique.meters.0': 'meter n',
  'technique.meterPairs.0':
    'first second n meanDifferencePercent limits95Percent meanCi95Percent nextPairPercent within15 line',
  'technique.meterPairs.0.within15': 'count n',
  'technique.trials.0': 'at baselineMgDl baseline closingMgDl steps',
  'technique.trials.0.steps.0':
    'source line at mgDl tests label changed rounds baselineMgDl differencePercent withinTolerance smallestVisiblePercent effect',
}

describe('the keys', () => {
  const json = jsonOf(fullAnalysis())

  it.each(Object.entries(CONTRACT).map(([path, keys]) => ({ path, keys })))(
    'of ‘$path’ are those of the contract, no more and no fewer',
    ({ path, keys }) => {
      const wanted = keys.split(' ')
      const found = keysAt(json, path)
      const reasons = found.filter(
        (key) => key.endsWith('Reason') && found.includes(key.slice(0, -'Reason'.length)),
      )
      expect(found.filter((key) => !reasons.includes(key)).sort()).toEqual(wanted.sort())
    },
  )

  it('say who wrote the file, in which layout', () => {
    expect(json.schemaVersion).toBe(1)
    expect(json.program).toEqual(PROGRAM)
  })

  it('hold 24 hours and 8 blocks, from midnight on', () => {
    expect((at(json, 'periods.0.timeOfDay.hours') as Json[]).map(({ hour }) => hour)).toEqual(
      Array.from({ length: 24 }, (_, hour) => hour),
    )
    expect(
      (at(json, 'periods.0.timeOfDay.blocks') as Json[]).map(({ fromHour, toHour }) => [fromHour, toHour]),
    ).toEqual([0, 3, 6, 9, 12, 15, 18, 21].map((hour) => [hour, hour + 3]))
  })

  it('give a sensor’s summary its indicator, and a finger-stick’s none', () => {
    const sensor = Array.from({ length: 96 }, (_, i) => ({
      at: `2026-03-02 ${String(Math.floor(i / 4)).padStart(2, '0')}:${String(15 * (i % 4)).padStart(2, '0')}`,
      value: 140,
      sensor: true,
    }))
    const period = at(jsonOf(analysisOf(sensor)), 'periods.0') as Json
    expect(period.kind).toBe('sensor')
    // 3.31 + 0.02392 x mean in mg/dL (Bergenstal et al., Diabetes Care 2018;41:2275-2280).
    expect((period.asLogged as Json).gmiPercent).toBeCloseTo(3.31 + 0.02392 * 140, 9)
    expect(JSON.stringify(json)).not.toContain('gmi')
  })

  it('give targets as the partner in mg/dL of what was asked in mmol/L', () => {
    const settings = at(
      jsonOf(analysisOf([{ at: '2026-03-02 07:00', value: 5.8 }], { unit: 'mmol/L' })),
      'settings',
    )
    expect(settings).toMatchObject({ unit: 'mmol/L', targetLow: 70, targetHigh: 180 })
  })
})

describe('a figure that may not be computed', () => {
  /** Paths of null values, those within lists of numbers by their list. */
  function nulls(value: Value, path: string[] = []): { parent: Value; key: string; path: string }[] {
    if (Array.isArray(value))
      return (value as Value[]).flatMap((item, i) => nulls(item, [...path, String(i)]))
    if (typeof value !== 'object' || value === null) return []
    return Object.entries(value).flatMap(([key, item]) => {
      const isNull = item === null || (Array.isArray(item) && item.includes(null))
      if (isNull) return [{ parent: value, key, path: [...path, key].join('.') }]
      return nulls(item, [...path, key])
    })
  }
  /** Null here means 'none', as the contract says: no header, no second period. */
  const MEANS_NONE = /^(comparison|sources\.\d+\.headerLine)$/

  const FEW: readonly { name: string; rows: readonly FixtureReading[] }[] = [
    { name: 'one reading', rows: [{ at: '2026-03-02 07:00', value: 104 }] },
    { name: 'one reading without a time', rows: [{ at: '2026-03-02', value: 104 }] },
    {
      name: 'a mean far above the published table',
      rows: [
        { at: '2026-03-02 07:00', value: 'HI' },
        { at: '2026-03-02 08:00', value: 590 },
      ],
    },
    {
      name: 'a mean below it',
      rows: [
        { at: '2026-03-02 07:00', value: 52 },
        { at: '2026-03-02 08:00', value: 60 },
      ],
    },
    {
      name: 'a mean near its lower end',
      rows: [
        { at: '2026-03-02 07:00', value: 100 },
        { at: '2026-03-02 08:00', value: 110 },
      ],
    },
    {
      name: 'two tests that disagree',
      rows: [
        { at: '2026-03-02 07:00', value: 255 },
        { at: '2026-03-02 07:01', value: 109 },
      ],
    },
  ]

  it.each(FEW)('is null with a reason beside it: $name', ({ rows }) => {
    const json = jsonOf(analysisOf(rows))
    const figures = nulls(json).filter(({ path }) => !MEANS_NONE.test(path))
    expect(figures.length).toBeGreaterThan(0)
    for (const { parent, key, path } of figures) {
      const reason = (parent as Json)[`${key}Reason`]
      expect([path, typeof reason]).toEqual([path, 'string'])
      expect((reason as string).length).toBeGreaterThan(5)
    }
  })

  it('has no reason where it could be computed', () => {
    const json = jsonOf(fullAnalysis())
    const walk = (value: Value): void => {
      if (Array.isArray(value)) return value.forEach(walk)
      if (typeof value !== 'object' || value === null) return
      for (const [key, item] of Object.entries(value)) {
        if (key.endsWith('Reason')) {
          const figure = (value as Json)[key.slice(0, -'Reason'.length)]
          expect([key, figure === null || (Array.isArray(figure) && figure.includes(null))]).toEqual([
            key,
            true,
          ])
        }
        walk(item)
      }
    }
    walk((json.periods as readonly Value[])[0])
    walk(json.technique)
    expect(keysAt(json, 'periods.0.asLogged').filter((key) => key.endsWith('Reason'))).toEqual([])
  })

  it('of an SD is told from two readings up, not from 15: the page alone holds it back', () => {
    const two = jsonOf(
      analysisOf([
        { at: '2026-03-02 07:00', value: 100 },
        { at: '2026-03-02 12:00', value: 120 },
      ]),
    )
    // Sample SD (n - 1) of 100 and 120: sqrt(200).
    expect(at(two, 'periods.0.asLogged.sdMgDl')).toBeCloseTo(Math.sqrt(200), 9)
    expect(at(two, 'periods.0.asLogged.estimatedA1cPercent')).toBeCloseTo((110 + 46.7) / 28.7, 9)
  })

  it('never shows as NaN or infinity', () => {
    const walk = (value: unknown): void => {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true)
      else if (typeof value === 'object' && value !== null) Object.values(value).forEach(walk)
    }
    for (const { rows } of FEW) walk(reportJson(ENGLISH, analysisOf(rows), PROGRAM))
    walk(reportJson(ENGLISH, fullAnalysis(), PROGRAM))
  })
})

describe('order', () => {
  const json = jsonOf(fullAnalysis())

  it.each(['technique.doubtful', 'technique.repeatSets', 'periods.0.lows.episodes'])(
    'of ‘%s’ is that of time',
    (path) => {
      const moments = (at(json, path) as readonly Json[]).map((item) => (item.at ?? item.from) as string)
      expect(moments.length).toBeGreaterThan(2)
      expect(moments).toEqual([...moments].sort())
    },
  )

  it('of members within a set is that of time', () => {
    for (const { members, from, to } of at(json, 'technique.repeatSets') as readonly Json[]) {
      const moments = (members as readonly Json[]).map((member) => member.at as string)
      expect(moments).toEqual([...moments].sort())
      expect([moments[0], moments.at(-1)]).toEqual([from, to])
    }
  })

  it('of readings at one moment is by source, then line', () => {
    const same = analysisOf(
      [
        { at: '2026-03-02 07:00', value: 100, source: 1 },
        { at: '2026-03-02 07:00', value: 101, source: 0 },
        { at: '2026-03-02 07:00', value: 102, source: 1 },
      ],
      { sources: [{}, {}] },
    )
    const [{ members }] = at(jsonOf(same), 'technique.repeatSets') as readonly Json[]
    expect((members as readonly Json[]).map(({ source, line }) => [source, line])).toEqual([
      [0, 3],
      [1, 2],
      [1, 4],
    ])
  })

  it('of rows set aside is by line', () => {
    const read = openedJson(
      'Date,Time,Glucose (mg/dL)\n2026-03-05,07:10,104\n2026-03-04,,\n2026-03-03,07:10,x\n2026-03-02,07:10,\n',
    )
    const lines = (at(read, 'sources.0.setAside') as readonly Json[]).map(({ line }) => line)
    expect(lines).toEqual([3, 4, 5])
  })
})

describe('times', () => {
  it('have seconds only where the log has them, and are days where it gives no time', () => {
    const read = (rows: string) => openedJson(`Timestamp,Glucose (mg/dL)\n${rows}`).readings
    expect(read('2026-03-02T07:10,104\n2026-03-03T07:10:31,104\n')).toMatchObject({
      firstAt: '2026-03-02T07:10',
      lastAt: '2026-03-03T07:10:31',
    })
    expect(read('2026-03-02,104\n')).toMatchObject({ firstAt: '2026-03-02', lastAt: '2026-03-02' })
  })
})

describe('full precision', () => {
  it('survives: no figure is rounded on its way into the file', () => {
    const analysis = fullAnalysis()
    const json = jsonOf(analysis)
    const [{ asLogged, checked }] = analysis.periods
    expect(at(json, 'periods.0.asLogged.meanMgDl')).toBe(asLogged.meanMgDl)
    expect(at(json, 'periods.0.asLogged.sdMgDl')).toBe(asLogged.sdMgDl)
    expect(at(json, 'periods.0.checked.meanMgDl')).toBe(checked.meanMgDl)
    expect(at(json, 'periods.0.asLogged.percentInTarget')).toBe(asLogged.percentInTarget)
    const { index, doubt } = analysis.technique.doubtful[0]
    expect(at(json, 'technique.doubtful.0.doubt')).toBe(doubt)
    expect(at(json, 'technique.doubtful.0.mgDl')).toBe(analysis.readings.mgDl[index])
  })
})

describe('rows that are no readings', () => {
  it('are listed and counted by reason, and add up', () => {
    const read = openedJson(
      'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-02,08:10,\n2026-03-02,09:10,\n2026-03-02,10:10,high\nTotal,,3\n',
    )
    const source = at(read, 'sources.0') as Json
    const setAside = source.setAside as readonly Json[]
    const {
      total,
      accepted,
      setAside: count,
    } = source.rows as { total: number; accepted: number; setAside: number }
    expect(total).toBe(accepted + count)
    expect(setAside).toHaveLength(count)
    for (const [reason, n] of Object.entries(source.setAsideByReason as Json)) {
      expect(setAside.filter((row) => row.reason === reason)).toHaveLength(n as number)
    }
    expect(setAside.map(({ reason }) => reason)).toContain('empty-value')
  })

  it('that may be lows are named among the lows, with log and line', () => {
    const json = jsonOf(fullAnalysis())
    expect(at(json, 'periods.0.lows.notCounted')).toEqual([
      { source: 0, line: 900, why: 'without a usable date' },
    ])
  })
})

describe('a doubtful reading', () => {
  it('is found by log and line, with the evidence, and so is the test that contradicts it', () => {
    const json = jsonOf(
      analysisOf([
        { at: '2026-03-02 12:00', value: 104 },
        { at: '2026-03-02 15:48', value: 255 },
        { at: '2026-03-02 15:49', value: 109 },
      ]),
    )
    const [doubtful] = at(json, 'technique.doubtful') as readonly Json[]
    expect(doubtful).toMatchObject({ source: 0, line: 3, at: '2026-03-02T15:48', mgDl: 255 })
    const [reason] = doubtful.reasons as readonly Json[]
    expect(reason.code).toBe('contradicted-by-repeat')
    expect(reason.text).toContain('255, then 109 one minute later: they differ by 146.')
    expect(reason.evidence).toMatchObject({
      other: { source: 0, line: 4, at: '2026-03-02T15:49', mgDl: 109 },
      minutes: 1,
      differenceMgDl: 146,
      membersOfSet: 2,
    })
  })
})

describe('what must not be in the file', () => {
  it('a path: of a log only what the report of it declares is written', () => {
    const analysis = analysisOf([{ at: '2026-03-02 07:00', value: 104 }])
    const withPath = {
      ...analysis,
      sources: analysis.sources.map((source) => ({ ...source, path: '/home/someone/logs/a.csv' })),
    }
    expect(JSON.stringify(reportJson(ENGLISH, withPath, PROGRAM))).not.toContain('/home/')
  })

  it('a log’s preamble, with whatever name and serial number stand there', () => {
    const read = openedJson(
      'Owner,A Person\nSerial number,SN-48151623\n\nDate,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-02,09:10,98\n',
    )
    expect(at(read, 'readings.n')).toBe(2)
    expect(JSON.stringify(read)).not.toMatch(/48151623|A Person/)
  })

  it('notes of the person beside accepted readings', () => {
    const analysis = analysisOf([{ at: '2026-03-02 07:00', value: 104, note: 'had a row with M.' }])
    expect(JSON.stringify(reportJson(ENGLISH, analysis, PROGRAM))).not.toContain('had a row')
  })
})

describe('the period', () => {
  it('is the days asked for, both included, and the whole logbook stays in readings and technique', () => {
    const rows = inventedLog({ days: 60, repeats: 0.3, wrong: 0.3 })
    const period = { from: parseIsoDay('2026-03-10') ?? 0, to: parseIsoDay('2026-03-19') ?? 0 }
    const json = jsonOf(analysisOf(rows, { period }))
    const whole = jsonOf(analysisOf(rows))
    const n = rows.filter((row) => row.at >= '2026-03-10' && row.at < '2026-03-20').length
    expect(at(json, 'periods.0')).toMatchObject({
      from: '2026-03-10',
      to: '2026-03-19',
      days: 10,
      readingsPerDay: n / 10,
    })
    expect(at(json, 'periods.0.asLogged.n')).toBe(n)
    expect(at(json, 'readings.n')).toBe(rows.length)
    expect(json.technique).toEqual(whole.technique)
  })
})

describe('the same analysis', () => {
  it('gives the same file, byte for byte', () => {
    expect(JSON.stringify(reportJson(ENGLISH, fullAnalysis(), PROGRAM))).toBe(
      JSON.stringify(reportJson(ENGLISH, fullAnalysis(), PROGRAM)),
    )
  })
})
