import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { LIMITS } from '../reference/limits'
import { heldBack, heldBackOfChecked, type HeldFigure } from '../statistics/heldBack'
import type { Summary } from '../statistics/summary'
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

interface Line {
  readonly name: string
  readonly unit: string
  readonly text: (summary: Summary) => string
  /** What of it may have to be held back. */
  readonly held?: HeldFigure
}

/** A period's figures as the window shows them. */
export function figuresView(words: Words, analysis: Analysis, period: PeriodFigures): FiguresView {
  const doubtful = analysis.technique.doubtful.filter(
    ({ index }) => index >= period.start && index < period.end,
  ).length
  const decided = analysis.technique.decided.some(({ index }) => index >= period.start && index < period.end)
  const { asLogged, checked, lows } = period
  const names = words.figureNames
  const tooMany = doubtful > words.trust.MOST_DOUBTFUL_SHARE * asLogged.n
  const rows = linesOf(words, analysis, period.kind).map(({ name, unit, text, held }) => {
    const printed = (summary: Summary) =>
      held && heldBackOfChecked(held, summary, asLogged, analysis.settings) !== null
        ? words.numbers.NO_NUMBER
        : text(summary)
    return { name, unit, asLogged: printed(asLogged), checked: printed(checked) }
  })
  const { latestA1c } = period
  rows.push({
    name: names.ESTIMATED_A1C,
    unit: names.a1cUnit(latestA1c.asLogged, period, analysis.settings.unit),
    asLogged: words.figures.latestA1cText(latestA1c.asLogged),
    // HI left out as doubtful are no reason to show an estimate that all of them would not give.
    checked:
      latestA1c.asLogged.heldBack === 'markers'
        ? words.numbers.NO_NUMBER
        : words.figures.latestA1cText(latestA1c.checked),
  })
  const below = String(lows.readingsBelow70)
  const showsChecked = !tooMany && (doubtful > 0 || checked.n !== asLogged.n)
  const remarks: string[] = []
  if (showsChecked) remarks.push(names.REPEATS_COUNT_ONCE)
  const held = heldBack('spread', asLogged, analysis.settings)
  if (held !== null) {
    remarks.push(names.heldBackSentence(held, asLogged))
  } else if (period.latestA1c.asLogged.heldBack !== null) {
    remarks.push(names.a1cHeldBackSentence(period.latestA1c.asLogged))
  }
  if (tooMany)
    remarks.push(
      words.trust.tooManyDoubtfulSentence(
        doubtful,
        asLogged.n,
        words.knownCauses.knownCauses(analysis, period),
      ),
    )
  return {
    // A low always counts: it is the same in both columns.
    rows: [
      { name: names.lowReadingsName(analysis.settings.unit), unit: '', asLogged: below, checked: below },
      ...rows,
    ],
    showsChecked,
    checkedTitle: words.window.checkedTitle(decided),
    remarks,
  }
}

function linesOf(
  words: Words,
  { settings: { unit, targetLow, targetHigh } }: Analysis,
  kind: PeriodFigures['kind'],
): readonly Line[] {
  const target = words.figures.targetText(targetLow, targetHigh, unit)
  const names = words.figureNames
  const share = kind === 'sensor' ? names.SHARE_OF_TIME : names.SHARE_OF_READINGS
  return [
    { name: names.MEAN, unit, text: (s) => words.figures.glucoseOrNone(s.mean, unit), held: 'mean' },
    { name: names.SD, unit, text: (s) => words.figures.glucoseOrNone(s.sd, unit), held: 'spread' },
    { name: names.CV, unit: '%', text: (s) => words.figures.percentOrNone(s.cvPercent), held: 'spread' },
    { name: names.MEDIAN, unit, text: (s) => words.figures.medianText(s, unit) },
    {
      name: names.MIDDLE_HALF,
      unit,
      text: (s) => words.figures.middleHalfText(s, unit),
    },
    {
      name: kind === 'sensor' ? words.sensor.inTargetLabel(kind, target) : names.inTargetName(target),
      unit: kind === 'sensor' ? '%' : share,
      text: (s) => words.figures.percentOrNone(s.percentInTarget),
    },
    {
      name: names.aboveName(words.numbers.limitText(LIMITS.high, unit)),
      unit: share,
      text: (s) => words.figures.percentOrNone(s.percentAbove180),
    },
    {
      name: names.aboveName(words.numbers.limitText(LIMITS.veryHigh, unit)),
      unit: share,
      text: (s) => words.figures.percentOrNone(s.percentAbove250),
    },
  ]
}
