import { PRINT_PALETTE } from '../charts/palette'
import { FLAG, hasClockTime, hasFlag, valueIn } from '../log/readings'
import { NIGHT_ENDS_AT_HOUR } from '../reference/dayParts'
import { isOutsideTable } from '../statistics/latestA1c'
import { a1cPercentToMmolMol } from '../statistics/estimatedA1c'
import { printedSdInterval } from '../statistics/printedSd'
import { FEWEST_READINGS, hasManyMarkers, heldBack, type HeldFigure } from '../statistics/heldBack'
import { fixed } from '../units/rounding'
import { newMeters } from '../technique/newMeters'
import { secondOfDay } from '../units/wallClock'
import type { ReportContext } from './context'
import type { Block, Stack } from './document'
import { paragraph, sectionHeading, TYPE } from './parts'
import { glucoseDecimals } from '../units/glucose'

const NIGHT_SECONDS = NIGHT_ENDS_AT_HOUR * 3600

/** Of the five large figures, points; the estimated A1C has the longest words. */
const WIDTHS = [84, 96, 96, 96, '*'] as const

export interface LargeFigure {
  readonly label: string
  readonly value: string
  readonly unit: string
  readonly small: string
}

/** The five large figures, as logged, each with what it rests on in small print. */
export function theNumbers(context: ReportContext): readonly Block[] {
  const markers = markersText(context)
  return [
    ...sectionHeading('The numbers', context.width),
    { columns: largeFigures(context).map((figure, i) => figureBlock(figure, WIDTHS[i])), columnGap: 10 },
    ...(markers === null ? [] : [paragraph(markers, { margin: [0, 4, 0, 0] })]),
    ...besideNumbers(context).map((sentence) => paragraph(sentence, { margin: [0, 2, 0, 0] })),
  ]
}

/** What else must be known to read the numbers: a new meter, the latest days, what was tested because it was felt. */
export function besideNumbers({
  analysis,
  figures,
  years,
  meterNames,
  words,
}: ReportContext): readonly string[] {
  const { settings, readings, technique } = analysis
  const { latestStretch, unprompted, asLogged, intervals } = figures
  return [
    ...(asLogged.n >= FEWEST_READINGS && asLogged.sd === 0 && !hasManyMarkers(asLogged)
      ? [words.besideNumbers.allTheSameSentence(asLogged.n)]
      : []),
    ...newMeters(readings, technique.meterPairs, figures).map((found) =>
      words.besideNumbers.newMeterSentence(found, meterNames[found.meter], meterNames[found.other], years),
    ),
    ...(latestStretch === null ? [] : [words.besideNumbers.latestSentence(latestStretch, settings, years)]),
    ...(unprompted !== null &&
    words.besideNumbers.isMovedByPrompts(unprompted, asLogged, intervals.asLogged.ci95)
      ? [words.besideNumbers.unpromptedSentence(unprompted, settings)]
      : []),
  ]
}

/** Mean, SD, CV, readings in target and estimated A1C, as logged. */
export function largeFigures(context: ReportContext): readonly LargeFigure[] {
  const { figures, unit } = context
  const { settings } = context.analysis
  const summary = figures.asLogged
  const { ci95 } = figures.intervals.asLogged
  const sensor = figures.kind === 'sensor'
  const enough = summary.n >= FEWEST_READINGS && !hasManyMarkers(summary)
  const held = (which: HeldFigure, figure: LargeFigure): LargeFigure => {
    const why = heldBack(which, summary, settings)
    if (why === null) return figure
    return {
      ...figure,
      value: context.words.numbers.NO_NUMBER,
      unit: '',
      small: context.words.figures.heldBackText(why, summary),
    }
  }
  const median = `median ${context.words.figures.medianText(summary, unit)}`
  const range = `lowest ${extreme(context, 'lowest')}, highest ${extreme(context, 'highest')}`
  const noMean = heldBack('mean', summary, settings)
  const target = context.words.figures.targetText(settings.targetLow, settings.targetHigh, unit)
  const inTarget =
    summary.percentInTarget === null ? 0 : Math.round((summary.percentInTarget * summary.n) / 100)
  const share = ci95 === null ? '' : `; ${context.words.figures.shareKnownTo(ci95.percentInTarget)}`
  const balanced = context.words.figures.balancedNote(summary, unit)
  const sd = summary.sd ?? NaN
  const sdKnownTo =
    ci95 === null
      ? ''
      : `${context.words.figures.glucoseKnownTo(sd, printedSdInterval(sd, ci95.sd, figures.daysWithReadings), unit)}; `
  return [
    {
      label: 'Mean',
      value:
        noMean === null
          ? context.words.figures.glucoseOrNone(summary.mean, unit)
          : context.words.numbers.NO_NUMBER,
      unit: '',
      small:
        noMean === null
          ? `${ci95 === null ? context.words.figures.TOO_FEW_DAYS : context.words.figures.glucoseKnownTo(summary.mean ?? NaN, ci95.mean, unit)}; ${median}; ${range}${balanced === null ? '' : `; ${balanced}`}`
          : `${context.words.figures.heldBackText('markers', summary)}; ${median}; ${range}`,
    },
    held('spread', {
      label: 'SD',
      value: context.words.figures.glucoseOrNone(summary.sd, unit),
      unit: '',
      small: `${sdKnownTo}half of the readings ${context.words.figures.middleHalfText(summary, unit)}`,
    }),
    held('spread', {
      label: 'Coefficient of variation',
      value: context.words.figures.percentOrNone(summary.cvPercent),
      unit: '%',
      small: `${ci95 === null ? '' : `${context.words.figures.percentKnownTo(summary.cvPercent ?? NaN, ci95.cvPercent)}; `}SD in percent of the mean`,
    }),
    {
      label: context.words.sensor.inTargetLabel(figures.kind, target),
      // A percentage in large type of so few readings, or of no numbers, would look like more than it is.
      value: enough
        ? context.words.figures.percentOrNone(summary.percentInTarget)
        : `${inTarget} of ${summary.n}`,
      unit: enough ? '%' : '',
      small: sensor
        ? `${inTarget} of ${summary.n} sensor readings${share}`
        : [
            `${inTarget} of ${summary.n}${share}; of readings, not of time`,
            context.words.targets.presetName(settings) ?? [],
          ]
            .flat()
            .join('; '),
    },
    a1cFigure(context),
  ]
}

