import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { doubtOfFindings, findingsTold } from '../told/findings'
import type { Words } from '../wording/words'

export interface FindingView {
  readonly text: string
  /** A question for the visit, with the word that leads it. */
  readonly ask: string
}

/** What stands out, in the sentences of the printed page. */
export interface StandsOutView {
  readonly findings: readonly FindingView[]
  /** On what they rest, or that there are none; null of a sensor, where none is looked for. */
  readonly remark: string | null
}

export function standsOutView(words: Words, analysis: Analysis, period: PeriodFigures): StandsOutView {
  const { settings } = analysis
  const { findings, visibleRise, kind } = period
  return {
    findings: findingsTold(findings, settings).map((told, i) => ({
      text: words.findings.findingText(told, settings),
      ask: `${words.findings.ASK} ${words.findings.findingQuestion(findings[i])}`,
    })),
    remark:
      kind === 'sensor'
        ? null
        : findings.length === 0
          ? words.findings.nothingStandsOut(visibleRise)
          : words.findings.doubtOfFindings(doubtOfFindings(analysis, period)),
  }
}
