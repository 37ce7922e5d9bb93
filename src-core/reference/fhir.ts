import type { MealMoment } from './mealMoment'

// HL7 FHIR R4 (4.0.1, hl7.org/fhir/R4): the names and codes that files of it hold, for writing and reading alike.

/** Code systems by the addresses that R4 gives them (terminologies-systems.html). */
export const FHIR_SYSTEMS = {
  loinc: 'http://loinc.org',
  ucum: 'http://unitsofmeasure.org',
  /** HL7 version 3; its codes of meals stand in the value set event-timing. */
  timing: 'http://terminology.hl7.org/CodeSystem/v3-TimingEvent',
  /** Parts of the day, the rest of that value set. */
  partOfDay: 'http://hl7.org/fhir/event-timing',
  interpretation: 'http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation',
  absentReason: 'http://terminology.hl7.org/CodeSystem/data-absent-reason',
} as const

/** What an Observation of glucose is of. */
export type GlucoseSpecimen = 'finger-stick' | 'sensor' | 'laboratory' | 'summary'

interface LoincGlucose {
  readonly of: GlucoseSpecimen
  /** Whether it is mass or amount of substance in a volume; null of neither. */
  readonly unit: 'mg/dL' | 'mmol/L' | null
}

const mass = (of: GlucoseSpecimen): LoincGlucose => ({ of, unit: 'mg/dL' })
const moles = (of: GlucoseSpecimen): LoincGlucose => ({ of, unit: 'mmol/L' })
const SUMMARY: LoincGlucose = { of: 'summary', unit: null }

/**
 * LOINC's codes of glucose (loinc.org) that are told apart in what is read; any other code is no glucose. Blood that nothing
 * says to be from a laboratory counts as a finger-stick. Confirmed but for those marked 'memory', whose check digits hold.
 */
export const LOINC_GLUCOSE: ReadonlyMap<string, LoincGlucose> = new Map([
  ['41653-7', mass('finger-stick')], // in capillary blood by glucometer
  ['14743-9', moles('finger-stick')],
  ['2339-0', mass('finger-stick')], // in blood
  ['15074-8', moles('finger-stick')],
  ['2340-8', mass('finger-stick')], // in blood by automated test strip
  ['2341-6', mass('finger-stick')], // in blood by manual test strip
  ['32016-8', mass('finger-stick')], // in capillary blood (memory)
  ['1556-0', mass('finger-stick')], // fasting, in capillary blood (memory)
  ['14770-2', moles('finger-stick')], // fasting, in capillary blood by glucometer
  ['14760-3', moles('finger-stick')], // in capillary blood two hours after a meal
  ['88365-2', mass('finger-stick')], // in blood before a meal (memory)
  ['87422-2', mass('finger-stick')], // in blood after a meal (memory)
  ['2345-7', mass('laboratory')], // in serum or plasma
  ['14749-6', moles('laboratory')],
  ['1558-6', mass('laboratory')], // fasting, in serum or plasma (memory)
  ['99504-3', mass('sensor')], // in interstitial fluid (memory)
  ['105272-9', moles('sensor')], // in interstitial fluid (memory)
  // Sums of a sensor's reporting period, and an average by laboratory A1C.
  ...['97507-8', '105273-7', '97506-0', '97510-2', '104642-4', '104641-6', '104640-8', '104639-0'].map(
    (code): [string, LoincGlucose] => [code, SUMMARY],
  ),
  ...['104638-2', '104636-6', '104637-4', '106793-3', '104643-2', '27353-2', '53553-4'].map(
    (code): [string, LoincGlucose] => [code, SUMMARY],
  ),
])

/** The codes under which readings of a meter are written: glucose in capillary blood by glucometer. */
export const LOINC_OF_METER = { 'mg/dL': '41653-7', 'mmol/L': '14743-9' } as const

interface TimingCode {
  readonly system: string
  readonly code: string
}
const timing = (code: string): TimingCode => ({ system: FHIR_SYSTEMS.timing, code })

/** The code of each moment in R4's value set event-timing (valueset-event-timing.html; codes from memory). */
export const TIMING_OF_MEALS: Readonly<Record<MealMoment, TimingCode>> = {
  'before-breakfast': timing('ACM'),
  'after-breakfast': timing('PCM'),
  'before-lunch': timing('ACD'),
  'after-lunch': timing('PCD'),
  'before-dinner': timing('ACV'),
  'after-dinner': timing('PCV'),
  'before-meal': timing('AC'),
  'after-meal': timing('PC'),
  bedtime: timing('HS'),
  night: { system: FHIR_SYSTEMS.partOfDay, code: 'NIGHT' },
}

/**
 * Codes of other systems for the same: SNOMED CT's, and those of ISO/IEEE 11073-10101 for a meter's mark of a meal (fasting
 * and before a meal from memory).
 */
export const OTHER_MEAL_CODES: ReadonlyMap<string, MealMoment> = new Map([
  ['307165006', 'before-meal'],
  ['24863003', 'after-meal'],
  ['8417868', 'before-meal'],
  ['8417872', 'after-meal'],
  ['8417876', 'before-breakfast'],
])

/** R4's codes of a value beyond what can be measured (valueset-observation-interpretation.html). */
export const OFF_SCALE = { below: '<', above: '>' } as const

/** The space of names from which the identities of this program's resources are made (RFC 9562, 5.5); invented once. */
export const OWN_NAMESPACE = '5b6f3f0c-52a4-4a5e-9d0c-7f3a1c9e2b64'

/** What stands at the head of a Bundle of this program, by which it knows its own. */
export const OWN_TAG = { system: `urn:uuid:${OWN_NAMESPACE}`, code: 'readings' } as const

/** Who says what the program says beside a reading: a code, the same in every language. */
export const OWN_AUTHOR = 'Visit report'

/** The beginning of a file of it. */
export const OWN_BUNDLE_START = `{"resourceType":"Bundle","meta":{"tag":[${JSON.stringify(OWN_TAG)}]}`