/** Of the latest 90 days; in pregnancy an A1C misleads. */
function a1cFigure(context: ReportContext): LargeFigure {
  const latest = context.figures.latestA1c.asLogged
  if (latest.estimate === null) {
    const indicator =
      latest.heldBack === 'few-days' ? context.words.sensor.indicatorNote(context.figures.asLogged) : null
    const small = [
      context.words.figures.a1cHeldBackText(latest),
      ...(indicator === null ? [] : [indicator]),
    ].join('; ')
    return { label: 'Estimated A1C', value: context.words.numbers.NO_NUMBER, unit: '', small }
  }
  const value = context.words.figures.latestA1cText(latest)
  if (isOutsideTable(latest)) {
    return {
      label: 'Estimated A1C',
      value,
      unit: '',
      small: `${context.words.figures.A1C_OUTSIDE_TABLE}; ${a1cSmallPrint(context)}`,
    }
  }
  return { label: 'Estimated A1C, range', value, unit: '%', small: a1cSmallPrint(context) }
}

function figureBlock(figure: LargeFigure, width: number | '*'): Stack {
  const unit = figure.unit === '' ? [] : [{ text: ` ${figure.unit}`, fontSize: TYPE.body }]
  return {
    width,
    stack: [
      { text: figure.label, noWrap: true },
      {
        text: [{ text: figure.value, fontSize: sizeOf(figure.value), bold: true }, ...unit],
        noWrap: true,
        margin: [0, -1, 0, -1],
      },
      { text: figure.small, fontSize: TYPE.small, color: PRINT_PALETTE.grey },
    ],
  }
}

/** Words among the figures ('up to 6.1') are set smaller, so that they stay in their column. */
function sizeOf(value: string): number {
  const WIDEST = 9
  return value.length > WIDEST ? (TYPE.figure * 2) / 3 : TYPE.figure
}

function a1cSmallPrint(context: ReportContext): string {
  const { figures, unit } = context
  const latest = figures.latestA1c.asLogged
  const kind = figures.kind === 'sensor' ? 'sensor readings' : 'finger-sticks'
  const range =
    unit === 'mmol/L' && latest.estimate !== null
      ? `${context.words.figures.a1cRangeText(latest.estimate.rangePercent, (percent) => context.words.numbers.a1cMmolMolText(a1cPercentToMmolMol(percent)))} mmol/mol`
      : null
  return [
    range,
    context.words.figures.a1cCentreText(latest),
    context.words.sensor.indicatorNote(figures.asLogged),
    context.words.figures.a1cDaysText(latest, figures, unit),
    `from ${kind}, not a laboratory A1C`,
    nightsText(context),
  ]
    .filter((part) => part !== null)
    .join('; ')
}

function nightsText(context: ReportContext): string | null {
  const { readings } = context.analysis
  const timed = context.indexes.filter((index) => hasClockTime(readings, index))
  const atNight = timed.filter((index) => secondOfDay(readings.at[index]) < NIGHT_SECONDS).length
  return timed.length === 0 ? null : context.words.figures.nightsNote(atNight, timed.length)
}

/** The lowest or highest reading as printed; 'LO' and 'HI' where a marker is. */
function extreme(context: ReportContext, which: 'lowest' | 'highest'): string {
  const { unit } = context
  const { readings } = context.analysis
  const sign = which === 'lowest' ? 1 : -1
  const marker = which === 'lowest' ? FLAG.belowRange : FLAG.aboveRange
  const [first, ...others] = context.indexes
  const found = others.reduce((extremeSoFar, index) => {
    const further = sign * (readings.mgDl[extremeSoFar] - readings.mgDl[index])
    // A LO at 20 lies below a reading of 20.
    return further > 0 || (further === 0 && hasFlag(readings, index, marker)) ? index : extremeSoFar
  }, first)
  return context.indexes.length > 0
    ? context.words.numbers.readingText(readings, found, unit)
    : context.words.numbers.NO_NUMBER
}

/** How HI and LO were counted, and the figures without them; null where there are none. */
export function markersText(context: ReportContext): string | null {
  const { figures, unit } = context
  const { readings } = context.analysis
  const limits = (flag: number) => {
    const marked = context.indexes.filter((index) => hasFlag(readings, index, flag))
    return [...new Set(marked.map((index) => fixed(valueIn(readings, index, unit), glucoseDecimals(unit))))]
  }
  const { n, aboveRange, belowRange } = figures.asLogged
  return context.words.figures.markersSentence(
    {
      n,
      aboveRange,
      belowRange,
      upperLimits: limits(FLAG.aboveRange),
      lowerLimits: limits(FLAG.belowRange),
    },
    figures.withoutMarkers,
    figures.latestA1c.withoutMarkers,
    context.analysis.settings,
  )
}
