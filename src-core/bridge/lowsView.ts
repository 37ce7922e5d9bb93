import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { hasClockTime, isLow } from '../log/readings'
import { belowMeters, type LowEvent, lowestEvents, lowEvents, lowsNotFollowed } from '../report/lowEvents'
import { countMarks } from '../technique/equipmentStretches'
import { lowsOfTwoPeriods } from '../report/twoPeriods'
import { dayOf } from '../units/wallClock'
import { highsBeyond } from '../analysis/highsBeyond'
import { nightsTold } from '../told/nights'
import { bracketedLows } from '../told/stretches'
import { plainText } from '../wording/phrases'
import { type Years, yearsFor } from '../told/years'
import type { Words } from '../wording/words'

/** One test that read low, or a set of repeats with a low in it, told as a sequence. */
export interface LowView {
  /** '31 March, 22:15'. */
  readonly moment: string
  /** '67', 'LO', '52 → 90'; the usual mark of doubt is in it: '67?'. */
  readonly values: string
  /** What a screen reader is told besides: that a low among them is doubtful and stays counted. */
  readonly doubtful: boolean
  /** Whether it lies in a stretch that is told once: a bracket stands beside it. */
  readonly bracketed: boolean
  /** 'next test 109 after 40 min'. */
  readonly after: string
}

export interface HighsView {
  readonly headline: string
  /** That not all are listed; null where all are. */
  readonly latestTold: string | null
  /** '31 March, 22:15', in order of time; empty where the headline tells the only one. */
  readonly latest: readonly string[]
}

export interface LowsView {
  readonly headline: string
  /** Those that page 1 shows, in order of time. */
  readonly lowest: readonly LowView[]
  /** That these are the lowest; null where they are all. */
  readonly lowestTold: string | null
  /** The others, in order of time. */
  readonly others: readonly LowView[]
  /** Lows beyond those here; the list of readings holds them all. */
  readonly unlisted: number
  /** Readings above the meter's range, which have no number: what to do, and the latest; null where there are none. */
  readonly highs: HighsView | null
  /** What the list cannot show. */
  readonly remarks: readonly string[]
}

/** More than a person reads one by one. */
const MOST_LISTED = 200

/** The lows of a period, one by one, the lowest before the others, in the words of the printed page. */
export function lowsView(words: Words, analysis: Analysis, period: PeriodFigures): LowsView {
  const { readings, settings, marked, bracketed } = analysis
  const { lows } = period
  const { unit } = settings
  const years = yearsFor(period.from, period.to)
  const markedText = (index: number) =>
    `${words.numbers.readingText(readings, index, unit)}${marked.has(index) ? '?' : ''}${words.typed.typedMark(readings, index)}`
  const events = lowEvents(analysis, period)
  const lowest = lowestEvents(analysis, events)
  const others = events.filter((event) => !lowest.includes(event))
  const listed = others.slice(0, MOST_LISTED)
  const view = (event: LowEvent): LowView => ({
    moment: words.dates.readingMoment(readings, event.members[0], years),
    values: event.members.map(markedText).join(' → '),
    doubtful: event.members.some((index) => marked.has(index) && isLow(readings, index)),
    bracketed: event.members.some((index) => bracketed.has(index)),
    after: afterText(event),
  })

  function afterText({ minutes, lowest, next }: LowEvent): string {
    if (!hasClockTime(readings, lowest)) return words.lows.afterLowText(minutes, 'no-times')
    if (next === null) return words.lows.afterLowText(minutes, 'log-ends')
    const value = words.numbers.readingText(readings, next.index, unit)
    return words.lows.afterLowText(minutes, { value, minutes: next.minutes })
  }

  const marks = countMarks(
    lows.each.map(({ index }) => index),
    analysis,
  )
  const headline = words.lows.lowsHeadline(
    {
      below70: lows.readingsBelow70,
      below54: lows.readingsBelow54,
      days: new Set(lows.each.map(({ index }) => dayOf(readings.at[index]))).size,
      ...marks,
    },
    unit,
  )
  const remarks = [
    lowsOfTwoPeriods(words, analysis, years),
    words.stretches.bracketedLowsSentence(marks.bracketed, bracketedLows(analysis, period)),
    words.lows.nightsSentence(timesKnown(analysis, period) ? nightsTold(lows) : null),
    words.lows.notFollowedSentence(lowsNotFollowed(analysis, period), lows.readingsBelow70),
    words.lows.belowMetersSentence(belowMeters(analysis, period), unit),
    words.lows.nearLowsSentence(lows.nearLows, lows.readingsBelow70, unit),
    words.lows.notCountedSentence(lows.notCounted),
  ]
  return {
    headline: plainText(headline),
    lowest: lowest.map(view),
    lowestTold: others.length > 0 ? words.lows.lowestText(lowest.length) : null,
    others: listed.map(view),
    unlisted: others.length - listed.length,
    highs: highsView(words, analysis, period, years),
    remarks: remarks.filter((remark) => remark !== null),
  }
}

function highsView(words: Words, analysis: Analysis, period: PeriodFigures, years: Years): HighsView | null {
  const highs = highsBeyond(analysis, period)
  if (highs === null) return null
  const moments = highs.latest.map((index) => words.dates.readingMoment(analysis.readings, index, years))
  return {
    headline: plainText(words.highs.highsHeadline(highs.n, highs.days, moments[moments.length - 1])),
    latestTold: words.highs.latestHighsSentence(moments.length, highs.n),
    latest: highs.n === 1 ? [] : moments,
  }
}

function timesKnown({ readings }: Analysis, { start, end }: PeriodFigures): boolean {
  for (let i = start; i < end; i++) if (hasClockTime(readings, i)) return true
  return false
}
