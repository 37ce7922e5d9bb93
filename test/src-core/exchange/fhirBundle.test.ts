import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { fhirBundle, type FhirOptions } from '../../../src-core/exchange/fhirBundle'
import { LOINC_GLUCOSE, LOINC_OF_METER } from '../../../src-core/reference/fhir'
import { ENGLISH } from '../../../src-core/wording/english'
import { fhirFaults, hasLoincCheckDigit } from '../../helpers/fhirRules'
import { CONTEXT, logOf } from '../../helpers/logs'

const OPTIONS: FhirOptions = {
  program: { name: 'Visit report', version: '1.2.3' },
  madeAtMs: CONTEXT.nowMs,
  label: '',
  withoutNotes: false,
  pdf: null,
  sha1: (bytes) => createHash('sha1').update(bytes).digest('hex'),
}

interface Resource {
  readonly resourceType: string
  readonly [key: string]: unknown
}
interface Bundle {
  readonly entry: readonly { readonly fullUrl: string; readonly resource: Resource }[]
}

function textOf(analysis: Analysis, options: Partial<FhirOptions> = {}): string {
  return [...fhirBundle(ENGLISH, analysis, { ...OPTIONS, ...options })].join('')
}

function bundleOf(analysis: Analysis, options: Partial<FhirOptions> = {}): Bundle {
  return JSON.parse(textOf(analysis, options)) as Bundle
}

