import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { FLAG } from '../../../src-core/log/readings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { doubtfulReadings } from '../../../src-core/technique/doubtfulReadings'
import { readNote } from '../../../src-core/technique/notes/readNote'
import { type EquipmentTold, type Evidence, NO_EQUIPMENT } from '../../../src-core/technique/reasons/evidence'
import { adjustedRate } from '../../../src-core/technique/reasons/fasterThanGlucoseChanges'
import { noteOdds } from '../../../src-core/technique/reasons/noteTellsOfTechnique'
import { findRepeatSets } from '../../../src-core/technique/repeatSets'
import type { DoubtReason } from '../../../src-core/technique/reasons/reasonTable'
import { readingsOf, row, type RowParts } from '../analysis/readingsOf'

type Test = readonly [moment: string, value: number, parts?: RowParts]

interface Told {
  readonly equipment?: Partial<EquipmentTold>
  readonly expected?: readonly [number, number]
  /** Doubt of every reading; left out, none reaches its bar. */
  readonly doubt?: number
}

/** Reasons of the doubtful readings by place in the log. */
function doubtful(tests: readonly Test[], told: Told = {}): Map<number, readonly DoubtReason[]> {
  const readings = readingsOf(tests.map(([moment, value, parts]) => row(moment, value, parts)))
  const order = chronologicalOrder(readings)
  const filled = (value: number) => new Float64Array(readings.n).fill(value)
  const evidence: Evidence = {
    readings,
    order,
    repeatSets: findRepeatSets(readings, order, 10),
    telling: (index) => readNote(readings.note(index)),
    expected: told.expected ? { low: filled(told.expected[0]), high: filled(told.expected[1]) } : null,
    equipment: { ...NO_EQUIPMENT, ...told.equipment },
  }
  const list = doubtfulReadings(evidence, filled(told.doubt ?? 0), DEFAULT_SETTINGS)
  return new Map(list.map(({ index, reasons }) => [index, reasons]))
}

const codesOf = (reasons: readonly DoubtReason[] | undefined) => reasons?.map(({ code }) => code)

/** What is told of one reading whose doubt is beyond question. */
function reasonsOf(tests: readonly Test[], place: number, told: Told = {}) {
  return doubtful(tests, { doubt: 0.99, ...told }).get(place)
}

describe('rate of change between two readings', () => {
  it.each([
    // Worked by hand: (D - 1.96 sqrt((0.05 a)^2 + (0.05 b)^2)) / minutes.
    [100, 120, 10, 0.469],
    [85, 190, 12, 7.05],
    [100, 130, 5, 2.785],
    [140, 70, 20, 2.733],
    [250, 180, 30, 1.327],
    [100, 104, 5, 0],
  ])('from %d to %d in %d minutes is %d mg/dL a minute', (first, second, minutes, rate) => {
    expect(adjustedRate(first, second, minutes)).toBeCloseTo(rate, 3)
  })
})

describe('‘faster than glucose changes’', () => {
  const pair = (minutes: number, second: number): Test[] => [
    ['2026-03-08 07:00', 85],
    [`2026-03-08 0${7 + Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`, second],
  ]

  it('speaks from above 4 mg/dL a minute on, noise of both taken off', () => {
    const reasons = reasonsOf(pair(12, 190), 1)
    expect(codesOf(reasons)).toEqual(['faster-than-glucose-changes'])
    expect(reasons?.[0].evidence).toMatchObject({
      other: 0,
      otherMgDl: 85,
      minutes: -12,
      fastestPerMinute: 4,
    })
    // 0.098 x sqrt(85^2 + 140^2) = 16.05; (55 - 16.05) / 12 = 3.2.
    expect(reasonsOf(pair(12, 140), 1)).toEqual([])
  })

  it('looks an hour far', () => {
    expect(codesOf(reasonsOf(pair(60, 400), 1))).toEqual(['faster-than-glucose-changes'])
    expect(reasonsOf(pair(61, 400), 1)).toEqual([])
  })

  it('leaves the repeat set to the contradiction, and trial steps and sensors out', () => {
    expect(codesOf(reasonsOf(pair(9, 190), 1))).toEqual(['contradicted-by-repeat'])
    for (const flags of [FLAG.changedConditions, FLAG.sensor]) {
      expect(
        reasonsOf(
          [
            ['2026-03-08 07:00', 85, { flags }],
            ['2026-03-08 07:12', 190],
          ],
          1,
        ),
      ).toEqual([])
    }
  })
})

