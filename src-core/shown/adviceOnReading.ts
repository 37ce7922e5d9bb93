import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { lowAfterwards } from '../findings/lowsAfterHighs'
import { isLow } from '../log/readings'
import { minutesBetween } from '../technique/chronology'
import type { DoubtReason } from '../technique/reasons/reasonTable'
import { adviceOnReading, isUsual } from '../told/advice'
import type { Advice } from '../wording/english/advice'
import type { Words } from '../wording/words'

/** What best explains a doubtful reading, in words; null where nothing fits. */
export function adviceText(
  words: Words,
  analysis: Analysis,
  index: number,
  reasons: readonly DoubtReason[],
): (Advice & { readonly isUsual: boolean }) | null {
  const advice = adviceOnReading(analysis, index, reasons)
  if (advice === null) return null
  const { readings, settings } = analysis
  const printed = (i: number) => words.numbers.readingText(readings, i, settings.unit)
  const contradiction = reasons.find((reason) => reason.code === 'contradicted-by-repeat')
  const other = contradiction === undefined ? '' : printed(contradiction.evidence.other)
  return { ...words.advice.adviceText(advice, printed(index), other), isUsual: isUsual(advice.next) }
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
