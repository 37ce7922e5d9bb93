import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { plainText } from '../wording/phrases'
import { doubtfulSentence, repeatSentence } from '../wording/trust'

/** How far a period's readings can be trusted, in the sentences of the printed page. */
export function trustView({ readings, technique }: Analysis, period: PeriodFigures): readonly string[] {
  const sensor = period.kind === 'sensor'
  const doubtful = technique.doubtful.filter(
    ({ index }) => index >= period.start && index < period.end,
  ).length
  const sentences = [doubtfulSentence(doubtful, sensor)]
  if (!sensor) {
    const { repeatSets, repeatability } = technique
    const counts = {
      sets: repeatSets.length,
      agreeing: repeatSets.filter((set) => set.agree).length,
      wholeLogbook: period.end - period.start < readings.n,
    }
    sentences.push(repeatSentence(counts, repeatability))
  }
  return sentences.map(plainText)
}
