import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { countMarks } from '../technique/equipmentStretches'
import { ASK, doubtOfFindings, findingQuestion, findingTexts, nothingStandsOut } from '../wording/findings'

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

export function standsOutView(
  analysis: Analysis,
  { findings, visibleRise, kind, lows }: PeriodFigures,
): StandsOutView {
  const { settings } = analysis
  const doubtfulLows = countMarks(
    lows.each.map(({ index }) => index),
    analysis,
  )
  return {
    findings: findingTexts(findings, settings).map((text, i) => ({
      text,
      ask: `${ASK} ${findingQuestion(findings[i])}`,
    })),
    remark:
      kind === 'sensor'
        ? null
        : findings.length === 0
          ? nothingStandsOut(visibleRise)
          : doubtOfFindings(findings, doubtfulLows),
  }
}
