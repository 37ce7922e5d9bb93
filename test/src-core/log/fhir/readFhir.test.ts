import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../../src-core/analysis/analysis'
import { openVisit } from '../../../../src-core/analysis/openVisit'
import { fhirBundle } from '../../../../src-core/exchange/fhirBundle'
import { reportJson } from '../../../../src-core/exchange/reportJson'
import { setAsideByReason } from '../../../../src-core/log/logReport'
import type { LogAnswers, LogSource } from '../../../../src-core/log/logSource'
import { FLAG, momentText } from '../../../../src-core/log/readings'
import { waysToRead } from '../../../../src-core/log/waysToRead'
import { ENGLISH } from '../../../../src-core/wording/english'
import { CONTEXT, logbookOf, logOf, refusalsOf, refusalTold } from '../../../helpers/logs'

const LOINC = 'http://loinc.org'
const UCUM = 'http://unitsofmeasure.org'

/** A finger-stick of another program, with what is given in place. */
function observation(given: Record<string, unknown> = {}): Record<string, unknown> {
  return {
    resourceType: 'Observation',
    status: 'final',
    code: { coding: [{ system: LOINC, code: '41653-7' }] },
    effectiveDateTime: '2026-03-02T07:10:00+01:00',
    valueQuantity: { value: 104, unit: 'mg/dL', system: UCUM, code: 'mg/dL' },
    ...given,
  }
}

function bundle(...resources: Record<string, unknown>[]): string {
  return JSON.stringify({
    resourceType: 'Bundle',
    type: 'searchset',
    entry: resources.map((resource) => ({ resource })),
  })
}

function read(text: string | LogSource, answers: LogAnswers = {}) {
  const { sources, readings } = logbookOf([text], answers)
  const [report] = sources
  expect(report.rows.total).toBe(report.rows.accepted + report.rows.setAside)
  expect(report.rows.accepted).toBe(readings.n)
  return { report, readings }
}

/** What became of one Observation beside a sound one: the reason, null where it is a reading. */
function fateOf(given: Record<string, unknown>): string | null {
  const sound = observation({ effectiveDateTime: '2026-03-01T06:00:00+01:00' })
  const { report } = read(bundle(sound, observation(given)))
  expect(report.rows.total).toBe(2)
  return report.setAside.at(0)?.reason ?? null
}

function one(given: Record<string, unknown>) {
  const { readings } = read(bundle(observation(given)))
  return {
    at: momentText(readings, 0),
    value: readings.logged[0],
    unit: (readings.flags[0] & FLAG.mmol) > 0 ? 'mmol/L' : 'mg/dL',
    offset: readings.flags[0] & FLAG.offset ? readings.offsetMinutes[0] : null,
    below: (readings.flags[0] & FLAG.belowRange) > 0,
    above: (readings.flags[0] & FLAG.aboveRange) > 0,
    sensor: (readings.flags[0] & FLAG.sensor) > 0,
    meal: readings.meal(0),
    note: readings.note(0),
    meter: readings.meters[readings.meter[0]],
  }
}

const quantity = (value: unknown, more: Record<string, unknown> = {}) => ({
  valueQuantity: { value, unit: 'mg/dL', ...more },
})

