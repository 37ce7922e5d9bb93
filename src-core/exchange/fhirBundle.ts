import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { mealMoments } from '../log/mealWords'
import {
  FLAG,
  hasClockTime,
  hasFlag,
  isLow,
  loggedMomentText,
  loggedUnit,
  type Readings,
} from '../log/readings'
import { isTyped, TYPED_METER } from '../log/typedByHand'
import {
  FHIR_SYSTEMS,
  LOINC_OF_METER,
  OFF_SCALE,
  OWN_AUTHOR,
  OWN_BUNDLE_START,
  OWN_NAMESPACE,
  TIMING_OF_MEALS,
} from '../reference/fhir'
import { type Average, averagedRepeats } from '../technique/checkedReadings'
import { doubtTold } from '../told/doubts'
import { periodA1c } from '../told/estimatedA1c'
import { type Measure, type MeasureKey, namingOf, periodMeasure, type Point } from '../told/measures'
import { reasonsTold, withoutNoteWords } from '../told/reasons'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import { clock, dayOf, isoDay, isoMoment } from '../units/wallClock'
import type { Words } from '../wording/words'

// HL7 FHIR R4 (4.0.1, hl7.org/fhir/R4): the readings and what the report tells of them as one Bundle of type collection.

export interface FhirOptions {
  readonly program: { readonly name: string; readonly version: string }
  readonly madeAtMs: number
  /** What stands at the head of the report; '' where nothing does. */
  readonly label: string
  /** Whether the person's own notes are left out. */
  readonly withoutNotes: boolean
  /** The report printed beside it; null where none is. `url`: relative to the Bundle's own place. */
  readonly pdf: {
    readonly url: string
    readonly bytes: number
    /** SHA-1 in base64, as R4 asks of an Attachment. */
    readonly sha1: string
  } | null
  /** SHA-1 of bytes, lower-case hexadecimal. */
  readonly sha1: (bytes: Uint8Array) => string
}

type Json = Readonly<Record<string, unknown>>

/** Pieces of text are handed out once they are so long. */
const LONGEST_PIECE = 65_536

/**
 * The Bundle's text, piece by piece, one entry a line: its first entry begins on line 1, so that the number of an entry is
 * that of its line. Entries are known by what they are made from, so the same logs give the same bytes.
 */
export function* fhirBundle(words: Words, analysis: Analysis, options: FhirOptions): Generator<string> {
  let piece = `${OWN_BUNDLE_START},"type":"collection","timestamp":"${instantText(options.madeAtMs)}","entry":[`
  let isFirst = true
  for (const { id, resource } of entriesOf(words, analysis, options)) {
    piece += `${isFirst ? '' : '\n,'}${JSON.stringify({ fullUrl: id, resource })}`
    isFirst = false
    if (piece.length < LONGEST_PIECE) continue
    yield piece
    piece = ''
  }
  yield `${piece}]}\n`
}

interface Entry {
  /** 'urn:uuid:...'. */
  readonly id: string
  readonly resource: Json
}

