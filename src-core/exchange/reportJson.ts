import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { Settings } from '../model/settings'
import {
  type Change,
  type Comparison,
  FEWEST_BLOCKS,
  FEWEST_TAGGED_PERCENT,
  type NoSameMeals,
} from '../compare/comparison'
import { LONG_PERIOD_DAYS, type LatestStretch } from '../day/latestStretch'
import type { BlockFigures } from '../day/timeOfDay'
import type { ByMeal, MealRises, RowFigures } from '../day/meals'
import { type DayKindFigures, TREND_LEAST_WEEKS, type Week, WEEK_LEAST_DAYS } from '../day/week'
import type { LaboratoryBeside } from '../kit/laboratoryA1c'
import type { Finding } from '../findings/finding'
import { type LogReport, setAsideByReason } from '../log/logReport'
import { momentText, type Readings } from '../log/readings'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { FEWEST_READINGS } from '../statistics/heldBack'
import type { Intervals } from '../statistics/intervals'
import { A1C_DAYS, FEWEST_A1C_DAYS, type LatestA1c } from '../statistics/latestA1c'
import type { Summary } from '../statistics/summary'
import { minutesBetween } from '../technique/chronology'
import type { MeterPair } from '../technique/meterPairs'
import type { DoubtReason } from '../technique/reasons/reasonTable'
import type { RepeatSet, Trial } from '../technique/technique'
import { isoDay } from '../units/wallClock'
import { findingsTold } from '../told/findings'
import { reasonsTold } from '../told/reasons'
import type { Words } from '../wording/words'

/** Version of the layout below; grows only where a reader of the old one would be misled. */
const SCHEMA_VERSION = 1

/**
 * All figures as a plain object ready for JSON, in mg/dL and full precision. A figure that may not be computed
 * is null and has a sibling named `...Reason`; figures of parts that do not exist yet are absent.
 */
export function reportJson(
  words: Words,
  analysis: Analysis,
  program: { readonly name: string; readonly version: string },
): Record<string, unknown> {
  const { readings, sources, settings } = analysis
  const missing = words.missingFigures
  return {
    schemaVersion: SCHEMA_VERSION,
    program: { name: program.name, version: program.version },
    settings: settingsJson(settings),
    sources: sources.map((one) => sourceJson(words, one)),
    readings: withReasons(
      {
        n: readings.n,
        firstAt: readings.n === 0 ? null : momentText(readings, 0),
        lastAt: readings.n === 0 ? null : momentText(readings, readings.n - 1),
        duplicatesAcrossLogs: analysis.duplicatesAcrossLogs,
      },
      () => missing.NO_READING,
    ),
    periods: analysis.periods.map((period) => periodJson(words, period, readings, settings)),
    comparison: analysis.comparison && comparisonJson(missing, analysis.comparison, readings),
    laboratoryA1c: analysis.laboratory.map((one) => laboratoryJson(missing, one)),
    technique: {
      ...techniqueJson(words, analysis),
      decisionsGone: analysis.decisionsGone.map(({ reading, choice, decidedAt, ...why }) => ({
        at: reading.at,
        loggedValue: reading.value,
        loggedUnit: reading.unit,
        choice,
        reason: words.decided.whyDecided(why),
        decidedAt,
      })),
    },
  }
}

/** Why a figure is missing, in words. */
type Missing = Words['missingFigures']

/** Adds to each null figure, or range with a null limit, a sibling that says why. */
function withReasons(
  figures: Readonly<Record<string, unknown>>,
  why: (key: string) => string,
): Record<string, unknown> {
  const told: Record<string, unknown> = {}
  for (const [key, value] of Object.entries(figures)) {
    told[key] = value
    if (value === null || (Array.isArray(value) && value.includes(null))) told[`${key}Reason`] = why(key)
  }
  return told
}

function laboratoryJson(
  missing: Missing,
  { date, percent, mmolMol, before, daysByMonth, ...beside }: LaboratoryBeside,
) {
  const figures = {
    meanMgDl: before.meanMgDl,
    estimatedA1cPercent: before.estimate?.percent ?? null,
    estimatedA1cRangePercent: before.estimate?.rangePercent ?? null,
    differencePercentPoints: beside.difference,
    position: beside.position,
  }
  return {
    date: isoDay(date),
    percent,
    mmolMol,
    readingsBefore: before.n,
    daysWithReadingsBefore: before.daysWithReadings,
    daysWithReadingsByMonth: daysByMonth,
    ...withReasons(figures, (key) =>
      key === 'position' && before.n > 0 ? missing.OUTSIDE_TABLE : missing.NO_READINGS_BEFORE,
    ),
  }
}

