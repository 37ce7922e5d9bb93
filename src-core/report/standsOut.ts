import { countMarks } from '../technique/equipmentStretches'
import { doubtOfFindings, FINDINGS_TITLE, findingTexts, nothingStandsOut } from '../wording/findings'
import type { ReportContext } from './context'
import type { Block } from './document'
import { greyParagraph, paragraph, sectionHeading, TYPE } from './parts'

/** What stands out, in up to five sentences; nothing of a sensor, in whose readings none is looked for. */
export function standsOut({ analysis, figures, width }: ReportContext): readonly Block[] {
  if (figures.kind === 'sensor') return []
  const { findings } = figures
  const doubtfulLows = countMarks(
    figures.lows.each.map(({ index }) => index),
    analysis,
  )
  const heading = sectionHeading(FINDINGS_TITLE, width)
  if (findings.length === 0) return [...heading, paragraph(nothingStandsOut(figures.visibleRise))]
  return [
    ...heading,
    ...findingTexts(findings, analysis.settings).map((text, i) => ({
      columns: [
        { text: `${i + 1}.`, width: 10, bold: true },
        { text, width: '*' as const },
      ],
      columnGap: 2,
      margin: [0, 0, 0, 2] as const,
    })),
    greyParagraph(doubtOfFindings(findings, doubtfulLows), { fontSize: TYPE.small }),
  ]
}