function* entriesOf(words: Words, analysis: Analysis, options: FhirOptions): Generator<Entry> {
  const { readings, sources } = analysis
  const { program, pdf, madeAtMs } = options
  const idOf = identities(options.sha1)
  const logs = sources.map(({ sha256 }) => sha256).join(' ')
  const written = instantText(madeAtMs)
  const own: Entry = {
    id: idOf(`program ${program.name} ${program.version}`),
    resource: {
      resourceType: 'Device',
      deviceName: [{ name: program.name, type: 'other' }],
      version: [{ value: program.version }],
    },
  }
  const label = texted(options.label)
  const patient: Entry | null =
    label === null
      ? null
      : { id: idOf(`patient ${label}`), resource: { resourceType: 'Patient', name: [{ text: label }] } }
  const subject = patient && { subject: { reference: patient.id } }
  const meters = meterDevices(readings, idOf)
  const places = placesInLines(readings)
  const readingId = (index: number) => {
    const { source, line } = readings
    return idOf(`reading ${sources[source[index]].sha256} ${line[index]} ${places[index]}`)
  }
  const means = averagedRepeats(readings, analysis.technique).map((mean): Entry => ({
    id: idOf(`mean ${mean.members.map(readingId).join(' ')}`),
    resource: { ...meanResource(words, readings, mean, readingId), ...subject },
  }))
  const figures = analysis.periods.map((period, place) =>
    figureResources(words, analysis, period).map(({ key, resource }): Entry => ({
      id: idOf(`figure ${key} ${isoDay(period.from)} ${isoDay(period.to)} ${place} ${logs}`),
      resource: { ...resource, ...subject },
    })),
  )
  const document: Entry | null = pdf && {
    id: idOf(`report ${pdf.sha1} ${logs}`),
    resource: {
      resourceType: 'DocumentReference',
      status: 'current',
      type: { text: words.fhir.PDF_TITLE },
      ...subject,
      date: written,
      author: [{ reference: own.id }],
      content: [
        {
          attachment: {
            contentType: 'application/pdf',
            url: pdf.url,
            size: pdf.bytes,
            hash: pdf.sha1,
            title: words.fhir.PDF_TITLE,
            creation: written,
          },
        },
      ],
    },
  }
  const composition: Entry = {
    id: idOf(`composition ${logs}`),
    resource: {
      resourceType: 'Composition',
      status: 'final',
      type: { text: words.fhir.DOCUMENT_TYPE },
      ...subject,
      date: written,
      author: [{ reference: own.id }],
      title: words.fhir.TITLE,
      section: sections(words, analysis, { figures, means, document, readingId }),
    },
  }
  yield composition
  yield own
  if (patient) yield patient
  yield* meters.entries
  if (document) yield document
  for (const { name, sha256 } of sources) {
    yield {
      id: idOf(`provenance ${sha256} ${logs}`),
      resource: {
        resourceType: 'Provenance',
        target: [{ reference: composition.id }],
        recorded: written,
        agent: [{ who: { reference: own.id } }],
        entity: [
          {
            role: 'source',
            what: {
              ...display(name),
              identifier: { type: { text: 'SHA-256' }, value: sha256 },
            },
          },
        ],
      },
    }
  }
  const resourceOf = readingResource(words, analysis, options)
  for (let index = 0; index < readings.n; index++) {
    const device = isTyped(readings, index) ? { display: TYPED_METER } : meters.referenceOf(index)
    yield { id: readingId(index), resource: { ...resourceOf(index), ...subject, device } }
  }
  yield* means
  yield* figures.flat()
}

/** Of each reading, how many earlier ones stand on the same line of the same log: a line may hold several. */
function placesInLines({ n, source, line }: Readings): Uint32Array {
  const places = new Uint32Array(n)
  const counts = new Map<number, number>()
  for (let i = 0; i < n; i++) {
    const key = line[i] * 65_536 + source[i]
    const before = counts.get(key) ?? 0
    places[i] = before
    counts.set(key, before + 1)
  }
  return places
}

/** A version 5 UUID (RFC 9562, 5.5) for each name, as R4 asks of the fullUrl of what has no address. */
function identities(sha1: FhirOptions['sha1']): (name: string) => string {
  const space = Uint8Array.from(OWN_NAMESPACE.replaceAll('-', '').match(/../g) ?? [], (hex) =>
    parseInt(hex, 16),
  )
  const encoder = new TextEncoder()
  return (name) => {
    const hash = sha1(Uint8Array.from([...space, ...encoder.encode(name)]))
    const variant = ((parseInt(hash[16], 16) & 3) | 8).toString(16)
    return `urn:uuid:${hash.slice(0, 8)}-${hash.slice(8, 12)}-5${hash.slice(13, 16)}-${variant}${hash.slice(17, 20)}-${hash.slice(20, 32)}`
  }
}

/** One Device for each meter, under the name that the log gives it; no maker is guessed. */
function meterDevices({ meter, meters }: Readings, idOf: (name: string) => string) {
  const named = meters.map((name) => ({ name: texted(name), id: idOf(`meter ${name}`) }))
  return {
    entries: named
      .filter(({ name }) => name !== null && name !== TYPED_METER)
      .map(({ name, id }): Entry => ({
        id,
        resource: { resourceType: 'Device', deviceName: [{ name, type: 'user-friendly-name' }] },
      })),
    referenceOf: (index: number) => {
      const { name, id } = named[meter[index]]
      return name === null ? undefined : { reference: id }
    },
  }
}