function settingsJson(settings: Settings) {
  return {
    unit: settings.unit,
    targetLow: settings.targetLow.mgDl,
    targetHigh: settings.targetHigh.mgDl,
    targetPreset: settings.targetPreset ?? 'none',
    // The person's own goal before meals; without one these keys are absent.
    ...(settings.ownGoal !== null && {
      goalLow: settings.ownGoal.low?.mgDl,
      goalHigh: settings.ownGoal.high.mgDl,
    }),
    repeatWindowMinutes: settings.repeatWindowMinutes,
    doubtThreshold: settings.doubtThreshold,
    doubtThresholdLow: settings.doubtThresholdLow,
    seed: settings.seed,
  }
}

function sourceJson(words: Words, report: LogReport) {
  const counts = [...setAsideByReason(report)].map(([reason, rows]) => [reason, rows.length] as const)
  return {
    name: report.name,
    sha256: report.sha256,
    bytes: report.bytes,
    encoding: report.encoding,
    delimiter: report.delimiter,
    headerLine: report.headerLine,
    columns: report.columns,
    tables: report.tables,
    notUsed: report.notUsed,
    unit: report.unit,
    dateOrder: report.dateOrder,
    rows: report.rows,
    setAsideByReason: Object.fromEntries(counts),
    setAside: report.setAside.map(({ line, reason, text }) => ({
      line,
      reason,
      detail: words.importMessages.SET_ASIDE_DETAIL[reason],
      text,
    })),
    notes: report.notes.map((note) => words.importMessages.noteText(note, 'terminal')),
  }
}

/** The first reading after an episode that is no low, with the minutes since its first. */
function recoveredJson(words: Words, readings: Readings, members: readonly number[], index: number | null) {
  if (index === null) return { recovered: null, recoveredReason: words.lows.NO_RECOVERY_SEEN }
  return {
    recovered: {
      at: momentText(readings, index),
      mgDl: readings.mgDl[index],
      minutes: minutesBetween(readings, members[0], index),
    },
  }
}

function periodJson(words: Words, period: PeriodFigures, readings: Readings, settings: Settings) {
  const { lows } = period
  const missing = words.missingFigures
  const moment = (index: number) => momentText(readings, index)
  return {
    from: isoDay(period.from),
    to: isoDay(period.to),
    days: period.days,
    daysWithReadings: period.daysWithReadings,
    readingsPerDay: period.readingsPerDay,
    kind: period.kind,
    asLogged: summaryJson(missing, period.asLogged, period.intervals.asLogged),
    checked: summaryJson(missing, period.checked, period.intervals.checked),
    timeOfDay: {
      hours: period.timeOfDay.hours.map((hour) => withReasons({ ...hour }, () => missing.NO_READING)),
      blocks: period.timeOfDay.blocks.map((block) => blockJson(missing, block)),
      curve: period.timeOfDay.curve.map((point) => withReasons({ ...point }, () => missing.TOO_FEW_NEAR)),
    },
    byMeal: byMealJson(missing, period.byMeal, readings),
    week: weekJson(missing, period.week),
    ...withReasons(
      {
        latest30Days: period.latestStretch && latestStretchJson(period.latestStretch),
        // Without tests that something felt seems to have prompted.
        withoutPrompted: period.unprompted,
      },
      (key) => (key === 'latest30Days' ? missing.noLatestDays(LONG_PERIOD_DAYS) : missing.NOTHING_PROMPTED),
    ),
    lows: {
      readingsBelow70: lows.readingsBelow70,
      readingsBelow54: lows.readingsBelow54,
      nightsTested: lows.nightsTested,
      nights: lows.nights,
      nightsTestedByHour: lows.nightsTestedByHour,
      daysWithLows: lows.daysWithLows,
      episodes: lows.episodes.map(({ members, lowestMgDl, doubtful, recovered }) => ({
        from: moment(members[0]),
        to: moment(members[members.length - 1]),
        lowestMgDl,
        readings: members.length,
        doubtful,
        ...recoveredJson(words, readings, members, recovered),
      })),
      notCounted: lows.notCounted.map(({ source, line, why }) => ({
        source,
        line,
        why: words.lows.NOT_COUNTED_WORDS[why],
      })),
    },
    ...latestA1cJson(missing, period.latestA1c.asLogged),
    findings: period.findings.map((finding) => findingJson(words, finding, settings)),
  }
}

