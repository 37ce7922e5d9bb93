import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { doubtsOf } from '../told/doubts'
import { periodA1c } from '../told/estimatedA1c'
import { type MeasureKey, namingOf, periodMeasure } from '../told/measures'
import type { Words } from '../wording/words'

/** One figure, as logged and with doubtful readings left out; texts as printed. */
export interface FigureView {
  readonly name: string
  readonly unit: string
  readonly asLogged: string
  readonly checked: string
}

export interface FiguresView {
  readonly rows: readonly FigureView[]
  /** Whether the second column is shown. */
  readonly showsChecked: boolean
  /** What stands above it. */
  readonly checkedTitle: string
  readonly remarks: readonly string[]
}

const SHOWN: readonly MeasureKey[] = [
  'readingsBelow70',
  'meanMgDl',
  'sdMgDl',
  'cvPercent',
  'medianMgDl',
  'middleHalfMgDl',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
]

/** A period's figures as the window shows them. */
export function figuresView(words: Words, analysis: Analysis, period: PeriodFigures): FiguresView {
  const { settings, technique } = analysis
  const { unit } = settings
  const doubts = doubtsOf(analysis, period)
  const decided = technique.decided.some(({ index }) => index >= period.start && index < period.end)
  const naming = namingOf(settings, period)
  const rows = SHOWN.map((key) => {
    const measure = periodMeasure(key, period)
    return {
      name: words.figures.measureLabel(key, naming),
      unit: words.figures.unitText(measure, unit),
      asLogged: words.figures.valueText(measure, unit),
      checked: words.figures.valueText(periodMeasure(key, period, 'checked'), unit),
    }
  })
  const a1c = periodA1c(period)
  rows.push({
    name: words.figures.A1C_LABEL,
    unit: `%, ${words.figures.a1cDaysText(a1c, unit)}, ${words.figures.notLaboratoryText(period.kind)}`,
    asLogged: words.figures.a1cValueText(a1c),
    checked: words.figures.a1cValueText(periodA1c(period, 'checked')),
  })
  const showsChecked =
    !doubts.tooMany && (doubts.doubtful.length > 0 || period.checked.n !== period.asLogged.n)
  const spread = periodMeasure('sdMgDl', period).heldBack
  return {
    rows,
    showsChecked,
    checkedTitle: words.window.checkedTitle(decided),
    remarks: [
      ...(showsChecked ? [words.figures.REPEATS_COUNT_ONCE] : []),
      ...(spread !== null
        ? [words.figures.figuresHeldSentence(spread, spread.why === 'markers')]
        : a1c.heldBack !== null
          ? [words.figures.a1cHeldSentence(a1c.heldBack)]
          : []),
      ...(doubts.tooMany ? [words.trust.tooManyDoubtfulSentence(doubts)] : []),
    ],
  }
}