describe('a file of HL7 FHIR is a log', () => {
  it('the standard’s own example of glucose is read: 6.3 mmol/L, LOINC 15074-8, with the start of its period', () => {
    // Of Observation example f001 (hl7.org/fhir/R4/observation-example-f001-glucose.json), written from memory of it.
    const example = JSON.stringify(
      {
        resourceType: 'Observation',
        id: 'f001',
        identifier: [
          { use: 'official', system: 'http://www.bmc.nl/zorgportal/identifiers/observations', value: '6323' },
        ],
        status: 'final',
        code: {
          coding: [{ system: LOINC, code: '15074-8', display: 'Glucose [Moles/volume] in Blood' }],
        },
        subject: { reference: 'Patient/f001', display: 'P. van de Heuvel' },
        effectivePeriod: { start: '2013-04-02T09:30:10+01:00' },
        issued: '2013-04-03T15:30:10+01:00',
        performer: [{ reference: 'Practitioner/f005', display: 'A. Langeveld' }],
        valueQuantity: { value: 6.3, unit: 'mmol/l', system: UCUM, code: 'mmol/L' },
        interpretation: [{ coding: [{ code: 'H', display: 'High' }] }],
        referenceRange: [{ low: { value: 3.1 }, high: { value: 6.2 } }],
      },
      null,
      2,
    )
    const { report, readings } = read(example)
    expect(report.rows).toEqual({ total: 1, accepted: 1, setAside: 0 })
    expect(momentText(readings, 0)).toBe('2013-04-02T09:30:10')
    expect([readings.logged[0], readings.offsetMinutes[0]]).toEqual([6.3, 60])
  })

  it('with the unit by code, by text, or by what LOINC’s code implies', () => {
    expect(one({})).toMatchObject({ value: 104, unit: 'mg/dL', offset: 60, at: '2026-03-02T07:10' })
    expect(one({ valueQuantity: { value: 5.8, code: 'mmol/L' } })).toMatchObject({
      value: 5.8,
      unit: 'mmol/L',
    })
    expect(one({ valueQuantity: { value: 5.8, unit: 'mmol/l' } })).toMatchObject({ unit: 'mmol/L' })
    // 14743-9 is of moles in a volume.
    expect(
      one({ code: { coding: [{ system: LOINC, code: '14743-9' }] }, valueQuantity: { value: 5.8 } }),
    ).toMatchObject({ unit: 'mmol/L' })
    // 1 g/L is 100 mg/dL.
    expect(one({ valueQuantity: { value: 1.04, unit: 'g/L' } })).toMatchObject({ value: 104, unit: 'mg/dL' })
    expect(one({ valueQuantity: undefined, valueString: '5.8 mmol/L' })).toMatchObject({
      value: 5.8,
      unit: 'mmol/L',
    })
    expect(one(quantity('104'))).toMatchObject({ value: 104 })
    expect(one({ valueQuantity: undefined, valueInteger: 104 })).toMatchObject({ value: 104, unit: 'mg/dL' })
  })

  it('with LO and HI by comparator, by interpretation or by word', () => {
    expect(one(quantity(20, { comparator: '<' }))).toMatchObject({ value: 20, below: true })
    expect(one(quantity(600, { comparator: '>=' }))).toMatchObject({ value: 600, above: true })
    const offScale = (code: string) => ({
      valueQuantity: undefined,
      dataAbsentReason: { coding: [{ code: 'unknown' }] },
      interpretation: [{ coding: [{ code }] }],
    })
    // What a LO without a limit counts as: 20 mg/dL.
    expect(one(offScale('<'))).toMatchObject({ value: 20, below: true })
    expect(one(offScale('>'))).toMatchObject({ value: 600, above: true })
    expect(one({ valueQuantity: undefined, valueString: 'LO' })).toMatchObject({ below: true })
  })

  it('with its time by instant, period, clock time beside a day, or the day alone', () => {
    const at = (given: Record<string, unknown>) => one({ effectiveDateTime: undefined, ...given }).at
    // Noon UTC is 13:00 in Berlin in winter.
    expect(at({ effectiveInstant: '2026-03-02T12:00:00Z' })).toBe('2026-03-02T13:00')
    expect(
      at({ effectivePeriod: { start: '2026-03-02T12:00:00+01:00', end: '2026-03-02T12:01:00+01:00' } }),
    ).toBe('2026-03-02T12:00')
    const component = [{ code: { text: 'Uhrzeit' }, valueTime: '07:10:30' }]
    expect(at({ effectiveDateTime: '2026-03-02', component })).toBe('2026-03-02T07:10:30')
    expect(at({ effectiveDateTime: '2026-03-02' })).toBe('2026-03-02')
    // Not valid, and often written.
    expect(one({ effectiveDateTime: '2026-03-02T07:10:00' }).offset).toBeNull()
    expect(fateOf({ effectiveDateTime: undefined, issued: '2026-03-02T07:10:00Z' })).toBe('empty-date')
    for (const part of ['2026-03', '2026', '2026-02-30', 'yesterday', '2026-03-02T25:00:00Z'])
      expect(fateOf({ effectiveDateTime: part })).toBe('unreadable-date')
  })

  it('with the meter by reference before or behind, by words, or contained', () => {
    const device = {
      resourceType: 'Device',
      id: 'm1',
      deviceName: [{ name: 'kitchen', type: 'user-friendly-name' }],
    }
    const reading = observation({ device: { reference: 'Device/m1' } })
    for (const text of [bundle(device, reading), bundle(reading, device)])
      expect(read(text).readings.meters).toEqual(['kitchen'])
    expect(one({ device: { display: 'bag' } }).meter).toBe('bag')
    expect(one({ device: { reference: '#d' }, contained: [{ ...device, id: 'd' }] }).meter).toBe('kitchen')
    expect(one({ device: { reference: 'Device/unknown-7' } }).meter).toBe('unknown-7')
  })

  it('with meals by code or words, and notes', () => {
    const meal = (coding: unknown, text?: string) =>
      one({ component: [{ code: { text: 'x' }, valueCodeableConcept: { coding: [coding], text } }] }).meal
    const timing = 'http://terminology.hl7.org/CodeSystem/v3-TimingEvent'
    expect(meal({ system: timing, code: 'ACM' })).toBe('before breakfast')
    expect(meal({ system: timing, code: 'PCD' }, 'nach dem Mittag')).toBe('nach dem Mittag')
    expect(meal({ system: 'http://snomed.info/sct', code: '307165006', display: 'Before meal' })).toBe(
      'Before meal',
    )
    expect(one({ note: [{ text: 'ran late' }, { text: 'tired' }] }).note).toBe('ran late; tired')
  })

  it('a line of NDJSON each, told by their lines; one that is broken is set aside and may be a low', () => {
    const lines = [observation(), observation({ effectiveDateTime: '2026-03-03T07:10:00+01:00' })].map(
      (each) => JSON.stringify(each),
    )
    const { report, readings } = read(`${lines[0]}\n\n{"resourceType":"Observation","st\n${lines[1]}\n`)
    expect(Array.from(readings.line)).toEqual([1, 4])
    expect(report.setAside).toMatchObject([{ line: 3, reason: 'unreadable-value', maybeLow: true }])
  })

  it('in whatever pieces its bytes come', () => {
    const text = JSON.stringify(
      {
        resourceType: 'Bundle',
        note: 'a \\ "quoted" { [ text',
        entry: [
          { resource: observation({ note: [{ text: '}]{"\\' }] }) },
          { resource: observation({ effectiveDateTime: '2026-03-03T07:10:00+01:00' }) },
        ],
      },
      null,
      1,
    )
    for (const size of [1, 2, 3, 7, 64, 1000]) {
      const { readings } = read(logOf(text, 'log.json', size))
      expect(Array.from(readings.line)).toEqual([1, 2])
      expect(readings.note(0)).toBe('}]{"\\')
    }
  })
})