describe('‘unlike neighbours’', () => {
  it('is a reading outside the expected range, its ends included', () => {
    const at = (value: number) =>
      codesOf(reasonsOf([['2026-03-08 07:00', value]], 0, { expected: [100, 160] }))
    expect(at(161)).toEqual(['unlike-neighbours'])
    expect(at(99)).toEqual(['unlike-neighbours'])
    expect(at(160)).toEqual([])
    expect(at(100)).toEqual([])
  })

  it('says nothing where the model expects nothing', () => {
    expect(reasonsOf([['2026-03-08 07:00', 250]], 0, { expected: [NaN, NaN] })).toEqual([])
  })
})

describe('‘note tells of technique’', () => {
  it('names word, class and direction of the likeliest mistake', () => {
    const note = 'hands not washed, juice on finger'
    expect(reasonsOf([['2026-03-08 07:00', 250, { note }]], 0)).toEqual([
      {
        code: 'note-tells-of-technique',
        evidence: { word: 'juice on finger', class: 'sugar-on-finger', direction: 'too-high' },
      },
    ])
  })

  it('does not flag by itself', () => {
    expect(doubtful([['2026-03-08 07:00', 250, { note: 'juice on finger' }]]).size).toBe(0)
  })

  it('raises the odds of a fault in its own direction alone', () => {
    expect(noteOdds(readNote('juice on finger'), 'too-high')).toBeGreaterThan(10)
    expect(noteOdds(readNote('juice on finger'), 'too-low')).toBe(1)
    expect(noteOdds(readNote('wet finger'), 'too-low')).toBeGreaterThan(1)
    expect(noteOdds(readNote('squeezed'), 'too-high')).toBe(noteOdds(readNote('squeezed'), 'too-low'))
    expect(noteOdds(readNote('washed and dried'), 'too-high')).toBeLessThan(1)
    expect(noteOdds(readNote('washed, finger still wet'), 'too-low')).toBeGreaterThan(1)
  })
})

describe('‘strip out of date’', () => {
  const strips = [{ lot: '4711', expires: '2026-03-31' }]

  it('begins on the day after the date, and flags alone', () => {
    const found = doubtful(
      [
        ['2026-03-31 23:59', 120],
        ['2026-04-01 00:01', 120],
      ],
      { equipment: { strips } },
    )
    expect([...found.keys()]).toEqual([1])
    expect(found.get(1)?.[0].evidence).toMatchObject({ limit: 'expiry', daysPast: 1, lot: '4711' })
  })

  it('counts the days since opening by the leaflet', () => {
    const opened = [{ opened: '2026-03-01', daysOnceOpen: 90 }]
    const found = doubtful(
      [
        ['2026-05-30 12:00', 120],
        ['2026-05-31 12:00', 120],
      ],
      { equipment: { strips: opened } },
    )
    expect([...found.keys()]).toEqual([1])
    expect(found.get(1)?.[0].evidence).toMatchObject({ limit: 'once-open', daysPast: 1 })
  })

  it('ends with the vial: finished, or the next one opened', () => {
    const tests: Test[] = [
      ['2026-04-05 12:00', 120],
      ['2026-04-12 12:00', 120],
    ]
    const old = { expires: '2026-03-31', opened: '2026-02-01' }
    const keys = (list: EquipmentTold['strips']) => [
      ...doubtful(tests, { equipment: { strips: list } }).keys(),
    ]
    expect(keys([{ ...old, finished: '2026-04-10' }])).toEqual([0])
    expect(keys([old, { expires: '2027-01-31', opened: '2026-04-10' }])).toEqual([0])
  })

  it('speaks of the vial’s own meter', () => {
    const isOfMeter = (told: string | undefined, meter: number) => told === undefined || meter === 1
    const tests: Test[] = [
      ['2026-04-05 12:00', 120, { meter: 'A' }],
      ['2026-04-06 12:00', 120, { meter: 'B' }],
    ]
    const found = doubtful(tests, { equipment: { strips: [{ ...strips[0], meter: 'B' }], isOfMeter } })
    expect([...found.keys()]).toEqual([1])
  })

  it('doubts a low too, which stays a low', () => {
    expect(doubtful([['2026-04-02 12:00', 60]], { equipment: { strips } }).size).toBe(1)
  })
})