function latestA1cJson(
  missing: Missing,
  { from, to, n, daysWithReadings, meanMgDl: mean, estimate, heldBack }: LatestA1c,
) {
  if (estimate === null || heldBack !== null) {
    return { latestA1c: null, latestA1cReason: whyNoA1c(missing, heldBack ?? 'few-readings') }
  }
  return {
    latestA1c: {
      from: isoDay(from),
      to: isoDay(to),
      n,
      daysWithReadings,
      meanMgDl: mean,
      ...withReasons(estimate, () => missing.OUTSIDE_TABLE),
    },
  }
}

function whyNoA1c(missing: Missing, heldBack: NonNullable<LatestA1c['heldBack']>): string {
  switch (heldBack) {
    case 'markers':
      return missing.TOO_MANY_MARKERS
    case 'few-readings':
      return missing.tooFewLatestReadings(FEWEST_READINGS, A1C_DAYS)
    case 'few-days':
      return missing.tooFewLatestDays(FEWEST_A1C_DAYS, A1C_DAYS)
    case 'pregnancy':
      return missing.IN_PREGNANCY
  }
}

function findingJson(words: Words, finding: Finding, settings: Settings) {
  const { code, evidence, adjustedP, withoutDoubtful } = finding
  return {
    code,
    text: words.findings.findingText(findingsTold([finding], settings)[0], settings),
    ask: words.findings.findingQuestion(finding),
    evidence: { ...evidence, ...(adjustedP !== null && { adjustedP }), withoutDoubtful },
  }
}

function byMealJson(
  missing: Missing,
  { tagged, n, moments, untagged, pairs, rises }: ByMeal,
  readings: Readings,
) {
  const rowJson = (row: RowFigures) => ({
    ...middleJson(missing, row),
    minMgDl: readings.mgDl[row.lowest],
    maxMgDl: readings.mgDl[row.highest],
    readingsBelow70: row.readingsBelow70,
  })
  return {
    tagged,
    n,
    ...withReasons({ untagged: untagged && rowJson(untagged) }, () => missing.EVERY_READING_TAGGED),
    moments: moments.map((figures) => ({
      moment: figures.moment,
      ...rowJson(figures),
      // A moment without a published goal has none of these keys.
      ...(figures.goal !== null && {
        ...(figures.goal.low !== null && { goalLowMgDl: figures.goal.low.mgDl }),
        goalHighMgDl: figures.goal.high.mgDl,
        goalHighIncluded: figures.goal.below !== true,
        withinGoal: figures.withinGoal,
      }),
    })),
    pairs: pairs.map(({ meal, before, after, riseMgDl }) => ({
      meal,
      before: testJson(readings, before),
      after: testJson(readings, after),
      riseMgDl,
    })),
    rises: rises.map((rise) => ({ meal: rise.meal, ...middleJson(missing, rise) })),
  }
}

/** The middle of some readings or rises, with the interval of their median. */
function middleJson(
  missing: Missing,
  { n, medianMgDl, q1MgDl, q3MgDl, medianCi95MgDl }: Omit<MealRises, 'meal'>,
) {
  return {
    n,
    medianMgDl,
    q1MgDl,
    q3MgDl,
    ...withReasons({ medianCi95MgDl }, () => missing.tooFewDays(FEWEST_DAYS)),
  }
}

function latestStretchJson({ from, to, meanMgDl, before, ...told }: LatestStretch) {
  return {
    from: isoDay(from),
    to: isoDay(to),
    ...told,
    meanMgDl,
    before: {
      meanMgDl: before.meanMgDl,
      percentInTarget: before.percentInTarget,
      differenceCi95: before.differenceCi95,
      ...(before.changedSince !== null && { changedSince: isoDay(before.changedSince) }),
    },
  }
}

function weekJson(missing: Missing, { weekdays, weekend, daysWithEnough, hoursNeverTested, trend }: Week) {
  const kind = ({ n, medianMgDl, medianCi95MgDl }: DayKindFigures) =>
    withReasons({ n, medianMgDl, medianCi95MgDl }, () =>
      n === 0 ? missing.NO_READING : missing.tooFewDays(FEWEST_DAYS),
    )
  return {
    weekdays: kind(weekdays),
    weekend: kind(weekend),
    daysWithEnough,
    hoursNeverTested,
    ...withReasons({ trendMgDlPerWeek: trend?.mgDlPerWeek ?? null, trendCi95: trend?.ci95 ?? null }, () =>
      missing.tooFewWeeks(TREND_LEAST_WEEKS, WEEK_LEAST_DAYS),
    ),
  }
}

