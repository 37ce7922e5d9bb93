import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { lowAfterwards } from '../findings/lowsAfterHighs'
import { isLow } from '../log/readings'
import { minutesBetween } from '../technique/chronology'
import type { DoubtReason } from '../technique/technique'
import { type Advice, adviceOn } from '../wording/advice'
import { durationText } from '../wording/dates'
import { lowAfterwardsSentence } from '../wording/doubt'
import { readingText } from '../wording/numbers'

/** What best explains a doubtful reading, in words for paper and window; null where nothing fits. */
export function adviceOnReading(
  { readings, technique, settings: { unit } }: Analysis,
  index: number,
  reasons: readonly DoubtReason[],
): Advice | null {
  const contradiction = reasons.find((reason) => reason.code === 'contradicted-by-repeat')
  const value = readingText(readings, index, unit)
  const reading = { value, mgDl: readings.mgDl[index], low: isLow(readings, index) }
  const set = technique.repeatSets.find(({ members }) => members.includes(index))
  const before = set ? set.members.slice(0, set.members.indexOf(index)) : []
  return adviceOn(
    reasons,
    reading,
    contradiction
      ? {
          ...reading,
          otherMgDl: contradiction.evidence.otherMgDl,
          other: readingText(readings, contradiction.evidence.other, unit),
          minutes: contradiction.evidence.minutes,
          afterLow: before.some((member) => isLow(readings, member)),
        }
      : null,
  )
}

/** A low within five hours after a reading that may have been too high, if no dose can be ruled out. */
export function lowAfterwardsText(
  { readings, technique, settings: { unit } }: Analysis,
  figures: PeriodFigures,
  index: number,
): string | null {
  if (isLow(readings, index)) return null
  const low = lowAfterwards(readings, technique, figures.lows, index)
  if (low === null) return null
  return lowAfterwardsSentence(
    readingText(readings, low, unit),
    durationText(minutesBetween(readings, index, low)),
  )
}