describe('‘failed control’', () => {
  const control = (date: string, result: number) => ({
    date,
    result,
    range: [100, 140] as const,
    unit: 'mg/dL' as const,
  })
  const DAYS: Test[] = ['01', '05', '10', '15', '20'].map((day) => [`2026-04-${day} 12:00`, 125])

  it('casts doubt back to the last passed one and on to the next', () => {
    const controls = [control('2026-04-05', 120), control('2026-04-12', 160), control('2026-04-18', 118)]
    const found = doubtful(DAYS, { equipment: { controls } })
    expect([...found.keys()]).toEqual([2, 3])
    expect(found.get(2)?.[0]).toMatchObject({
      code: 'failed-control',
      evidence: { resultMgDl: 160, rangeLowMgDl: 100, rangeHighMgDl: 140 },
    })
  })

  it('reaches back 90 days where none passed, as long as an opened vial keeps', () => {
    const old: Test[] = [
      ['2026-01-11 12:00', 120],
      ['2026-01-12 12:00', 120],
    ]
    expect([...doubtful(old, { equipment: { controls: [control('2026-04-12', 90)] } }).keys()]).toEqual([1])
  })

  it('is taken back by one that passes later the same day', () => {
    const controls = [control('2026-04-05', 120), control('2026-04-12', 160), control('2026-04-12', 118)]
    expect([...doubtful(DAYS, { equipment: { controls } }).keys()]).toEqual([2])
  })

  it('concerns the vial that was tested', () => {
    const strips = [
      { vial: 'one', opened: '2026-04-01', finished: '2026-04-07' },
      { vial: 'two', opened: '2026-04-08' },
    ]
    const controls = [{ ...control('2026-04-12', 160), vial: 'two' }]
    expect([...doubtful(DAYS, { equipment: { controls, strips } }).keys()]).toEqual([2, 3, 4])
  })

  it('knows the passed one whichever way meter and vial are written', () => {
    const isOfMeter = (told: string | undefined) => told === undefined || told.toLowerCase() === 'kitchen'
    const failed = { ...control('2026-04-12', 160), meter: 'Kitchen', vial: 'Two' }
    for (const passed of [{ meter: 'kitchen', vial: 'two' }, { vial: 'Two' }]) {
      const controls = [{ ...control('2026-04-05', 120), ...passed }, failed]
      expect([...doubtful(DAYS, { equipment: { controls, isOfMeter } }).keys()]).toEqual([2, 3, 4])
    }
    const ofOther = { ...control('2026-04-05', 120), meter: 'bag', vial: 'Two' }
    expect(doubtful(DAYS, { equipment: { controls: [ofOther, failed], isOfMeter } }).size).toBe(5)
  })

  it('says on which side it failed', () => {
    const side = (result: number) =>
      doubtful(DAYS, { equipment: { controls: [control('2026-04-12', result)] } }).get(0)?.[0].evidence
    expect(side(160)).toMatchObject({ side: 'too-high', vial: null })
    expect(side(80)).toMatchObject({ side: 'too-low' })
  })

  /** A test at noon on every day from the first of January, so many. */
  const everyDay = (days: number): Test[] =>
    Array.from({ length: days }, (_, i) => [
      `${new Date(Date.UTC(2026, 0, 1 + i)).toISOString().slice(0, 10)} 12:00`,
      125,
    ])
  /** First and last of the days that are doubtful, all between them being so. */
  const stretch = (days: number, equipment: Partial<EquipmentTold>) => {
    const keys = [...doubtful(everyDay(days), { equipment })]
      .filter(([, reasons]) => reasons.some(({ code }) => code === 'failed-control'))
      .map(([key]) => key)
    if (keys.length === 0) return null
    expect(keys).toHaveLength(keys[keys.length - 1] - keys[0] + 1)
    const isoDay = (key: number) => new Date(Date.UTC(2026, 0, 1 + key)).toISOString().slice(0, 10)
    return [isoDay(keys[0]), isoDay(keys[keys.length - 1])]
  }

  it('without a vial’s name or opening reaches no further than a vial lasts, either way', () => {
    // 90 days before 1 July is 2 April, 90 days after it 29 September.
    expect(stretch(365, { controls: [control('2026-07-01', 160)] })).toEqual(['2026-04-02', '2026-09-29'])
    // After all readings, and before them.
    expect(stretch(100, { controls: [control('2026-05-01', 160)] })).toEqual(['2026-01-31', '2026-04-10'])
    expect(stretch(200, { controls: [control('2025-12-31', 160)] })).toEqual(['2026-01-01', '2026-03-31'])
    expect(stretch(100, { controls: [control('2027-01-01', 160)] })).toBeNull()
  })

  it('counts on from the pass that shows the vial open', () => {
    // The pass of 1 March: open by then, so no longer than 90 days after it.
    expect(stretch(365, { controls: [control('2026-03-01', 120), control('2026-03-20', 160)] })).toEqual([
      '2026-03-02',
      '2026-05-30',
    ])
  })

  it.each([
    ['three months from opening', {}, ['2026-03-05', '2026-06-03']],
    ['less where the leaflet says so', { daysOnceOpen: 30 }, ['2026-03-05', '2026-04-04']],
    ['not more where it allows more', { daysOnceOpen: 180 }, ['2026-03-05', '2026-06-03']],
    ['until it was finished', { finished: '2026-03-31' }, ['2026-03-05', '2026-03-31']],
  ] as const)('speaks of its vial %s', (_, told, days) => {
    for (const name of [{ vial: 'two' }, { lot: 'TWO' }]) {
      const strips = [{ ...name, opened: '2026-03-05', ...told }]
      expect(stretch(365, { strips, controls: [{ ...control('2026-03-20', 160), vial: 'two' }] })).toEqual(
        days,
      )
    }
  })

  it('that names no vial speaks of the one in use that day', () => {
    const strips = [{ opened: '2026-01-10' }, { opened: '2026-02-20' }, { opened: '2026-04-15' }]
    const failed = control('2026-03-20', 160)
    expect(stretch(365, { strips, controls: [failed] })).toEqual(['2026-02-20', '2026-04-15'])
    // A control of the first vial that passed says nothing of the second.
    expect(stretch(365, { strips, controls: [control('2026-02-10', 120), failed] })).toEqual([
      '2026-02-20',
      '2026-04-15',
    ])
    // One that passed with the same vial does, by whatever name.
    expect(stretch(365, { strips, controls: [control('2026-03-01', 120), failed] })).toEqual([
      '2026-03-02',
      '2026-04-15',
    ])
  })

  it('of a vial used longer than it lasts keeps to a vial’s days before it', () => {
    const strips = [{ vial: 'old', opened: '2026-01-01', finished: '2026-07-10' }]
    const controls = [{ ...control('2026-07-01', 160), vial: 'old' }]
    expect(stretch(365, { strips, controls })).toEqual(['2026-04-02', '2026-07-10'])
  })

  it('takes a vial that is tested to be in use, whichever was opened since', () => {
    const strips = [{ vial: 'old' }, { vial: 'new', opened: '2026-02-01' }]
    const controls = [{ ...control('2026-03-01', 160), vial: 'old' }]
    expect(stretch(365, { strips, controls })).toEqual(['2026-01-01', '2026-03-01'])
  })

  it('speaks of its meter alone; where none is named, of the meter of its vial, else of all', () => {
    const tests: Test[] = [
      ['2026-04-10 12:00', 125, { meter: 'A' }],
      ['2026-04-10 18:00', 125, { meter: 'B' }],
    ]
    const isOfMeter = (told: string | undefined, meter: number) =>
      told === undefined || meter === 'AB'.indexOf(told)
    const keys = (equipment: Partial<EquipmentTold>) => [
      ...doubtful(tests, { equipment: { isOfMeter, ...equipment } }).keys(),
    ]
    const failed = control('2026-04-12', 160)
    expect(keys({ controls: [failed] })).toEqual([0, 1])
    expect(keys({ controls: [{ ...failed, meter: 'B' }] })).toEqual([1])
    expect(keys({ controls: [{ ...failed, vial: 'x' }], strips: [{ vial: 'x', meter: 'B' }] })).toEqual([1])
    // A pass of the other meter clears nothing.
    expect(keys({ controls: [{ ...control('2026-04-11', 120), meter: 'A' }, failed] })).toEqual([1])
  })

  it('of two that fail, the nearest speaks; within the days of one vial they are one cause', () => {
    const causes = (controls: EquipmentTold['controls']) => {
      const found = doubtful(everyDay(300), { equipment: { controls } })
      const told = [...found.values()].map(
        ([{ evidence }]) => evidence as { failedOn: number; cause: number },
      )
      return [
        ...new Set(
          told.map(
            ({ failedOn, cause }) => `${new Date(failedOn * 864e5).toISOString().slice(0, 10)} ${cause}`,
          ),
        ),
      ]
    }
    const first = control('2026-04-01', 160)
    // In the kit's list the later one may stand first.
    expect(causes([control('2026-04-20', 80), first])).toEqual(['2026-04-01 1', '2026-04-20 1'])
    expect(causes([first, control('2026-04-10', 120), control('2026-04-20', 80)])).toEqual([
      '2026-04-01 0',
      '2026-04-20 2',
    ])
    expect(causes([first, control('2026-08-01', 80)])).toEqual(['2026-04-01 0', '2026-08-01 1'])
  })

  it.each([100, 140])('passes at the end of its range: %d', (result) => {
    expect(doubtful(DAYS, { equipment: { controls: [control('2026-04-12', result)] } }).size).toBe(0)
  })
})

