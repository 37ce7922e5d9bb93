import { LIMITS } from '../reference/limits'
import { heldBack } from '../statistics/heldBack'
import { printedSdInterval } from '../statistics/printedSd'
import type { Interval } from '../statistics/wilson'
import { capitalised } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** The 95 % limits of the figures as logged; behind, where nobody takes them for the spread of the readings. */
export function howWellKnown(context: ReportContext): readonly Block[] {
  const title = heading('How well the figures are known')
  if (context.figures.intervals.asLogged.ci95 === null) {
    return keptTogether(
      [title, paragraph(`${capitalised(context.words.figures.TOO_FEW_DAYS)}.`, SMALL)],
      context.width,
    )
  }
  const blocks = [
    title,
    table(
      [
        { title: 'figure, as logged', width: 195 },
        { title: 'value', width: 60, align: 'right' },
        { title: 'known to about', width: 90, align: 'right' },
      ],
      rowsOf(context),
      SMALL,
    ),
    greyParagraph(
      'What the choice of days leaves open, 95 in 100; not how widely the readings spread, and not how far a meter may be off.',
      { fontSize: TYPE.small },
    ),
    greyParagraph(context.words.lows.lowsBehindShareSentence(context.figures), { fontSize: TYPE.small }),
  ]
  return keptTogether(blocks, context.width)
}

function rowsOf({ figures, unit, analysis, words }: ReportContext): readonly (readonly string[])[] {
  const summary = figures.asLogged
  const { ci95, balancedMean } = figures.intervals.asLogged
  const { targetLow, targetHigh } = analysis.settings
  const glucose = (mgDl: number) => words.numbers.glucoseText(mgDl, unit)
  const row = (
    name: string,
    value: string,
    limits: Interval | null | undefined,
    text: (limit: number) => string,
  ) => [
    name,
    value,
    limits ? words.numbers.rangeText(text(limits[0]), text(limits[1])) : words.numbers.NO_NUMBER,
  ]
  const share = (name: string, percent: number | null, limits: Interval | null | undefined) =>
    row(`Readings ${name}, %`, words.figures.percentOrNone(percent), limits, words.numbers.percentText)
  const spread = [
    row(
      `SD, ${unit}`,
      words.figures.glucoseOrNone(summary.sd, unit),
      ci95 && summary.sd !== null ? printedSdInterval(summary.sd, ci95.sd, figures.daysWithReadings) : null,
      glucose,
    ),
    row(
      'Coefficient of variation, %',
      words.figures.percentOrNone(summary.cvPercent),
      ci95?.cvPercent,
      words.numbers.percentText,
    ),
  ]
  const middle = [
    row(`Mean, ${unit}`, words.figures.glucoseOrNone(summary.mean, unit), ci95?.mean, glucose),
    row(
      words.figures.balancedLabel(summary.balancedBlocks, unit),
      words.figures.glucoseOrNone(summary.balancedMean, unit),
      balancedMean,
      glucose,
    ),
  ]
  return [
    ...(heldBack('mean', summary, analysis.settings) === null ? middle : []),
    ...(heldBack('spread', summary, analysis.settings) === null ? spread : []),
    share(
      `below ${words.numbers.limitText(LIMITS.veryLow, unit)}`,
      summary.percentBelow54,
      ci95?.percentBelow54,
    ),
    share(`below ${words.numbers.limitText(LIMITS.low, unit)}`, summary.percentBelow70, ci95?.percentBelow70),
    row(
      `${words.sensor.inTargetLabel(figures.kind, words.figures.targetText(targetLow, targetHigh, unit))}, %`,
      words.figures.percentOrNone(summary.percentInTarget),
      ci95?.percentInTarget,
      words.numbers.percentText,
    ),
    share(
      `above ${words.numbers.limitText(LIMITS.high, unit)}`,
      summary.percentAbove180,
      ci95?.percentAbove180,
    ),
    share(
      `above ${words.numbers.limitText(LIMITS.veryHigh, unit)}`,
      summary.percentAbove250,
      ci95?.percentAbove250,
    ),
  ]
}