describe('an Observation that is no reading is set aside with its reason', () => {
  const coded = (code: string) => ({ code: { coding: [{ system: LOINC, code }] } })
  it.each([
    ['of a laboratory', coded('2345-7'), 'laboratory'],
    ['of hemoglobin', { code: { text: 'Hemoglobin A1c' }, ...quantity(7, { unit: '%' }) }, 'not-glucose'],
    ['of glucose in urine', { code: { text: 'Glucose in urine' } }, 'not-glucose'],
    // LOINC 8867-4: heart rate
    ['of another code', { ...coded('8867-4'), ...quantity(104, { unit: '/min' }) }, 'not-glucose'],
    ['of a sensor’s period', coded('97507-8'), 'derived'],
    ['of a unit that is none of glucose', quantity(104, { unit: 'mmol/mol' }), 'not-glucose'],
    ['entered in error', { status: 'entered-in-error' }, 'withdrawn'],
    ['cancelled', { status: 'cancelled' }, 'withdrawn'],
    [
      'without a value',
      { valueQuantity: undefined, dataAbsentReason: { coding: [{ code: 'error' }] } },
      'empty-value',
    ],
    ['of two units', quantity(5.8, { unit: 'mmol/L', code: 'mg/dL' }), 'unreadable-value'],
    ['of a value that is no number', quantity({ a: 1 }), 'unreadable-value'],
    ['of samples', { valueQuantity: undefined, valueSampledData: { data: '1 2' } }, 'unreadable-value'],
    ['of a value that no meter shows', quantity(99_999), 'impossible-value'],
    ['of control solution', { note: [{ text: 'control solution' }] }, 'control-solution'],
    ['of the future', { effectiveDateTime: '2027-03-02T07:10:00+01:00' }, 'future-date'],
    ['the same again', { effectiveDateTime: '2026-03-01T06:00:00+01:00' }, 'duplicate'],
  ])('%s', (_, given, reason) => {
    expect(fateOf(given)).toBe(reason)
  })

  it.each([
    ['of a laboratory', coded('2345-7')],
    // A code that is not known, of something that calls itself glucose.
    ['of an unknown glucose', { code: { coding: [{ system: LOINC, code: '53049-3' }], text: 'Glucose' } }],
    ['entered in error', { status: 'entered-in-error' }],
  ])('%s, is told as a low that is not counted where it may be one', (_, given) => {
    const low = observation({ ...quantity(50), ...given, effectiveDateTime: '2026-03-04' })
    expect(read(bundle(observation(), low)).report.setAside).toMatchObject([{ maybeLow: true }])
  })

  it('derived from readings of the file, and counted where they are not in it', () => {
    const first = { ...observation(), id: 'a' }
    const mean = observation({
      effectiveDateTime: '2026-03-02T07:12:00+01:00',
      derivedFrom: [{ reference: 'Observation/a' }],
    })
    expect(read(bundle(first, mean)).report.setAside).toMatchObject([{ line: 2, reason: 'derived' }])
    expect(read(bundle(mean)).readings.n).toBe(1)
  })

  it('interstitial readings are a sensor’s, by code or by words', () => {
    expect(one(coded('99504-3')).sensor).toBe(true)
    expect(one({ code: { text: 'Glucose in interstitial fluid' } }).sensor).toBe(true)
    expect(one({}).sensor).toBe(false)
  })
})