function readingResource(
  words: Words,
  { readings, technique, settings }: Analysis,
  { withoutNotes }: FhirOptions,
): (index: number) => Json {
  const doubtful = new Map(technique.doubtful.map((one) => [one.index, one]))
  const decided = new Map(technique.decided.map((one) => [one.index, one]))
  const momentOf = mealMoments()
  /** What the program says besides the log. */
  function* remarks(index: number): Generator<string> {
    const doubt = doubtful.get(index)
    const decision = decided.get(index)
    if (doubt) {
      const told = reasonsTold(doubt.reasons, readings, index)
      const reasons = withoutNotes ? withoutNoteWords(told) : told
      yield `${words.doubt.doubtText(doubtTold(doubt.doubt))}. ${words.reasons.reasonsText(reasons, readings, settings.unit)}`
    }
    if (decision) {
      const what = words.decided.CHOICE_TEXT[decision.choice](isLow(readings, index))
      yield words.fhir.decidedText(what, withoutNotes ? '' : words.decided.whyDecided(decision))
    }
    if (hasFlag(readings, index, FLAG.corrected)) yield words.fhir.CORRECTED
    if (hasFlag(readings, index, FLAG.assumedLimit)) yield words.fhir.LIMIT_NOT_KNOWN
    if (readings.shiftMinutes[index] !== 0) yield words.fhir.movedText(loggedMomentText(readings, index))
  }
  return (index) => {
    const note = withoutNotes ? null : texted(readings.note(index))
    const meal = texted(readings.meal(index))
    const { effective, clockTime } = effectiveOf(readings, index)
    const notes = [
      ...(note === null ? [] : [{ text: note }]),
      ...Array.from(remarks(index), (text) => ({ authorString: OWN_AUTHOR, text: texted(text) })),
    ]
    const components = [
      ...(clockTime === null ? [] : [{ code: { text: words.fhir.CLOCK_TIME }, valueTime: clockTime }]),
      ...(meal === null
        ? []
        : [{ code: { text: words.fhir.MEAL }, valueCodeableConcept: mealConcept(meal) }]),
    ]
    function mealConcept(text: string) {
      const moment = momentOf(text)
      return { ...(moment !== null && { coding: [TIMING_OF_MEALS[moment]] }), text }
    }
    return {
      resourceType: 'Observation',
      status: hasFlag(readings, index, FLAG.corrected) ? 'corrected' : 'final',
      code: glucoseCode(words, readings, index),
      ...effective,
      ...valueOf(readings, index),
      ...(notes.length > 0 && { note: notes }),
      ...(components.length > 0 && { component: components }),
    }
  }
}

function glucoseCode(words: Words, readings: Readings, index: number): Json {
  if (hasFlag(readings, index, FLAG.sensor)) return { text: words.fhir.SENSOR_GLUCOSE }
  const unit = loggedUnit(readings, index)
  const display = words.fhir.LOINC_NAMES[unit]
  return { coding: [{ system: FHIR_SYSTEMS.loinc, code: LOINC_OF_METER[unit], display }] }
}

/** Offsets that a dateTime can hold (datatypes.html#dateTime). */
const LARGEST_OFFSET_MINUTES = 14 * 60

/**
 * When a reading was taken. R4 forbids a time without a zone (datatypes.html#dateTime), and the zone of a meter's clock is
 * mostly not known: then the day alone is said, and the clock time in a component. Seconds that the log does not give are 0,
 * as R4 asks.
 */
function effectiveOf(readings: Readings, index: number): { effective: Json; clockTime: string | null } {
  const at = readings.at[index]
  const day = isoDay(dayOf(at))
  if (!hasClockTime(readings, index)) return { effective: { effectiveDateTime: day }, clockTime: null }
  const offset = readings.offsetMinutes[index]
  if (hasFlag(readings, index, FLAG.offset) && Math.abs(offset) <= LARGEST_OFFSET_MINUTES) {
    return { effective: { effectiveDateTime: isoMoment(at, true) + offsetText(offset) }, clockTime: null }
  }
  return { effective: { effectiveDateTime: day }, clockTime: clock(at, true) }
}

