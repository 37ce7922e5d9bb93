import { largeFigures, markersText } from '../shown/largeFigures'
import { besideNumbers } from '../told/besideNumbers'
import type { ReportContext } from './context'
import type { Block } from './document'
import { paragraph, sectionHeading } from './parts'

/** What the numbers of the first page rest on, and what else must be known to read them. */
export function numbersInFull(context: ReportContext): readonly Block[] {
  const { analysis, figures, width, words, years } = context
  const markers = markersText(words, analysis, figures)
  const beside = besideNumbers(analysis, figures).map((each) =>
    words.besideNumbers.besideSentence(each, analysis.settings, years),
  )
  return [
    ...sectionHeading(words.figures.NUMBERS_TITLE, width),
    paragraph(
      largeFigures(words, analysis, figures)
        .flatMap(({ label, value, unit, small }) => [
          { strong: `${label} ${value}${unit === '' ? '' : ` ${unit}`}` },
          small === '' ? '. ' : `: ${small}. `,
        ])
        .concat(markers ?? []),
    ),
    ...beside.map((text) => paragraph(text)),
  ]
}
