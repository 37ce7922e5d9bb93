import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { LaboratoryBeside } from '../kit/laboratoryA1c'
import { type DayNumber, dayOf } from '../units/wallClock'
import { periodReadings } from '../analysis/periodReadings'
import { setAsideByReason } from '../log/logReport'
import { hoursKnown } from './day'
import { type MarkersTold, markersTold } from './markers'
import { type MeterPairTold, meterPairsTold } from './meters'
import { othersReadingsTold } from './othersReadings'
import { type StretchTold, toldOnce } from './stretches'
import { trialTests } from './tried'

/** What bounds the trust in a period's numbers beside single doubtful readings. */
export type TrustLimit =
  /** Hours that fit far better half a day away: those of its lows may be wrong too. */
  | {
      readonly code: 'half-day-off'
      readonly from: DayNumber
      readonly to: DayNumber
      readonly readings: number
    }
  /** One fault of strips or meter behind many doubtful readings. */
  | { readonly code: 'fault'; readonly stretch: StretchTold }
  | { readonly code: 'markers'; readonly markers: MarkersTold }
  | { readonly code: 'meters-differ'; readonly pair: MeterPairTold }
  /** The latest laboratory A1C lies outside the range that its readings let expect. */
  | { readonly code: 'laboratory'; readonly beside: LaboratoryBeside; readonly position: 'above' | 'below' }
  /** Readings that may be somebody else's, of which nothing was decided. */
  | {
      readonly code: 'others'
      readonly n: number
      /** The days of the first of them, each once. */
      readonly days: readonly DayNumber[]
    }
  /** Tests of trials, which are judged as trials alone. */
  | { readonly code: 'trials'; readonly n: number }
  /** Of a log without times: rows set aside because another has the same day and value. */
  | { readonly code: 'repeated-days'; readonly n: number }
  /** A log of both units without a word of them: the size of each value decided, as it was answered. */
  | { readonly code: 'mixed-units' }

/** Two meters whose mean difference is surely larger are told on the first page, percent (design choice). */
const SURE_DIFFERENCE_PERCENT = 5
/** Pairs with a changed step of a trial tell of the step; above this share they tell little of the meters (design choice). */
const MOST_TRIAL_STEPS = 0.1

/** So many days of readings that may be somebody else's are named on the first page (design choice). */
const MOST_DAYS_NAMED = 3

/** In the order of what could hurt most. */
export function trustLimits(analysis: Analysis, figures: PeriodFigures): readonly TrustLimit[] {
  const { sources, laboratory } = analysis
  const clocks = sources
    .flatMap(({ notes }) => notes)
    .flatMap((note) => (note.code === 'half-day-off' ? [note] : []))
    .filter(({ shift }) => shift.from <= figures.to && shift.to >= figures.from)
  const markers = markersTold(analysis, figures)
  const latest = laboratory.at(-1)
  const position = latest?.position
  const others = othersReadingsTold(analysis, figures)
  const trials = trialTests(analysis)
  const repeated = hoursKnown(analysis.readings, periodReadings(analysis, figures))
    ? 0
    : sources.reduce((sum, source) => sum + (setAsideByReason(source).get('duplicate')?.length ?? 0), 0)
  return [
    ...(others.n > 0
      ? [
          {
            code: 'others',
            n: others.n,
            days: [...new Set(others.listed.map((index) => dayOf(analysis.readings.at[index])))].slice(
              0,
              MOST_DAYS_NAMED,
            ),
          } as const,
        ]
      : []),
    ...(trials > 0 ? [{ code: 'trials', n: trials } as const] : []),
    ...clocks.map(
      ({ shift: { from, to }, readings }) => ({ code: 'half-day-off', from, to, readings }) as const,
    ),
    ...toldOnce(analysis, figures).map((stretch) => ({ code: 'fault', stretch }) as const),
    // Of very many the figures are held back, and that is told in their place.
    ...(markers === null || markers.many ? [] : [{ code: 'markers', markers } as const]),
    ...(figures.kind === 'sensor' ? [] : meterPairsTold(analysis))
      .filter(surelyDiffer)
      .map((pair) => ({ code: 'meters-differ', pair }) as const),
    ...(latest !== undefined && (position === 'above' || position === 'below')
      ? [{ code: 'laboratory', beside: latest, position } as const]
      : []),
    ...(repeated > 0 ? [{ code: 'repeated-days', n: repeated } as const] : []),
    ...(sources.some(({ unit }) => unit.value === 'mixed' && unit.basis === 'answer')
      ? [{ code: 'mixed-units' } as const]
      : []),
  ]
}

function surelyDiffer({ few, meanCi95Percent, pairs, withTrialSteps }: MeterPairTold): boolean {
  if (few || meanCi95Percent === null || withTrialSteps > MOST_TRIAL_STEPS * pairs.length) return false
  const [low, high] = meanCi95Percent
  return low > SURE_DIFFERENCE_PERCENT || high < -SURE_DIFFERENCE_PERCENT
}