describe('‘outside working temperature’', () => {
  const at = (note: string, equipment: Partial<EquipmentTold> = {}) =>
    codesOf(doubtful([['2026-03-08 07:00', 120, { note }]], { equipment }).get(0))

  it('flags alone below 10 and above 40 °C', () => {
    expect(at('9 °C')).toEqual(['outside-working-temperature'])
    expect(at('10 °C')).toBeUndefined()
    expect(at('meter at 40 °C')).toBeUndefined()
    expect(at('meter at 41 °C')).toContain('outside-working-temperature')
  })

  it('goes by the strips’ own limits where these are told', () => {
    expect(at('7 °C', { strips: [{ workingCelsius: [5, 45] }] })).toBeUndefined()
    expect(at('4 °C', { strips: [{ workingCelsius: [5, 45] }] })).toEqual(['outside-working-temperature'])
  })
})

describe('‘looks like control solution’', () => {
  const controls = [{ date: '2026-03-08', result: 121, range: [100, 140] as const, unit: 'mg/dL' as const }]
  const found = (tests: readonly Test[]) => [...doubtful(tests, { equipment: { controls } }).keys()]

  it('flags a reading whose tag names a level of control', () => {
    for (const note of ['ctrl', 'QC', 'control L2', 'Kontrolle Stufe 1']) {
      expect(codesOf(doubtful([['2026-03-08 07:00', 121, { note }]]).get(0))).toEqual([
        'looks-like-control-solution',
      ])
    }
    for (const note of ['control', 'Kontrolle', 'under control', 'qcumber']) {
      expect(doubtful([['2026-03-08 07:00', 121, { note }]]).size).toBe(0)
    }
  })

  it('flags the one reading of that day with the very value of the control test', () => {
    expect(
      found([
        ['2026-03-08 07:00', 121],
        ['2026-03-08 12:00', 122],
      ]),
    ).toEqual([0])
    expect(found([['2026-03-09 07:00', 121]])).toEqual([])
    // Two of the same value: neither is known to be it.
    expect(
      found([
        ['2026-03-08 07:00', 121],
        ['2026-03-08 12:00', 121],
      ]),
    ).toEqual([])
    expect(found([['2026-03-08 07:00', 121, { meal: 'before breakfast' }]])).toEqual([])
    expect(found([['2026-03-08 07:00', 121, { unit: 'mmol/L' }]])).toEqual([])
  })
})

