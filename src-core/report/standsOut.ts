import { countMarks } from '../technique/equipmentStretches'
import {
  ASK,
  doubtOfFindings,
  findingQuestion,
  FINDINGS_TITLE,
  findingTexts,
  nothingStandsOut,
  QUESTIONS_TITLE,
} from '../wording/findings'
import { capitalised, type Phrase } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, runs, sectionHeading, TYPE } from './parts'

/**
 * What stands out, in up to five sentences, each with its question for the visit where it `asks`; nothing of a sensor, in
 * whose readings none is looked for.
 */
export function standsOut({ analysis, figures, width }: ReportContext, asks: boolean): readonly Block[] {
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
    ...findingTexts(findings, analysis.settings).map((text, i) =>
      numbered(i, asks ? [`${text} `, { strong: ASK }, ` ${findingQuestion(findings[i])}`] : [text]),
    ),
    greyParagraph(doubtOfFindings(findings, doubtfulLows), { fontSize: TYPE.small }),
  ]
}

/** The questions alone, for a later page where the first has no room for them. */
export function questionsBehind({ figures: { findings }, width }: ReportContext): readonly Block[] {
  if (findings.length === 0) return []
  return keptTogether(
    [
      heading(QUESTIONS_TITLE),
      ...findings.map((finding, i) => numbered(i, [capitalised(findingQuestion(finding))])),
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
    margin: [0, 0, 0, 2] as const,
  }
}
