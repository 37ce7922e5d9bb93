import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { a1cPercentToMmolMol } from '../statistics/estimatedA1c'
import { periodA1c } from '../told/estimatedA1c'
import { extremes, markersTold, nightsHardlyTested } from '../told/markers'
import {
  balancedBeside,
  knownTo,
  type MeasureKey,
  namingOf,
  periodMeasure,
  shareCount,
} from '../told/measures'
import type { Words } from '../wording/words'

export interface LargeFigure {
  readonly label: string
  readonly value: string
  readonly unit: string
  readonly small: string
}

/** How HI and LO were counted, and the figures without them; null where there are none. */
export function markersText(words: Words, analysis: Analysis, figures: PeriodFigures): string | null {
  const markers = markersTold(analysis, figures)
  return markers && words.figures.markersSentence(markers, analysis.settings)
}

const LARGE = ['meanMgDl', 'sdMgDl', 'cvPercent', 'percentInTarget'] as const

/** Mean, SD, CV, readings in target and estimated A1C, as logged. */
export function largeFigures(
  words: Words,
  analysis: Analysis,
  figures: PeriodFigures,
): readonly LargeFigure[] {
  const { unit } = analysis.settings
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
        small: smallPrint(words, analysis, figures, key)
          .filter((part) => part !== null)
          .join('; '),
      }
    }),
    a1cFigure(words, analysis, figures),
  ]
}

/** How well a figure is known, or why it is not shown, and what it rests on. */
function smallPrint(
  words: Words,
  analysis: Analysis,
  figures: PeriodFigures,
  key: (typeof LARGE)[number],
): readonly (string | null)[] {
  const { unit } = analysis.settings
  const measure = periodMeasure(key, figures)
  const text = (of: MeasureKey) => words.figures.valueText(periodMeasure(of, figures), unit)
  const held = measure.heldBack && words.figures.heldBackText(measure.heldBack)
  const knownWell = knownTo(measure, unit)
  const known = knownWell && words.figures.knownToText(knownWell)
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
function a1cFigure(words: Words, analysis: Analysis, figures: PeriodFigures): LargeFigure {
  const { figures: texts, numbers } = words
  const { unit } = analysis.settings
  const a1c = periodA1c(figures)
  const { heldBack, estimate, outsideTable } = a1c
  const isRange = heldBack === null && !outsideTable
  const indicator = words.sensor.indicatorNote(figures.asLogged)
  const nights = nightsHardlyTested(analysis, figures)
  const small =
    heldBack !== null
      ? [texts.heldBackText(heldBack), heldBack.why === 'few-days' ? indicator : null]
      : [
          outsideTable ? texts.A1C_OUTSIDE_TABLE : null,
          unit === 'mmol/L' && estimate !== null
            ? `${texts.a1cRangeText(estimate.rangePercent, (percent) => numbers.a1cMmolMolText(a1cPercentToMmolMol(percent)))} mmol/mol`
            : null,
          texts.a1cCentreText(a1c),
          indicator,
          texts.a1cDaysText(a1c, unit),
          texts.notLaboratoryText(figures.kind),
          nights && texts.nightsNote(nights),
        ]
  return {
    label: isRange ? texts.A1C_RANGE_LABEL : texts.A1C_LABEL,
    value: texts.a1cValueText(a1c),
    unit: isRange ? '%' : '',
    small: small.filter((part) => part !== null).join('; '),
  }
}