describe('‘looks like the other unit’', () => {
  const usual: Test[] = [110, 121, 130, 138, 142, 149, 158, 171, 185, 190].map((value, i) => [
    `2026-02-${String(i + 1).padStart(2, '0')} 07:00`,
    value,
  ])

  it('is a value that fits the others only after conversion', () => {
    const reasons = reasonsOf([...usual, ['2026-03-08 07:00', 7.8]], 10)
    expect(codesOf(reasons)).toEqual(['looks-like-other-unit'])
    // 7.8 x 18.0156.
    expect((reasons?.[0].evidence as { asOtherUnitMgDl: number }).asOtherUnitMgDl).toBeCloseTo(140.52, 2)
    expect(reasonsOf([...usual, ['2026-03-08 07:00', 60]], 10) ?? []).toEqual([])
    expect(reasonsOf([...usual, ['2026-03-08 07:00', 140]], 10)).toEqual([])
  })

  it('needs ten readings to know what is usual', () => {
    expect(reasonsOf([...usual.slice(0, 8), ['2026-03-08 07:00', 7.8]], 8)).toBeUndefined()
  })
})

describe('‘at the measuring limit’', () => {
  it.each([
    [600, 'mg/dL', 0, true],
    [599, 'mg/dL', 0, false],
    [33.3, 'mmol/L', 0, true],
    [500, 'mg/dL', FLAG.aboveRange, true],
  ] as const)('%d %s with flags %d: %s', (value, unit, flags, speaks) => {
    const reasons = reasonsOf([['2026-03-08 07:00', value, { unit, flags }]], 0)
    expect(codesOf(reasons)).toEqual(speaks ? ['at-measuring-limit'] : [])
  })
})