function summaryJson(missing: Missing, summary: Summary, { ci95, balancedMeanCi95MgDl }: Intervals) {
  return withReasons({ ...summary, ci95, balancedMeanCi95MgDl }, (key) => {
    if (summary.n === 0) return missing.NO_READING
    if (summary.estimatedA1cRangePercent !== null && key === 'estimatedA1cRangePercent')
      return missing.OUTSIDE_TABLE
    if (key === 'ci95' || (key === 'balancedMeanCi95MgDl' && summary.balancedMeanMgDl !== null))
      return missing.tooFewDays(FEWEST_DAYS)
    return key.startsWith('balancedMean') ? missing.NO_BLOCK : missing.BELOW_TWO_READINGS
  })
}

function blockJson(missing: Missing, block: BlockFigures) {
  const figures = {
    fromHour: block.fromHour,
    toHour: block.toHour,
    n: block.n,
    meanMgDl: block.meanMgDl,
    sdMgDl: block.sdMgDl,
    q1MgDl: block.q1MgDl,
    medianMgDl: block.medianMgDl,
    q3MgDl: block.q3MgDl,
    percentBelow70: block.percentBelow70,
    percentAbove180: block.percentAbove180,
    medianCi95MgDl: block.ci95.medianMgDl,
    percentBelow70Ci95: block.ci95.percentBelow70,
    percentAbove180Ci95: block.ci95.percentAbove180,
  }
  return withReasons(figures, (key) => {
    if (block.n === 0) return missing.NO_READING
    if (key === 'sdMgDl') return missing.BELOW_TWO_READINGS
    return missing.tooFewDays(FEWEST_DAYS)
  })
}

function comparisonJson(missing: Missing, comparison: Comparison, readings: Readings) {
  const {
    lows,
    together,
    measures,
    sameTimesOfDay,
    sameMeals,
    habits,
    habitChanges,
    blocks,
    meters,
    sharedDays,
  } = comparison
  return {
    measures: measures.map(({ measure, ...change }) => ({ measure, ...changeJson(missing, change) })),
    ...withReasons(
      {
        sameTimesOfDay: sameTimesOfDay && {
          ...changeJson(missing, sameTimesOfDay),
          ...verdictReasonJson(sameTimesOfDay),
          fromHours: sameTimesOfDay.fromHours,
        },
        sameMeals:
          typeof sameMeals === 'string'
            ? null
            : { ...changeJson(missing, sameMeals), cells: sameMeals.cells },
      },
      (key) =>
        key === 'sameMeals' && typeof sameMeals === 'string'
          ? whyNoSameMeals(missing, sameMeals)
          : missing.tooFewBlocks(FEWEST_BLOCKS),
    ),
    // All rows as one: the page calls a row higher or lower only where they are clear together.
    allRows: together,
    lows,
    // Where the habit of testing changed, the page calls none of the measures higher or lower.
    habitChanges,
    afterMealOfTagged: habits.map(({ afterMeal, tagged }) => ({ count: afterMeal, n: tagged })),
    blocks: blocks.map(({ p, adjustedP, verdict, verdictReason, ...means }) => ({
      ...means,
      ...withReasons({ p, adjustedP }, (key) =>
        key === 'p' || verdictReason === 'few-days'
          ? missing.tooFewDaysInOne(FEWEST_DAYS)
          : missing.TESTED_OTHERWISE,
      ),
      verdict,
      ...verdictReasonJson({ verdictReason }),
    })),
    meters: meters.map(({ meter, firstPercent, secondPercent }) => ({
      meter: readings.meters[meter],
      firstPercent,
      secondPercent,
    })),
    daysInBoth: sharedDays === null ? 0 : sharedDays.to - sharedDays.from + 1,
  }
}

function whyNoSameMeals(missing: Missing, why: NoSameMeals): string {
  return why === 'few-tags' ? missing.tooFewTags(FEWEST_TAGGED_PERCENT) : missing.tooFewCells(FEWEST_BLOCKS)
}

/** Only where a verdict is withheld. */
function verdictReasonJson({ verdictReason }: { readonly verdictReason: string | null }) {
  return verdictReason === null ? {} : { verdictReason }
}

function changeJson(missing: Missing, { first, second, difference, ci95, verdict }: Change) {
  const figures = withReasons({ first, second, difference, ci95 }, (key) =>
    key === 'ci95' ? missing.tooFewDaysInOne(FEWEST_DAYS) : missing.BELOW_TWO_READINGS,
  )
  return { ...figures, verdict }
}