function analysed(csv: string, settings: Parameters<typeof openVisit>[1] = {}): Analysis {
  const outcome = openVisit([logOf(csv)], settings, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
  return outcome.analysis
}

function ofType(bundle: Bundle, type: string): readonly Resource[] {
  return bundle.entry.map(({ resource }) => resource).filter(({ resourceType }) => resourceType === type)
}

/** The Observations of single readings: those with a code of LOINC, and a sensor's. */
function readingsIn(bundle: Bundle): readonly Resource[] {
  return ofType(bundle, 'Observation').filter(({ method }) => method === undefined)
}

const GLUCOSE = 'Date,Time,Glucose (mg/dL)'

describe('a Bundle of HL7 FHIR', () => {
  it.each(readdirSync('samples').filter((name) => name.endsWith('.csv')))(
    'of %s is valid by the schema, by another validator and by the rules that both lack',
    (name) => {
      const bundle = bundleOf(analysed(readFileSync(`samples/${name}`, 'utf8')), {
        label: 'Room <4> & "window"',
        pdf: { url: 'report.pdf', bytes: 12_345, sha1: createHash('sha1').update('x').digest('base64') },
      })
      expect(fhirFaults(bundle)).toEqual([])
    },
  )

  it('holds a reading without a zone as its day and the meter’s clock time, for R4 forbids a time without one', () => {
    const [reading] = readingsIn(
      bundleOf(analysed(`${GLUCOSE}\n2026-03-02,07:10,104\n2026-03-03,07:10,98\n`)),
    )
    expect(reading).toMatchObject({
      status: 'final',
      // LOINC 41653-7: Glucose [Mass/volume] in Capillary blood by Glucometer
      code: { coding: [{ system: 'http://loinc.org', code: '41653-7' }] },
      effectiveDateTime: '2026-03-02',
      valueQuantity: { value: 104, unit: 'mg/dL', system: 'http://unitsofmeasure.org', code: 'mg/dL' },
      component: [{ valueTime: '07:10:00' }],
    })
  })

  it('holds an offset only where the log has one', () => {
    const [reading] = readingsIn(
      bundleOf(
        analysed(
          'Timestamp,Glucose (mmol/L)\n2026-03-02T07:10:05+01:00,5.8\n2026-03-03T07:10:06+01:00,6.1\n',
        ),
      ),
    )
    expect(reading).toMatchObject({
      // LOINC 14743-9: Glucose [Moles/volume] in Capillary blood by Glucometer
      code: { coding: [{ code: '14743-9' }] },
      effectiveDateTime: '2026-03-02T07:10:05+01:00',
      valueQuantity: { value: 5.8, code: 'mmol/L' },
    })
    expect(reading.component).toBeUndefined()
  })

  it('holds a day alone where the log gives no time', () => {
    const bundle = bundleOf(analysed('Date,Glucose (mg/dL)\n2026-03-02,104\n2026-03-03,98\n'))
    const [reading] = readingsIn(bundle)
    expect(reading.effectiveDateTime).toBe('2026-03-02')
    expect(reading.component).toBeUndefined()
    expect(fhirFaults(bundle)).toEqual([])
  })

  it('gives LO and HI with the limit of the log, and no number where it has none', () => {
    const bundle = bundleOf(
      analysed(
        `${GLUCOSE}\n2026-03-02,07:10,<30\n2026-03-03,07:10,LO\n2026-03-04,07:10,HI\n2026-03-05,07:10,>500\n`,
      ),
    )
    const [below, lo, hi, above] = readingsIn(bundle)
    expect(below.valueQuantity).toMatchObject({ value: 30, comparator: '<' })
    expect(above.valueQuantity).toMatchObject({ value: 500, comparator: '>' })
    for (const [marker, text, code] of [
      [lo, 'LO', '<'],
      [hi, 'HI', '>'],
    ] as const) {
      expect(marker.valueQuantity).toBeUndefined()
      expect(marker.dataAbsentReason).toMatchObject({ text })
      // v3-ObservationInterpretation: '<' off scale low, '>' off scale high
      expect(marker.interpretation).toMatchObject([{ coding: [{ code }], text }])
    }
    expect(fhirFaults(bundle)).toEqual([])
  })

  it('gives meals the standard’s own codes beside the log’s words, and words alone where it has none', () => {
    const bundle = bundleOf(
      analysed(
        'Date,Time,Glucose (mg/dL),Meal\n2026-03-02,07:10,104,before breakfast\n2026-03-02,12:10,140,after lunch\n2026-03-02,22:10,120,bedtime\n2026-03-03,07:10,110,snack\n',
      ),
    )
    const meals = readingsIn(bundle).map(
      ({ component }) => (component as Record<string, unknown>[])[1].valueCodeableConcept,
    )
    // v3-TimingEvent: ACM before breakfast, PCD after lunch, HS at bedtime
    expect(meals).toMatchObject([
      { coding: [{ code: 'ACM' }], text: 'before breakfast' },
      { coding: [{ code: 'PCD' }], text: 'after lunch' },
      { coding: [{ code: 'HS' }], text: 'bedtime' },
      { text: 'snack' },
    ])
    expect(meals[3]).not.toHaveProperty('coding')
    expect(fhirFaults(bundle)).toEqual([])
  })

  it('derives a mean of repeats from them, and makes none where one is low', () => {
    const bundle = bundleOf(
      analysed(
        `${GLUCOSE}\n2026-03-02,07:10,104\n2026-03-02,07:12,108\n2026-03-03,07:10,62\n2026-03-03,07:12,66\n`,
      ),
    )
    const means = ofType(bundle, 'Observation').filter(({ derivedFrom }) => derivedFrom !== undefined)
    expect(means).toHaveLength(1)
    const [first, second] = bundle.entry.filter(({ resource }) => readingsIn(bundle).includes(resource))
    expect(means[0]).toMatchObject({
      // (104 + 108) / 2
      valueQuantity: { value: 106, unit: 'mg/dL' },
      derivedFrom: [{ reference: first.fullUrl }, { reference: second.fullUrl }],
    })
    expect(fhirFaults(bundle)).toEqual([])
  })

  it('gives lows their section whatever is doubted', () => {
    const bundle = bundleOf(analysed(`${GLUCOSE}\n2026-03-02,07:10,62\n2026-03-03,07:10,104\n`))
    const [composition] = ofType(bundle, 'Composition')
    const low = bundle.entry.find(({ resource }) => readingsIn(bundle)[0] === resource)
    const section = (composition.section as { title: string; entry?: unknown }[]).find(({ title }) =>
      title.includes('below 70'),
    )
    expect(section?.entry).toEqual([{ reference: low?.fullUrl }])
  })

  it('leaves the person’s own words out where notes are left out', () => {
    const csv =
      'Date,Time,Glucose (mg/dL),Note\n2026-03-02,07:10,304,sticky honey fingers\n2026-03-03,07:10,98,\n'
    expect(textOf(analysed(csv))).toContain('honey')
    expect(textOf(analysed(csv), { withoutNotes: true })).not.toContain('honey')
  })

  it('names a person only where a label was given', () => {
    const analysis = analysed(`${GLUCOSE}\n2026-03-02,07:10,104\n`)
    expect(ofType(bundleOf(analysis), 'Patient')).toEqual([])
    const labelled = bundleOf(analysis, { label: 'Anna, bed 4' })
    expect(ofType(labelled, 'Patient')).toMatchObject([{ name: [{ text: 'Anna, bed 4' }] }])
    const patient = labelled.entry.find(({ resource }) => resource.resourceType === 'Patient')
    for (const { subject } of ofType(labelled, 'Observation'))
      expect(subject).toEqual({ reference: patient?.fullUrl })
  })

  it('names the logs by their hash, the program by its version, and the printed report by its own', () => {
    const csv = `${GLUCOSE}\n2026-03-02,07:10,104\n`
    const pdf = { url: 'report.pdf', bytes: 5, sha1: 'qvTGHdzF6KLavt4PO0gs2a6pQ00=' }
    const bundle = bundleOf(analysed(csv), { pdf })
    const sha256 = createHash('sha256').update(csv).digest('hex')
    expect(JSON.stringify(ofType(bundle, 'Provenance'))).toContain(sha256)
    expect(JSON.stringify(ofType(bundle, 'Device'))).toContain('1.2.3')
    expect(ofType(bundle, 'DocumentReference')).toMatchObject([
      { content: [{ attachment: { url: 'report.pdf', size: 5, hash: pdf.sha1 } }] },
    ])
  })

  it('is the same bytes at every run, one entry a line', () => {
    const analysis = analysed(`${GLUCOSE}\n2026-03-02,07:10,104\n2026-03-03,07:10,98\n`)
    expect(textOf(analysis)).toBe(textOf(analysis))
    const lines = textOf(analysis).trimEnd().split('\n')
    expect(lines).toHaveLength(bundleOf(analysis).entry.length)
    lines.forEach((line, i) => {
      expect(line).toContain(bundleOf(analysis).entry[i].fullUrl)
    })
  })

  it('is valid whatever stands in the texts of a log', () => {
    const odd = 'tab\tquote" <b>&amp; \u00a0nbsp \u0007bell \u2028 line \ud83d\ude00'
    const csv = `Date,Time,Glucose (mg/dL),Note,Meter\n2026-03-02,07:10,104,"${odd.replace('"', '""')}","  ${odd.slice(0, 3)} "\n2026-03-03,07:10,98,,\n`
    const bundle = bundleOf(analysed(csv), { label: '\u0000\u00a0' })
    expect(fhirFaults(bundle)).toEqual([])
  })

  it('uses codes of LOINC whose check digits hold', () => {
    const codes = [...LOINC_GLUCOSE.keys(), ...Object.values(LOINC_OF_METER)]
    expect(codes.filter((code) => !hasLoincCheckDigit(code))).toEqual([])
    // Worked by hand: 364 x 2 = 728, with 5 and 1 the digits sum to 23, so 7; a changed digit is found.
    expect(hasLoincCheckDigit('41653-7')).toBe(true)
    expect(hasLoincCheckDigit('41653-8')).toBe(false)
    expect(hasLoincCheckDigit('41563-7')).toBe(false)
  })
})

describe('a planted fault is found', () => {
  const sound = () =>
    bundleOf(
      analysed('Date,Time,Glucose (mg/dL),Meal\n2026-03-02,07:10,104,before lunch\n2026-03-03,07:10,<30,\n'),
      { pdf: { url: 'report.pdf', bytes: 5, sha1: 'qvTGHdzF6KLavt4PO0gs2a6pQ00=' } },
    )
  type Loose = Record<string, unknown>
  const reading = (bundle: Bundle) => readingsIn(bundle)[0] as unknown as Loose
  const figure = (bundle: Bundle, key: string) =>
    ofType(bundle, 'Observation').find(
      (one) => one[key] !== undefined && one.method !== undefined,
    ) as unknown as Loose
  const faults: Readonly<Record<string, readonly [rule: string, plant: (bundle: Bundle) => void]>> = {
    'no status': ['fhir:', (bundle) => delete reading(bundle).status],
    'a status that is none': ['schema:', (bundle) => (reading(bundle).status = 'finished')],
    'a comparator that is none': [
      'schema:',
      (bundle) => ((reading(bundle).valueQuantity as Loose).comparator = '=<'),
    ],
    'a field that is unknown': ['schema:', (bundle) => (reading(bundle).glucose = 5)],
    'a value in words': ['schema:', (bundle) => ((reading(bundle).valueQuantity as Loose).value = '104')],
    'a Composition without author': [
      'schema:',
      (bundle) => delete (ofType(bundle, 'Composition')[0] as Loose).author,
    ],
    'a time without zone': [
      'datatypes.html#dateTime',
      (bundle) => (reading(bundle).effectiveDateTime = '2026-03-02T07:10:00'),
    ],
    'a time without seconds': [
      'datatypes.html#dateTime',
      (bundle) => (reading(bundle).effectiveDateTime = '2026-03-02T07:10+01:00'),
    ],
    'the thirtieth of February': [
      'datatypes.html#dateTime',
      (bundle) => (reading(bundle).effectiveDateTime = '2026-02-30'),
    ],
    'a clock time without seconds': [
      'datatypes.html#time',
      (bundle) => ((reading(bundle).component as Loose[])[0].valueTime = '07:10'),
    ],
    'an absent reason beside a value': [
      'obs-6',
      (bundle) => (reading(bundle).dataAbsentReason = { text: 'LO' }),
    ],
    'a component that repeats the code': [
      'obs-7',
      (bundle) => ((reading(bundle).component as Loose[])[0].code = reading(bundle).code),
    ],
    'two values': ['formats.html#choice', (bundle) => (reading(bundle).valueString = '104')],
    'two moments': [
      'formats.html#choice',
      (bundle) => (reading(bundle).effectiveInstant = '2026-03-02T07:10:00Z'),
    ],
    'an empty array': ['json.html empty array', (bundle) => (reading(bundle).note = [])],
    'an empty object': ['json.html empty object', (bundle) => (reading(bundle).method = {})],
    'an empty text': ['datatypes.html#string', (bundle) => (reading(bundle).method = { text: '' })],
    'a null': ['json.html null', (bundle) => (reading(bundle).method = null)],
    'a unit that UCUM has not': [
      'UCUM:',
      (bundle) => ((reading(bundle).valueQuantity as Loose).code = 'mg/dl'),
    ],
    'a unit that is another than its code': [
      'UCUM beside',
      (bundle) => ((reading(bundle).valueQuantity as Loose).unit = 'mmol/L'),
    ],
    'a unit without its system': [
      'qty-3',
      (bundle) => delete (reading(bundle).valueQuantity as Loose).system,
    ],
    'a digit of LOINC': [
      'LOINC',
      (bundle) => (reading(bundle).code = { coding: [{ system: 'http://loinc.org', code: '41653-6' }] }),
    ],
    'a reference that leads nowhere': [
      'bundle.html#references',
      (bundle) => (reading(bundle).device = { reference: 'urn:uuid:00000000-0000-5000-8000-000000000000' }),
    ],
    'the same fullUrl twice': [
      'bdl-7',
      (bundle) => ((bundle.entry[1] as Loose).fullUrl = bundle.entry[0].fullUrl),
    ],
    'a fullUrl with a version': [
      'bdl-8',
      (bundle) => ((bundle.entry[1] as Loose).fullUrl = 'http://example.org/Device/1/_history/2'),
    ],
    'an entry without a resource': ['bdl-5', (bundle) => delete (bundle.entry[1] as Loose).resource],
    'a total': ['bdl-1', (bundle) => ((bundle as unknown as Loose).total = 3)],
    'a search': ['bdl-2', (bundle) => ((bundle.entry[1] as Loose).search = { mode: 'match' })],
    'a request': ['bdl-3', (bundle) => ((bundle.entry[1] as Loose).request = { method: 'GET', url: 'x' })],
    'a response': ['bdl-4', (bundle) => ((bundle.entry[1] as Loose).response = { status: '200' })],
    'another type of Bundle': ['type:', (bundle) => ((bundle as unknown as Loose).type = 'message')],
    'a section without content': [
      'cmp-1',
      (bundle) => {
        const [first] = ofType(bundle, 'Composition')[0].section as Loose[]
        delete first.text
        delete first.entry
      },
    ],
    'a period that ends before it begins': [
      'per-1',
      (bundle) =>
        (figure(bundle, 'effectivePeriod').effectivePeriod = { start: '2026-03-03', end: '2026-03-02' }),
    ],
    'a range upside down': [
      'rng-2',
      (bundle) => (figure(bundle, 'effectivePeriod').valueRange = { low: { value: 2 }, high: { value: 1 } }),
    ],
    'half a ratio': [
      'rat-1',
      (bundle) => (figure(bundle, 'valueRatio').valueRatio = { numerator: { value: 1 } }),
    ],
    'a hash in hexadecimal': [
      'attachment',
      (bundle) => {
        const [content] = ofType(bundle, 'DocumentReference')[0].content as { attachment: Loose }[]
        content.attachment.hash = 'aaf4c61ddcc5e8a2dabede0f3b482cd9aea9434d'
      },
    ],
    'an empty narrative': [
      'narrative.html',
      (bundle) => {
        const [first] = ofType(bundle, 'Composition')[0].section as { text: Loose }[]
        first.text.div = '<div xmlns="http://www.w3.org/1999/xhtml"></div>'
      },
    ],
  }

  it('and none is in the Bundle that they are planted in', () => {
    expect(fhirFaults(sound())).toEqual([])
  })

  it.each(Object.entries(faults))('%s', (_, [rule, plant]) => {
    const bundle = sound()
    plant(bundle)
    expect(fhirFaults(bundle).some((fault) => fault.startsWith(rule))).toBe(true)
  })
})
