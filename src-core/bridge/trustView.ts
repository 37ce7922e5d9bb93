import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { plainText } from '../wording/phrases'
import type { Words } from '../wording/words'

/** How far a period's readings can be trusted, in the sentences of the printed page. */
export function trustView(words: Words, analysis: Analysis, period: PeriodFigures): readonly string[] {
  const { readings, technique, bracketed } = analysis
  const sensor = period.kind === 'sensor'
  const doubtful = technique.doubtful.filter(({ index }) => index >= period.start && index < period.end)
  const within = doubtful.filter(({ index }) => bracketed.has(index)).length
  const sentences = [words.trust.doubtfulSentence(doubtful.length, sensor, period.asLogged, within)]
  if (!sensor) {
    const { repeatSets, repeatability, misfit, notDoubtfulForMisfit } = technique
    const fitsBadly = words.trust.misfitSentence(
      misfit,
      notDoubtfulForMisfit.filter((index) => index >= period.start && index < period.end).length,
    )
    if (fitsBadly !== null) sentences.push([fitsBadly])
    const counts = {
      sets: repeatSets.length,
      agreeing: repeatSets.filter((set) => set.agree).length,
      wholeLogbook: period.end - period.start < readings.n,
    }
    sentences.push(words.trust.repeatSentence(counts, repeatability))
  }
  // Above that share the figures' remark tells it.
  const told =
    doubtful.length > words.trust.MOST_DOUBTFUL_SHARE * period.asLogged.n
      ? []
      : words.knownCauses.toldOnce(analysis, period)
  return [...sentences.map(plainText), ...told]
}