describe('readings of several people', () => {
  const patient = (id: string, name: string) => ({ resourceType: 'Patient', id, name: [{ text: name }] })
  const of = (id: string, day: number) =>
    observation({
      subject: { reference: `Patient/${id}` },
      effectiveDateTime: `2026-03-0${day}T07:10:00+01:00`,
    })
  const text = bundle(patient('1', 'Anna B.'), patient('2', 'Carl D.'), of('1', 1), of('2', 2), of('1', 3))

  it('are asked about, and the answer sets the others aside', () => {
    const [refusal] = refusalsOf(text)
    expect(refusalTold(refusal)).toContain('2 people')
    expect(refusalTold(refusal)).not.toContain('Anna')
    const answers = refusal.question?.choices.map(({ answer }) => answer)
    expect(answers).toEqual(['kind=subject:Anna B.', 'kind=subject:Carl D.'])
    const { report } = read(text, { columns: answers?.[0] ?? '' })
    expect(report.rows).toEqual({ total: 3, accepted: 2, setAside: 1 })
  })

  it('of one name are told apart by their address', () => {
    const twins = bundle(patient('1', 'Anna'), patient('2', 'Anna'), of('1', 1), of('2', 2))
    expect(refusalsOf(twins)[0].question?.choices.map(({ answer }) => answer)).toEqual([
      'kind=subject:Patient/1',
      'kind=subject:Patient/2',
    ])
  })
})

