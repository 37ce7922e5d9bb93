import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { lowAfterwards } from '../findings/lowsAfterHighs'
import { isLow } from '../log/readings'
import { minutesBetween } from '../technique/chronology'
import type { DoubtReason } from '../technique/technique'
import type { Advice } from '../wording/english/advice'
import type { Words } from '../wording/words'

/** What best explains a doubtful reading, in words for paper and window; null where nothing fits. */
export function adviceOnReading(
  words: Words,
  { readings, technique, settings: { unit } }: Analysis,
  index: number,
  reasons: readonly DoubtReason[],
): Advice | null {
  const contradiction = reasons.find((reason) => reason.code === 'contradicted-by-repeat')
  const value = words.numbers.readingText(readings, index, unit)
  const reading = { value, mgDl: readings.mgDl[index], low: isLow(readings, index) }
  const set = technique.repeatSets.find(({ members }) => members.includes(index))
  const before = set ? set.members.slice(0, set.members.indexOf(index)) : []
  return words.advice.adviceOn(
    reasons,
    reading,
    contradiction
      ? {
          ...reading,
          otherMgDl: contradiction.evidence.otherMgDl,
          other: words.numbers.readingText(readings, contradiction.evidence.other, unit),
          minutes: contradiction.evidence.minutes,
          afterLow: before.some((member) => isLow(readings, member)),
        }
      : null,
  )
}

/** A low within five hours after a reading that may have been too high, if no dose can be ruled out. */
export function lowAfterwardsText(
  words: Words,
  { readings, technique, settings: { unit } }: Analysis,
  figures: PeriodFigures,
  index: number,
): string | null {
  if (isLow(readings, index)) return null
  const low = lowAfterwards(readings, technique, figures.lows, index)
  if (low === null) return null
  return words.doubt.lowAfterwardsSentence(
    words.numbers.readingText(readings, low, unit),
    words.dates.durationText(minutesBetween(readings, index, low)),
  )
}
