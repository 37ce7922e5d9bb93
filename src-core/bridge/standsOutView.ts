import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { countMarks } from '../technique/equipmentStretches'
import { doubtOfFindings, findingTexts, nothingStandsOut } from '../wording/findings'

/** What stands out, in the sentences of the printed page. */
export interface StandsOutView {
  readonly findings: readonly string[]
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
    findings: findingTexts(findings, settings),
    remark:
      kind === 'sensor'
        ? null
        : findings.length === 0
          ? nothingStandsOut(visibleRise)
          : doubtOfFindings(findings, doubtfulLows),
  }
}
