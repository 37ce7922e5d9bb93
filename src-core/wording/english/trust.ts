import type { Counted } from '../../model/counted'
import { hasManyMarkers } from '../../statistics/heldBack'
import { Z95_ROUNDED } from '../../reference/meter'
import type { ModelMisfit } from '../../technique/modelFit'
import type { Repeatability } from '../../technique/technique'
import { count, percentText } from './numbers'
import { type Phrase, strong } from '../phrases'
import { SENSOR_NOT_JUDGED } from './sensor'
import { marksText } from './stretches'

/** Above this share of doubtful readings the page prints no second column. */
export const MOST_DOUBTFUL_SHARE = 0.1

export const NOT_PROVEN_RIGHT =
  'The others are not proven right: a single wrong reading that nobody repeated is seldom found ' +
  '(about one in three at best, in simulated logs).'

/** Fewer sets that agree do not tell how far repeats differ (design choice). */
const FEWEST_SETS = 5

/**
 * '4 readings are doubtful (‘?’). The others are not proven right: ...'; `bracketed` of them lie in a stretch that is told
 * once.
 */
export function doubtfulSentence(
  doubtful: number,
  sensor: boolean,
  of?: Counted,
  bracketed = 0,
): readonly Phrase[] {
  if (sensor) return [SENSOR_NOT_JUDGED]
  const many = of !== undefined && hasManyMarkers(of)
  if (doubtful === 0 && many) {
    const others = of.n - of.belowRange - of.aboveRange
    return [
      strong(markersNotJudged(of)),
      others === 0 ? '' : ` Of the other ${others} none was found doubtful, which does not prove them right.`,
      ' The best check is a second test at once: washed and dried hands, a new strip.',
    ]
  }
  if (doubtful === 0) {
    return [
      strong('No reading was found doubtful.'),
      ' That does not prove them right: a single wrong reading that nobody repeated is seldom found ' +
        '(about one in three at best, in simulated logs). The best check is a second test at once: washed and ' +
        'dried hands, a new strip.',
    ]
  }
  const marks =
    bracketed === 0
      ? '‘?’'
      : bracketed === doubtful
        ? 'within a bracket'
        : marksText(doubtful - bracketed, bracketed, String)
  return [
    strong(`${count(doubtful, 'reading')} ${doubtful === 1 ? 'is' : 'are'} doubtful`),
    ` (${marks}). ${NOT_PROVEN_RIGHT}${many ? ` ${markersNotJudged(of)}` : ''}`,
  ]
}

/** That the usual estimate of doubt fits the log badly, where that makes so many readings not doubtful; null at none. */
export function misfitSentence({ wide, quick }: ModelMisfit, notDoubtful: number): string | null {
  if (notDoubtful === 0) return null
  const what = [
    wide ? 'values far from the middle are commoner' : '',
    quick ? 'readings an hour or two apart differ more' : '',
  ].filter((text) => text !== '')
  const called = notDoubtful === 1 ? 'is' : 'are'
  return (
    `The usual estimate of doubt fits this log badly: ${what.join(', and ')} than it expects. They are taken as this person’s ` +
    `own, and ${count(notDoubtful, 'reading')} ${called} not called doubtful for it.`
  )
}

/** HI and LO are no numbers: whatever is found of a log of them is little. */
export function markersNotJudged(of: Counted): string {
  const markers = of.belowRange + of.aboveRange
  const kinds = [of.aboveRange > 0 ? 'HI' : '', of.belowRange > 0 ? 'LO' : ''].filter((kind) => kind !== '')
  return (
    `${markers} of ${count(of.n, 'reading')} ${markers === 1 ? 'is' : 'are'} ${kinds.join(' or ')} and ` +
    'without a number: how far off they may be cannot be judged.'
  )
}

/** Why there is no second column; `known`: readings that one fault of strips or meter makes doubtful, in sentences. */
export function tooManyDoubtfulSentence(doubtful: number, n: number, known: readonly string[]): string {
  const cause =
    known.length > 0
      ? `${known.length === 1 ? 'A cause is known' : 'Causes are known'}: ${known.join(' ')}`
      : 'Look for one cause behind them: a vial of strips, a meter, a habit.'
  return (
    `${doubtful} of ${n} readings are doubtful, more than 10 %. What is left without them would be no fair ` +
    `picture, so no second column is printed. ${cause}`
  )
}

/** Why the two columns would be the same. */
export const NOTHING_CHANGES = 'So nothing is left out and nothing averaged.'

/** Half of pairs of repeats differ by less than this many times their standard deviation of a difference. */
const MEDIAN_OF_ABSOLUTE_NORMAL = 0.6745

/** Median difference of two repeats, percent: 0.6745 x sqrt(2) x CV for errors that follow a normal curve. */
export function typicalDifferencePercent(withinCvPercent: number): number {
  return MEDIAN_OF_ABSOLUTE_NORMAL * Math.SQRT2 * withinCvPercent
}

/** Difference that 19 of 20 pairs of repeats stay below, percent: 1.96 x sqrt(2) x CV. */
export function usualLimitPercent(withinCvPercent: number): number {
  return Z95_ROUNDED * Math.SQRT2 * withinCvPercent
}

export interface RepeatCounts {
  readonly sets: number
  readonly agreeing: number
  /** Whether the sets come from more days than the page covers. */
  readonly wholeLogbook: boolean
}

/** 'Repeat tests: 24 of 31 sets agree. Among these two tests typically differ by 6 %, ...' */
export function repeatSentence(counts: RepeatCounts, repeatability: Repeatability): readonly Phrase[] {
  if (counts.sets === 0) {
    return ['No test was repeated within ten minutes: how well repeat tests agree is not known.']
  }
  const where = counts.wholeLogbook ? ' (in the whole logbook)' : ''
  const agree =
    counts.sets === 1 ? (counts.agreeing === 1 ? 'the one set agrees' : 'the one set does not agree') : ''
  const first = agree || `${counts.agreeing} of ${counts.sets} sets agree`
  const cv = repeatability.withinCvPercent
  const spread =
    cv === null || repeatability.sets < FEWEST_SETS
      ? ''
      : ` In those, two tests typically differ by ${percentText(typicalDifferencePercent(cv))} %, ` +
        `19 of 20 pairs by less than ${percentText(usualLimitPercent(cv))} %.`
  return [strong('Repeat tests: '), `${first}${where}.${spread}${unsurprisingText(repeatability)}`]
}

/** Repeats follow surprises: what the others show stands beside, where it is another figure. */
function unsurprisingText({ withinCvPercent, unsurprising }: Repeatability): string {
  if (withinCvPercent === null || unsurprising === null || unsurprising.sets < FEWEST_SETS) return ''
  const [all, own] = [withinCvPercent, unsurprising.withinCvPercent].map((cv) =>
    percentText(typicalDifferencePercent(cv)),
  )
  if (all === own) return ''
  return (
    ` Where the first value was no surprise (${unsurprising.sets} sets) they differ by ${own} %: most repeats follow a ` +
    'surprise, which makes the other figure too large.'
  )
}
