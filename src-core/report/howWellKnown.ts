import { LIMITS } from '../reference/limits'
import { heldBack } from '../statistics/heldBack'
import { printedSdInterval } from '../statistics/printedSd'
import type { Interval } from '../statistics/wilson'
import { balancedLabel, glucoseOrNone, percentOrNone, targetText, TOO_FEW_DAYS } from '../wording/figures'
import { glucoseText, limitText, NO_NUMBER, percentText, rangeText } from '../wording/numbers'
import { lowsBehindShareSentence } from '../wording/lows'
import { capitalised } from '../wording/phrases'
import { inTargetLabel } from '../wording/sensor'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** The 95 % limits of the figures as logged; behind, where nobody takes them for the spread of the readings. */
export function howWellKnown(context: ReportContext): readonly Block[] {
  const title = heading('How well the figures are known')
  if (context.figures.intervals.asLogged.ci95 === null) {
    return keptTogether([title, paragraph(`${capitalised(TOO_FEW_DAYS)}.`, SMALL)], context.width)
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
    greyParagraph(lowsBehindShareSentence(context.figures), { fontSize: TYPE.small }),
  ]
  return keptTogether(blocks, context.width)
}

function rowsOf({ figures, unit, analysis }: ReportContext): readonly (readonly string[])[] {
  const summary = figures.asLogged
  const { ci95, balancedMean } = figures.intervals.asLogged
  const { targetLow, targetHigh } = analysis.settings
  const glucose = (mgDl: number) => glucoseText(mgDl, unit)
  const row = (
    name: string,
    value: string,
    limits: Interval | null | undefined,
    text: (limit: number) => string,
  ) => [name, value, limits ? rangeText(text(limits[0]), text(limits[1])) : NO_NUMBER]
  const share = (name: string, percent: number | null, limits: Interval | null | undefined) =>
    row(`Readings ${name}, %`, percentOrNone(percent), limits, percentText)
  const spread = [
    row(
      `SD, ${unit}`,
      glucoseOrNone(summary.sd, unit),
      ci95 && summary.sd !== null ? printedSdInterval(summary.sd, ci95.sd, figures.daysWithReadings) : null,
      glucose,
    ),
    row('Coefficient of variation, %', percentOrNone(summary.cvPercent), ci95?.cvPercent, percentText),
  ]
  const middle = [
    row(`Mean, ${unit}`, glucoseOrNone(summary.mean, unit), ci95?.mean, glucose),
    row(
      balancedLabel(summary.balancedBlocks, unit),
      glucoseOrNone(summary.balancedMean, unit),
      balancedMean,
      glucose,
    ),
  ]
  return [
    ...(heldBack('mean', summary, analysis.settings) === null ? middle : []),
    ...(heldBack('spread', summary, analysis.settings) === null ? spread : []),
    share(`below ${limitText(LIMITS.veryLow, unit)}`, summary.percentBelow54, ci95?.percentBelow54),
    share(`below ${limitText(LIMITS.low, unit)}`, summary.percentBelow70, ci95?.percentBelow70),
    row(
      `${inTargetLabel(figures.kind, targetText(targetLow, targetHigh, unit))}, %`,
      percentOrNone(summary.percentInTarget),
      ci95?.percentInTarget,
      percentText,
    ),
    share(`above ${limitText(LIMITS.high, unit)}`, summary.percentAbove180, ci95?.percentAbove180),
    share(`above ${limitText(LIMITS.veryHigh, unit)}`, summary.percentAbove250, ci95?.percentAbove250),
  ]
}
