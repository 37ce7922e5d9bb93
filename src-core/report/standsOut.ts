import { doubtOfFindings, findingsTold } from '../told/findings'
import { capitalised, type Phrase } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, runs, sectionHeading, TYPE } from './parts'

/**
 * What stands out, in up to five sentences, each with its question for the visit where it `asks`; nothing of a sensor, in
 * whose readings none is looked for.
 */
export function standsOut(
  { analysis, figures, width, words }: ReportContext,
  asks: boolean,
): readonly Block[] {
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
      return numbered(i, asks ? [`${text} `, { strong: words.findings.ASK }, question] : [text])
    }),
    greyParagraph(words.findings.doubtOfFindings(doubtOfFindings(analysis, figures)), {
      fontSize: TYPE.small,
    }),
  ]
}

/** The questions alone, for a later page where the first has no room for them. */
export function questionsBehind({ figures: { findings }, width, words }: ReportContext): readonly Block[] {
  if (findings.length === 0) return []
  return keptTogether(
    [
      heading(words.findings.QUESTIONS_TITLE),
      ...findings.map((finding, i) => numbered(i, [capitalised(words.findings.findingQuestion(finding))])),
    ],
    width,
  )
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