function techniqueJson(words: Words, { technique, stretches, readings, settings }: Analysis) {
  const missing = words.missingFigures
  const {
    doubt,
    misfit,
    notDoubtfulForMisfit,
    doubtful,
    decided,
    repeatSets,
    repeatability,
    meters,
    meterPairs,
    trials,
  } = technique
  return {
    doubtful: doubtful.map(({ index, reasons }) => ({
      ...testJson(readings, index),
      ...withReasons(
        { doubt: Number.isNaN(doubt[index]) ? null : doubt[index] },
        () => missing.NO_TEST_NEARBY,
      ),
      reasons: reasons.map((reason) => ({
        code: reason.code,
        text: words.reasons.reasonsText(reasonsTold([reason], readings, index), readings, settings.unit),
        evidence: evidenceJson(reason, readings),
      })),
    })),
    stretches: stretches.map(({ reasons, direction, indexes, toldOnce }) => ({
      codes: [...new Set(reasons.map(({ code }) => code))],
      direction,
      from: momentText(readings, indexes[0]),
      to: momentText(readings, indexes[indexes.length - 1]),
      readings: indexes.length,
      toldOnce,
    })),
    decided: decided.map(({ index, choice, decidedAt, flagged, ...why }) => ({
      ...testJson(readings, index),
      choice,
      reason: words.decided.whyDecided(why),
      decidedAt,
      flagged,
    })),
    repeatSets: repeatSets.map((set) => repeatSetJson(set, readings, doubt)),
    repeatability: withReasons({ ...repeatability }, () => missing.NO_AGREEING_SET),
    // The usual estimate of doubt, and the readings that are not doubtful for it.
    fitsBadly: [...(misfit.wide ? ['far-values'] : []), ...(misfit.quick ? ['quick-changes'] : [])],
    notDoubtfulForIt: notDoubtfulForMisfit.map((index) => testJson(readings, index)),
    meters: meters.map(({ meter, n }) => ({ meter, n })),
    meterPairs: meterPairs.map((pair) => meterPairJson(missing, pair, readings)),
    trials: trials.map((trial) => trialJson(missing, trial, readings)),
  }
}

function meterPairJson(missing: Missing, pair: MeterPair, readings: Readings) {
  const figures = {
    first: readings.meters[pair.first],
    second: readings.meters[pair.second],
    n: pair.pairs.length,
    meanDifferencePercent: pair.meanDifferencePercent,
    limits95Percent: pair.limits95Percent,
    meanCi95Percent: pair.meanCi95Percent,
    nextPairPercent: pair.nextPairPercent,
    within15: pair.within15,
    line: pair.line && {
      slope: pair.line.slope,
      slopeCi95: pair.line.slopeCi95,
      interceptMgDl: pair.line.intercept,
      interceptCi95MgDl: pair.line.interceptCi95,
    },
  }
  return withReasons(figures, (key) => (key === 'line' ? missing.TOO_FEW_FOR_LINE : missing.BELOW_TWO_PAIRS))
}

function trialJson(
  missing: Missing,
  { baseline, baselineMgDl, closingMgDl, steps }: Trial,
  readings: Readings,
) {
  return {
    at: momentText(readings, baseline[0]),
    baselineMgDl,
    baseline: baseline.map((index) => testJson(readings, index)),
    ...withReasons({ closingMgDl }, () => missing.NO_CLOSING_TEST),
    steps: steps.map((step) => ({
      ...testJson(readings, step.indexes[0]),
      tests: step.indexes.map((index) => testJson(readings, index)),
      label: step.label,
      changed: step.changed,
      rounds: step.indexes.length,
      mgDl: step.mgDl,
      baselineMgDl: step.baselineMgDl,
      differencePercent: step.differencePercent,
      withinTolerance: step.withinTolerance,
      smallestVisiblePercent: step.smallestVisiblePercent,
      effect: step.effect,
    })),
  }
}

/** The reading itself, findable in its log. */
function testJson(readings: Readings, index: number) {
  return {
    source: readings.source[index],
    line: readings.line[index],
    at: momentText(readings, index),
    mgDl: readings.mgDl[index],
  }
}

function evidenceJson({ evidence }: DoubtReason, readings: Readings) {
  const day = (key: string, value: number | null) => ({ [key]: value === null ? null : isoDay(value) })
  return {
    ...evidence,
    ...('other' in evidence && { other: testJson(readings, evidence.other) }),
    ...('goodUntil' in evidence && day('goodUntil', evidence.goodUntil)),
    ...('failedOn' in evidence && {
      ...day('failedOn', evidence.failedOn),
      ...day('passedOn', evidence.passedOn),
    }),
  }
}

function repeatSetJson({ members, ...set }: RepeatSet, readings: Readings, doubt: Float64Array) {
  return {
    from: momentText(readings, members[0]),
    to: momentText(readings, members[members.length - 1]),
    members: members.map((index) => ({ ...testJson(readings, index), doubt: doubt[index] })),
    ...set,
  }
}
