import { FEWEST_DAYS } from '../statistics/errorByDays'
import { a1cPercentToMmolMol } from '../statistics/estimatedA1c'
import { besideNumbers } from '../told/besideNumbers'
import { periodA1c, type ToldA1c } from '../told/estimatedA1c'
import { extremes, markersTold, nightsHardlyTested } from '../told/markers'
import { balancedBeside, type MeasureKey, namingOf, periodMeasure, shareCount } from '../told/measures'
import type { ReportContext } from './context'
import type { Block } from './document'
import { paragraph, sectionHeading } from './parts'

export interface LargeFigure {
  readonly label: string
  readonly value: string
  readonly unit: string
  readonly small: string
}

/** What the numbers of the first page rest on, and what else must be known to read them. */
export function numbersInFull(context: ReportContext): readonly Block[] {
  const { analysis, figures, width, words, years } = context
  const markers = markersText(context)
  const beside = besideNumbers(analysis, figures).map((each) =>
    words.besideNumbers.besideSentence(each, analysis.settings, years),
  )
  return [
    ...sectionHeading(words.figures.NUMBERS_TITLE, width),
    ...largeFigures(context).map(({ label, value, unit, small }) =>
      paragraph([
        { strong: `${label} ${value}${unit === '' ? '' : ` ${unit}`}` },
        small === '' ? '' : `: ${small}.`,
      ]),
    ),
    ...[...(markers === null ? [] : [markers]), ...beside].map((text) => paragraph(text)),
  ]
}

/** How HI and LO were counted, and the figures without them; null where there are none. */
export function markersText({ analysis, figures, words }: ReportContext): string | null {
  const markers = markersTold(analysis, figures)
  return markers && words.figures.markersSentence(markers, analysis.settings)
}

const LARGE = ['meanMgDl', 'sdMgDl', 'cvPercent', 'percentInTarget'] as const

/** Mean, SD, CV, readings in target and estimated A1C, as logged. */
export function largeFigures(context: ReportContext): readonly LargeFigure[] {
  const { analysis, figures, unit, words } = context
  const naming = namingOf(analysis.settings, figures)
  return [
    ...LARGE.map((key) => {
      const measure = periodMeasure(key, figures)
      const { heldBack, quantity } = measure
      const isShown = heldBack === null && quantity !== 'glucose'
      return {
        label: words.figures.measureLabel(key, naming),
        value: words.figures.valueText(measure, unit),
        unit: isShown ? words.figures.unitText(measure, unit) : '',
        small: smallPrint(context, key)
          .filter((part) => part !== null)
          .join('; '),
      }
    }),
    a1cFigure(context),
  ]
}

/** How well a figure is known, or why it is not shown, and what it rests on. */
function smallPrint(context: ReportContext, key: (typeof LARGE)[number]): readonly (string | null)[] {
  const { analysis, figures, unit, words } = context
  const measure = periodMeasure(key, figures)
  const text = (of: MeasureKey) => words.figures.valueText(periodMeasure(of, figures), unit)
  const held = measure.heldBack && words.figures.heldBackText(measure.heldBack)
  const known = words.figures.knownToText(measure, unit)
  switch (key) {
    case 'meanMgDl': {
      const found = extremes(analysis, figures)
      const extreme = (index: number | undefined) =>
        index === undefined
          ? words.numbers.NO_NUMBER
          : words.numbers.readingText(analysis.readings, index, unit)
      const balanced = held === null ? balancedBeside(figures.asLogged) : null
      return [
        held ?? known ?? words.figures.tooFewDaysText(FEWEST_DAYS),
        words.figures.medianNote(text('medianMgDl')),
        words.figures.extremesText(extreme(found?.lowest), extreme(found?.highest)),
        balanced === null ? null : words.figures.balancedNote(balanced, unit),
      ]
    }
    case 'sdMgDl':
      return held === null ? [known, words.figures.halfLieText(text('middleHalfMgDl'))] : [held]
    case 'cvPercent':
      return held === null ? [known, words.figures.CV_EXPLAINED] : [held]
    case 'percentInTarget': {
      const { count, n } = shareCount('percentInTarget', figures.asLogged)
      const sensor = figures.kind === 'sensor'
      return [
        held,
        words.figures.countedText(count, n, sensor),
        held === null ? known : null,
        ...(sensor ? [] : [words.figures.NOT_OF_TIME, words.targets.presetName(analysis.settings)]),
      ]
    }
  }
}

/** Of the latest 90 days; in pregnancy an A1C misleads. */
function a1cFigure(context: ReportContext): LargeFigure {
  const { figures, words } = context
  const a1c = periodA1c(figures)
  const value = words.figures.a1cValueText(a1c)
  if (a1c.heldBack !== null) {
    const indicator = a1c.heldBack.why === 'few-days' ? words.sensor.indicatorNote(figures.asLogged) : null
    const small = [words.figures.heldBackText(a1c.heldBack), indicator].filter((part) => part !== null)
    return { label: words.figures.A1C_LABEL, value, unit: '', small: small.join('; ') }
  }
  const small = a1cSmallPrint(context, a1c).filter((part) => part !== null)
  if (a1c.outsideTable) {
    const told = [words.figures.A1C_OUTSIDE_TABLE, ...small]
    return { label: words.figures.A1C_LABEL, value, unit: '', small: told.join('; ') }
  }
  return { label: words.figures.A1C_RANGE_LABEL, value, unit: '%', small: small.join('; ') }
}

function a1cSmallPrint(
  { analysis, figures, unit, words }: ReportContext,
  a1c: ToldA1c,
): readonly (string | null)[] {
  const nights = nightsHardlyTested(analysis, figures)
  return [
    unit === 'mmol/L' && a1c.estimate !== null
      ? `${words.figures.a1cRangeText(a1c.estimate.rangePercent, (percent) => words.numbers.a1cMmolMolText(a1cPercentToMmolMol(percent)))} mmol/mol`
      : null,
    words.figures.a1cCentreText(a1c),
    words.sensor.indicatorNote(figures.asLogged),
    words.figures.a1cDaysText(a1c, figures, unit),
    words.figures.notLaboratoryText(figures.kind),
    nights && words.figures.nightsNote(nights),
  ]
}