describe('a text that cannot be read', () => {
  const told = (text: string) => refusalTold(refusalsOf(text)[0])
  it.each([
    ['JSON that is no FHIR', '{"readings":[{"glucose":104}]}', 'not of HL7 FHIR'],
    ['lines of JSON that are no FHIR', '{"a":1}\n{"a":2}\n', 'not of HL7 FHIR'],
    ['an object that never ends', bundle(observation(), observation()).slice(0, -40), 'after 1 entry'],
    ['an end that is missing', bundle(observation()).slice(0, -2), 'after 1 entry'],
    ['a bracket that does not fit', '{"resourceType":"Bundle","entry":[{"resource":{}]}]}', 'breaks off'],
    ['a text behind the end', `${bundle(observation())} x`, 'breaks off'],
    ['a beginning alone', '{', 'breaks off'],
    [
      'a resource of 17 million characters',
      bundle({ resourceType: 'Binary', data: 'A'.repeat(17_000_000) }),
      '16 million characters',
    ],
    ['another resource', '{"resourceType":"Patient"}', 'no Observation'],
    ['an empty Bundle', '{"resourceType":"Bundle","entry":[]}', 'no Observation'],
    ['entries that are none', '{"resourceType":"Bundle","entry":{"a":[1,"entry",[{}]]}}', 'no Observation'],
    ['a type that is no text', '{"resourceType":{"a":1},"entry":[]}', 'not of HL7 FHIR'],
    [
      'no reading among the rows',
      bundle(observation({ status: 'cancelled' })),
      'No row of the log gives a reading',
    ],
  ])('%s is refused with what to do', (_, text, says) => {
    expect(told(text)).toContain(says)
  })

  it('is nested deep, and ends all the same', () => {
    const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`
    const text = bundle(observation()).replace('"final"', `"final","extension":${deep}`)
    const outcome = (() => {
      try {
        return read(text).readings.n
      } catch (error) {
        return (error as Error).message
      }
    })()
    // Whichever the engine can: read, or told to be broken.
    expect([
      1,
      'unreadable-file: The JSON breaks off or cannot be read after 0 entries, and what follows would be missing. Export the file again.',
    ]).toContain(outcome)
    let nested = observation()
    for (let i = 0; i < 50; i++) nested = { resourceType: 'Bundle', entry: [{ resource: nested }] }
    expect(told(JSON.stringify(nested))).toContain('no Observation')
  })

  it('holds keys of every object’s own, which change nothing', () => {
    const text = bundle(observation()).replace(
      '"status"',
      '"__proto__":{"resourceType":"Patient","valueString":"LO"},"constructor":{"prototype":{}},"hasOwnProperty":1,"status"',
    )
    expect(read(text).readings.n).toBe(1)
    expect(({} as Record<string, unknown>).valueString).toBeUndefined()
    expect(fateOf({ code: { coding: [{ system: LOINC, code: '__proto__' }] } })).toBe('not-glucose')
  })

  it('holds anything in the place of anything, and loses no row', () => {
    const anything: unknown[] = [
      null,
      0,
      '',
      'x',
      true,
      [],
      [[]],
      [null],
      {},
      { a: 1 },
      [{ text: 1 }],
      -1e308,
      '\u0000',
    ]
    const keys = [
      'status',
      'code',
      'effectiveDateTime',
      'effectivePeriod',
      'effectiveTiming',
      'valueQuantity',
      'valueString',
    ]
    const more = [
      'note',
      'component',
      'device',
      'subject',
      'interpretation',
      'dataAbsentReason',
      'derivedFrom',
      'contained',
    ]
    const odd = [...keys, ...more].flatMap((key) => anything.map((value) => observation({ [key]: value })))
    const { report } = read(bundle(observation({ effectiveDateTime: '2026-02-02T07:10:00+01:00' }), ...odd))
    expect(report.rows.total).toBe(1 + odd.length)
  })

  it('is the beginning of a longer one where ways to read are shown', () => {
    const many = Array.from({ length: 3000 }, (_, i) =>
      observation({
        effectiveDateTime: `2026-0${1 + (i % 6)}-1${i % 9}T0${i % 9}:${10 + (i % 50)}:00+01:00`,
      }),
    )
    const { ways, isBeginning } = waysToRead(
      logOf(bundle(...many).replaceAll('},{', '}\n,{')),
      { of: 'unit' },
      CONTEXT,
    )
    expect(isBeginning).toBe(true)
    expect(ways.length).toBeGreaterThan(0)
  })
})

describe('what this program wrote', () => {
  function analysed(log: LogSource): Analysis {
    const outcome = openVisit([log], {}, CONTEXT_LATER)
    if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
    return outcome.analysis
  }
  const CONTEXT_LATER = { ...CONTEXT, nowMs: Date.UTC(2027, 0, 1) }
  const written = (analysis: Analysis) =>
    [
      ...fhirBundle(ENGLISH, analysis, {
        program: { name: 'Visit report', version: '1.2.3' },
        madeAtMs: CONTEXT.nowMs,
        label: 'Anna',
        withoutNotes: false,
        pdf: null,
        sha1: (bytes) => createHash('sha1').update(bytes).digest('hex'),
      }),
    ].join('')
  /** The numbers without what names the file and its lines. */
  const numbers = (analysis: Analysis) => {
    const { sources, ...figures } = reportJson(ENGLISH, analysis, { name: '', version: '' })
    void sources
    return JSON.stringify(
      figures,
      (key, value: unknown) => (['source', 'line', 'notCounted'].includes(key) ? undefined : value),
      1,
    )
  }
  const texts = ({ readings }: Analysis) =>
    Array.from({ length: readings.n }, (_, i) =>
      [
        momentText(readings, i),
        readings.logged[i],
        readings.flags[i],
        readings.offsetMinutes[i],
        readings.meters[readings.meter[i]],
        readings.meal(i),
        readings.note(i),
      ].join('|'),
    )
  const ODD_LOG =
    'Timestamp,Glucose (mmol/L),Meal,Note,Meter\n' +
    '2026-03-02T07:10:05+01:00,5.8,vor dem Frühstück,"=1+1; ""quoted"", a <b>",A\n' +
    '2026-03-02T07:12:00+01:00,5.9,,,A\n' +
    '2026-03-02T21:00:00-03:30,LO,,,B\n2026-03-03T21:00:30+01:00,<1.1,,sticky fingers,B\n2026-03-04T21:00:10+01:00,HI,,,B\n2026-03-05T21:00:10+01:00,>33.3,snack,,B\n'

  const LOGS: readonly (readonly [string, string])[] = [
    ...readdirSync('samples')
      .filter((name) => name.endsWith('.csv'))
      .map((name) => [name, readFileSync(`samples/${name}`, 'utf8')] as const),
    ['offsets, markers and notes', ODD_LOG],
    ['days alone', 'Date,Glucose (mg/dL)\n2026-03-02,104\n2026-03-02,60\n2026-03-03,98\n'],
    [
      'instants',
      'Timestamp,Glucose (mg/dL)\n2026-03-02T07:10:05Z,104\n2026-03-29T00:30:07Z,98\n2026-03-29T01:30:09Z,61\n',
    ],
  ]

  it.each(LOGS)('of %s gives the same readings and the same numbers when it is read', (_, csv) => {
    const first = analysed(logOf(csv))
    const again = analysed(logOf(written(first), 'bundle.json'))
    expect(texts(again)).toEqual(texts(first))
    expect(numbers(again)).toBe(numbers(first))
    // The means and figures beside them are none of them readings.
    expect(
      [...setAsideByReason(again.sources[0]).keys()].filter(
        (reason) => !['derived', 'not-glucose'].includes(reason),
      ),
    ).toEqual([])
  })

  it('of a sensor is one’s again', () => {
    const rows = Array.from({ length: 3 * 96 }, (_, i) => {
      const minute = (i % 96) * 15
      const time = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`
      return `2026-03-0${2 + Math.floor(i / 96)},${time},${100 + (i % 90)}`
    })
    const first = analysed(logOf(`Date,Time,Glucose (mg/dL)\n${rows.join('\n')}\n`))
    const again = analysed(logOf(written(first), 'bundle.json'))
    expect(again.periods[0].kind).toBe('sensor')
    expect(numbers(again)).toBe(numbers(first))
  })
})