function offsetText(minutes: number): string {
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0')
  return `${minutes < 0 ? '-' : '+'}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`
}

function instantText(ms: number): string {
  return new Date(ms).toISOString()
}

function quantity(value: number, unit: string, comparator?: '<' | '>'): Json {
  return { value, ...(comparator && { comparator }), unit, system: FHIR_SYSTEMS.ucum, code: unit }
}

/** The value as logged; LO and HI whose limit the log gives as less or more than it, others as off the scale, without a number. */
function valueOf(readings: Readings, index: number): Json {
  const below = hasFlag(readings, index, FLAG.belowRange)
  const above = hasFlag(readings, index, FLAG.aboveRange)
  if ((below || above) && hasFlag(readings, index, FLAG.assumedLimit)) return offScale(below ? 'LO' : 'HI')
  const comparator = below ? '<' : above ? '>' : undefined
  return { valueQuantity: quantity(readings.logged[index], loggedUnit(readings, index), comparator) }
}

function offScale(marker: 'LO' | 'HI'): Json {
  const code = marker === 'LO' ? OFF_SCALE.below : OFF_SCALE.above
  return {
    dataAbsentReason: { coding: [{ system: FHIR_SYSTEMS.absentReason, code: 'unknown' }], text: marker },
    interpretation: [{ coding: [{ system: FHIR_SYSTEMS.interpretation, code }], text: marker }],
  }
}

/** The mean that stands in the place of repeats among the checked readings, with what it is derived from. */
function meanResource(
  words: Words,
  readings: Readings,
  { members, logged, unit }: Average,
  readingId: (index: number) => string,
): Json {
  const { effective, clockTime } = effectiveOf(readings, members[0])
  return {
    resourceType: 'Observation',
    status: 'final',
    code: { text: words.fhir.MEAN_OF_REPEATS },
    ...effective,
    valueQuantity: quantity(logged, unit),
    method: { text: words.fhir.HOW_AVERAGED },
    derivedFrom: members.map((index) => ({ reference: readingId(index) })),
    ...(clockTime !== null && {
      component: [{ code: { text: words.fhir.CLOCK_TIME }, valueTime: clockTime }],
    }),
  }
}

/** The figures in the order of the report: lows first. LOINC has codes for none of them where they are of finger-sticks. */
const FIGURES: readonly MeasureKey[] = [
  'readingsBelow70',
  'percentBelow54',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
  'meanMgDl',
  'medianMgDl',
  'middleHalfMgDl',
  'sdMgDl',
  'cvPercent',
]

function figureResources(
  words: Words,
  { settings }: Analysis,
  period: PeriodFigures,
): readonly { readonly key: string; readonly resource: Json }[] {
  if (period.asLogged.n === 0) return []
  const naming = namingOf(settings, period)
  const of = (
    label: string,
    value: Json,
    method: string,
    { from, to }: { from: number; to: number },
  ): Json => ({
    resourceType: 'Observation',
    status: 'final',
    code: { text: words.fhir.figureName(label, period.kind) },
    effectivePeriod: { start: isoDay(from), end: isoDay(to) },
    ...value,
    method: { text: method },
  })
  const figures = FIGURES.map((key) => {
    const value = measureValue(words, periodMeasure(key, period), settings.unit)
    return {
      key,
      resource: of(words.figures.measureLabel(key, naming), value, words.fhir.HOW_SUMMED_UP, period),
    }
  })
  const { estimate, heldBack, from, to } = periodA1c(period)
  const a1c =
    heldBack !== null
      ? absent(words.figures.heldBackText(heldBack))
      : estimate && { valueQuantity: quantity(roundHalfAway(estimate.percent, 1), '%') }
  return a1c === null
    ? figures
    : [
        ...figures,
        {
          key: 'latestA1c',
          resource: of(words.figures.A1C_LABEL, a1c, words.fhir.HOW_ESTIMATED, { from, to }),
        },
      ]
}

const absent = (text: string): Json => ({ dataAbsentReason: { text } })

