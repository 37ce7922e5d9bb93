import { doubtOfFindings, findingsTold } from '../told/findings'
import type { Phrase } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block } from './document'
import { greyParagraph, paragraph, runs, sectionHeading, TYPE } from './parts'

/**
 * What stands out, in up to five sentences, each with its question for the visit; nothing of a sensor, in whose readings
 * none is looked for.
 */
export function standsOut({ analysis, figures, width, words }: ReportContext): readonly Block[] {
  if (figures.kind === 'sensor') return []
  const { findings } = figures
  const { settings } = analysis
  const heading = sectionHeading(words.findings.FINDINGS_TITLE, width)
  if (findings.length === 0)
    return [...heading, paragraph(words.findings.nothingStandsOut(figures.visibleRise))]
  return [
    ...heading,
    ...findingsTold(findings, settings).map((told, i) => {
      const text = words.findings.findingText(told, settings)
      const question = ` ${words.findings.findingQuestion(findings[i])}`
      return numbered(i, [`${text} `, { strong: words.findings.ASK }, question])
    }),
    greyParagraph(words.findings.doubtOfFindings(doubtOfFindings(analysis, figures)), {
      fontSize: TYPE.small,
    }),
  ]
}

function numbered(index: number, words: readonly Phrase[]): Block {
  return {
    columns: [
      { text: `${index + 1}.`, width: 10, bold: true },
      { text: runs(words), width: '*' as const },
    ],
    columnGap: 2,
    isListItem: true,
    margin: [0, 0, 0, 2] as const,
  }
}
