import type { DaySpan } from '../../log/readings'
import { spanText } from './dates'
import { count } from './numbers'

// What files of HL7 FHIR hold in words.

export const TITLE = 'Report of glucose readings'
export const DOCUMENT_TYPE = 'Glucose report'
export const PDF_TITLE = 'The printed report'

/** LOINC's own names of the codes of a meter's readings. */
export const LOINC_NAMES = {
  'mg/dL': 'Glucose [Mass/volume] in Capillary blood by Glucometer',
  'mmol/L': 'Glucose [Moles/volume] in Capillary blood by Glucometer',
} as const
/** Where the log's readings are a sensor's. */
export const SENSOR_GLUCOSE = 'Glucose in interstitial fluid, by sensor'
export const MEAL = 'Meal'
/** Beside a day alone: a point in time has a zone in the standard, and this one's nobody knows. */
export const CLOCK_TIME = 'Clock time of the meter, zone not known'

export const LIMIT_NOT_KNOWN = 'The log does not give the limit that the meter’s LO or HI stands for.'
export const movedText = (logged: string) => `Time moved as asked; the log gives ${logged}.`
export const CORRECTED = 'Typed by the person in place of what the log gives.'
export const decidedText = (what: string, why: string) =>
  `Decided by the person: ${what}${why === '' ? '' : ` (${why})`}.`

/** The name of a figure or a mean: it must not be taken for a reading. */
export const figureName = (label: string, kind: 'finger-stick' | 'sensor') =>
  `Summary of ${kind} readings: ${label}`
export const MEAN_OF_REPEATS = 'Summary of repeat tests: mean'
export const HOW_SUMMED_UP =
  'All accepted readings as logged, doubtful ones too; a LO or HI counts at the meter’s limit, 20 or 600 mg/dL where none is known.'
export const HOW_ESTIMATED =
  'From the mean of the latest 90 days: A1C in percent = (mean in mg/dL + 46.7) / 28.7 (ADAG, Diabetes Care 2008;31:1473). An estimate, no laboratory result.'
export const HOW_AVERAGED =
  'Mean of tests at most 10 minutes apart, without doubtful ones. Tests among which one is low are never averaged.'

export const SECTIONS = {
  lows: 'Readings below 70 mg/dL (3.9 mmol/L)',
  doubtful: 'Doubtful readings',
  decided: 'Decided by the person',
  repeats: 'Means of repeat tests',
  readings: 'All readings',
  pdf: PDF_TITLE,
} as const
export const figuresTitle = ({ from, to }: DaySpan) => `Figures, ${spanText(from, to)}`
export const figuresText = (n: number, days: number, daysWith: number) =>
  `${count(n, 'reading')} on ${daysWith} of ${count(days, 'day')}.`
export const LOWS_TEXT = 'A low always counts, however doubtful.'
export const DOUBTFUL_TEXT = 'Why stands in a note of each. None of them disappears.'
export const DECIDED_TEXT = 'What was decided stands in a note of each.'
export const REPEATS_TEXT = 'Each names the readings that it is the mean of. They count once.'
export const readingsText = (n: number, logs: number, setAside: number) =>
  `${count(n, 'reading')} of ${count(logs, 'log')}, each an Observation of this collection. ` +
  `${count(setAside, 'row')} of the logs gave no reading and ${setAside === 1 ? 'is' : 'are'} not in it.`
export const PDF_TEXT = 'What is printed, as a file of its own beside this one.'