/** A figure as it is printed; why in words where it is not shown. */
function measureValue(words: Words, measure: Measure, unit: GlucoseUnit): Json {
  const { heldBack, counted, points } = measure
  if (heldBack !== null) return absent(words.figures.heldBackText(heldBack))
  if (counted !== null) {
    return { valueRatio: { numerator: { value: counted.count }, denominator: { value: counted.n } } }
  }
  const values = points.map((point) => printedQuantity(point, measure, unit))
  const [first, second] = values
  if (values.some((value) => value === null)) return absent(words.figures.valueText(measure, unit))
  return second === undefined ? { valueQuantity: first } : { valueRange: { low: first, high: second } }
}

function printedQuantity(point: Point, { quantity: of }: Measure, unit: GlucoseUnit): Json | null {
  if (typeof point !== 'number') return null
  if (of === 'count') return { value: point, system: FHIR_SYSTEMS.ucum, code: '1' }
  if (of === 'glucose') return quantity(roundHalfAway(fromMgDl(point, unit), glucoseDecimals(unit)), unit)
  return quantity(roundHalfAway(point, 0), '%')
}

/** What the report tells, in its order. */
function sections(
  { fhir }: Words,
  analysis: Analysis,
  found: {
    readonly figures: readonly (readonly Entry[])[]
    readonly means: readonly Entry[]
    readonly document: Entry | null
    readonly readingId: (index: number) => string
  },
): readonly Json[] {
  const { readings, technique, periods, sources } = analysis
  const section = (title: string, text: string, ids: readonly string[]): Json => ({
    title,
    text: narrative(text),
    ...(ids.length > 0 && { entry: ids.map((reference) => ({ reference })) }),
  })
  const some = (title: string, text: string, ids: readonly string[]): readonly Json[] =>
    ids.length === 0 ? [] : [section(title, text, ids)]
  const { SECTIONS } = fhir
  const inPeriods = new Set(periods.flatMap((period) => periodReadings(analysis, period)))
  const lows = [...inPeriods].filter((index) => isLow(readings, index)).sort((a, b) => a - b)
  return [
    ...periods.map((period, place) =>
      section(
        fhir.figuresTitle(period),
        fhir.figuresText(period.asLogged.n, period.days, period.daysWithReadings),
        found.figures[place].map(({ id }) => id),
      ),
    ),
    ...some(SECTIONS.lows, fhir.LOWS_TEXT, lows.map(found.readingId)),
    ...some(
      SECTIONS.doubtful,
      fhir.DOUBTFUL_TEXT,
      technique.doubtful.map(({ index }) => found.readingId(index)),
    ),
    ...some(
      SECTIONS.decided,
      fhir.DECIDED_TEXT,
      technique.decided.map(({ index }) => found.readingId(index)),
    ),
    ...some(
      SECTIONS.repeats,
      fhir.REPEATS_TEXT,
      found.means.map(({ id }) => id),
    ),
    section(
      SECTIONS.readings,
      fhir.readingsText(
        readings.n,
        sources.length,
        sources.reduce((sum, { rows }) => sum + rows.setAside, 0),
      ),
      [],
    ),
    ...some(SECTIONS.pdf, fhir.PDF_TEXT, found.document === null ? [] : [found.document.id]),
  ]
}

function narrative(text: string): Json {
  const escaped = text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
  return { status: 'generated', div: `<div xmlns="http://www.w3.org/1999/xhtml"><p>${escaped}</p></div>` }
}

function display(text: string): Json {
  const name = texted(text)
  return name === null ? {} : { display: name }
}

/** Control characters but tabs and line ends, and halves of a pair that stand alone. */
// eslint-disable-next-line no-control-regex -- these are what is looked for
const NO_TEXT = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]|\p{Cs}/gu
/** What R4 has no room for in a string (datatypes.html#string): blanks but the plain one, tabs and line ends. */
const OTHER_BLANK = /[^\S \t\r\n]/g

/** A text as a string of R4: never empty, no control characters; null where nothing is left. */
function texted(text: string): string | null {
  const own = text.replace(NO_TEXT, '\ufffd').replace(OTHER_BLANK, ' ').trim()
  return own === '' ? null : own
}
