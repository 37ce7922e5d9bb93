import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { doubtsOf } from '../told/doubts'
import { plainText } from '../wording/phrases'
import type { Words } from '../wording/words'

/** How far a period's readings can be trusted, in the sentences of the printed page. */
export function trustView(words: Words, analysis: Analysis, period: PeriodFigures): readonly string[] {
  const doubts = doubtsOf(analysis, period)
  return [
    ...words.trust.trustSentences(doubts).map(plainText),
    // With too many doubtful readings the figures' remark tells it.
    ...(doubts.tooMany
      ? []
      : words.stretches.stretchesTexts(doubts.stretches.filter(({ toldOnce }) => toldOnce))),
  ]
}
