import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { toldOnce } from '../wording/knownCauses'
import { plainText } from '../wording/phrases'
import { doubtfulSentence, misfitSentence, MOST_DOUBTFUL_SHARE, repeatSentence } from '../wording/trust'

/** How far a period's readings can be trusted, in the sentences of the printed page. */
export function trustView(analysis: Analysis, period: PeriodFigures): readonly string[] {
  const { readings, technique, bracketed } = analysis
  const sensor = period.kind === 'sensor'
  const doubtful = technique.doubtful.filter(({ index }) => index >= period.start && index < period.end)
  const within = doubtful.filter(({ index }) => bracketed.has(index)).length
  const sentences = [doubtfulSentence(doubtful.length, sensor, period.asLogged, within)]
  if (!sensor) {
    const { repeatSets, repeatability, misfit, notDoubtfulForMisfit } = technique
    const fitsBadly = misfitSentence(
      misfit,
      notDoubtfulForMisfit.filter((index) => index >= period.start && index < period.end).length,
    )
    if (fitsBadly !== null) sentences.push([fitsBadly])
    const counts = {
      sets: repeatSets.length,
      agreeing: repeatSets.filter((set) => set.agree).length,
      wholeLogbook: period.end - period.start < readings.n,
    }
    sentences.push(repeatSentence(counts, repeatability))
  }
  // Above that share the figures' remark tells it.
  const told = doubtful.length > MOST_DOUBTFUL_SHARE * period.asLogged.n ? [] : toldOnce(analysis, period)
  return [...sentences.map(plainText), ...told]
}