describe('a low', () => {
  const LOW = '2026-03-08 07:00'

  it.each<{ why: string; tests: Test[]; told?: Told }>([
    { why: 'its neighbours', tests: [[LOW, 52]], told: { expected: [100, 160] } },
    {
      why: 'the rate of change',
      tests: [
        [LOW, 52],
        ['2026-03-08 07:12', 190],
      ],
    },
    { why: 'the meter’s limit', tests: [[LOW, 20, { flags: FLAG.belowRange }]] },
    {
      why: 'the value of a control test',
      tests: [[LOW, 52]],
      told: { equipment: { controls: [{ date: '2026-03-08', result: 52, range: [40, 60], unit: 'mg/dL' }] } },
    },
    { why: 'sugar on the finger, which would hide it', tests: [[LOW, 52, { note: 'juice on finger' }]] },
    { why: 'a doubt without any reason', tests: [[LOW, 52]] },
  ])('is not flagged by $why alone, whatever its doubt', ({ tests, told }) => {
    expect(doubtful(tests, { doubt: 1, ...told }).has(0)).toBe(false)
  })

  it('is flagged by these beside a repeat, or by a note that explains it', () => {
    expect(
      codesOf(
        reasonsOf(
          [
            [LOW, 52],
            ['2026-03-08 07:03', 140],
          ],
          0,
        ),
      ),
    ).toEqual(['contradicted-by-repeat'])
    expect(codesOf(reasonsOf([[LOW, 52, { note: 'wet finger' }]], 0, { expected: [100, 160] }))).toEqual([
      'note-tells-of-technique',
      'unlike-neighbours',
    ])
    expect(codesOf(doubtful([[LOW, 52, { note: 'control L1' }]]).get(0))).toEqual([
      'looks-like-control-solution',
    ])
  })

  it('keeps its higher bar', () => {
    const tests: Test[] = [
      [LOW, 52],
      ['2026-03-08 07:03', 140],
    ]
    const bar = DEFAULT_SETTINGS.doubtThresholdLow
    expect([...doubtful(tests, { doubt: bar - 0.01 }).keys()]).toEqual([1])
    expect([...doubtful(tests, { doubt: bar }).keys()]).toEqual([0, 1])
  })
})

describe('a sensor’s reading', () => {
  it('has no doubt', () => {
    const strips = [{ expires: '2026-01-31' }]
    const tests: Test[] = [['2026-03-08 07:00', 120, { flags: FLAG.sensor }]]
    expect(doubtful(tests, { doubt: 1, equipment: { strips } }).size).toBe(0)
  })
})
