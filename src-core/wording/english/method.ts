import type { PeriodFigures } from '../../analysis/analysis'
import type { Settings } from '../../model/settings'
import { BALANCED_MIN_READINGS } from '../../reference/dayParts'
import { LIMITS } from '../../reference/limits'
import { MG_PER_DL_IN_ONE_MMOL_PER_L } from '../../units/glucose'
import { targetText } from './figures'
import type { GoalTold } from '../../told/goals'
import type { Caution, DefinitionCode } from '../../told/method'
import type { ToldLimits } from '../../told/limits'
import { goalsSentence } from './meals'
import { limitText } from './numbers'
import { EPISODES_DEFINITION, inTargetLabel, INDICATOR_DEFINITION } from './sensor'
import { capitalised } from '../phrases'
import { A1C_IN_PREGNANCY, presetSentence } from './targets'

/** How one figure was computed, and where that is published. */
export interface Definition {
  readonly figure: string
  readonly how: string
  /** '' where it is this program's own choice. */
  readonly source: string
}

/** Definitions of what is printed, in the order told. */
export function definitions(
  codes: readonly DefinitionCode[],
  limits: ToldLimits,
  settings: Settings,
  goals: readonly GoalTold[],
  kind: PeriodFigures['kind'] = 'finger-stick',
): readonly Definition[] {
  const { unit, targetLow, targetHigh } = settings
  const low = limitText(LIMITS.low, unit)
  const all: Readonly<Record<DefinitionCode, Definition>> = {
    lows: {
      figure: 'Low, very low',
      how:
        `Below ${low} and below ${limitText(LIMITS.veryLow, unit)} ${unit}, LO included, in the unit logged. ` +
        'A low is counted whatever the doubt about it and never averaged with a repeat.',
      source: 'American Diabetes Association, Standards of Care 2024, section 6',
    },
    'sensor-episodes': EPISODES_DEFINITION,
    mean: {
      figure: 'Mean, SD, CV',
      how: 'Over every reading of the period. SD: standard deviation, with n − 1. CV: coefficient of variation, the SD in percent of the mean.',
      source: '',
    },
    balanced: {
      figure: 'Balanced over the day',
      how:
        `Mean of the means of those three-hour blocks that hold ${BALANCED_MIN_READINGS} or more readings, each block with the same weight, however ` +
        `often it was tested. Shown where it differs from the mean by more than ${limits.lopsidedPercent} %: then the hours of testing matter. ` +
        'It is no better than the mean where tests at rare hours were made because something was felt: those weigh more in it.',
      source: '',
    },
    median: {
      figure: 'Median, middle half',
      how: 'Quantiles of type 7; half of the readings lie between the quartiles.',
      source: 'Hyndman and Fan, Am Stat 1996;50:361',
    },
    'known-to': {
      figure: 'Known to about, could be',
      how:
        `95 % limits by whole days with readings, from ${limits.fewestDays} days on: readings of one day belong together, and the likeness ` +
        'of one day to the next is taken into account. Shares: Wilson’s limits for as many independent readings as the days amount to; where ' +
        'all or none are in it, for half of them. They tell what the choice of days leaves open, not what untested hours or a ' +
        'meter that reads wrong would change. Of an SD from fewer than 60 days they are a fifth wider: high days tend to come together.',
      source:
        'Kish, Survey Sampling, 1965, section 6.4. Kendall, Biometrika 1954;41:403. Wilson, JASA 1927;22:209',
    },
    bar: {
      figure: 'Bar on a median',
      how: 'Two quantiles on either side of the median: the 95 % limits, by days, of the share of readings below it.',
      source: 'Woodruff, JASA 1952;47:635',
    },
    target: {
      figure: inTargetLabel(kind, targetText(targetLow, targetHigh, unit)),
      how:
        (kind === 'sensor'
          ? 'Both ends included. The share of the sensor’s readings.'
          : 'Both ends included. A share of readings, taken when the person chose: not a share of time.') +
        presetSentence(settings),
      source: 'Limits: Battelino et al., Diabetes Care 2019;42:1593',
    },
    'estimated-a1c': {
      figure: 'Estimated A1C',
      how:
        `Of the latest ${limits.a1cDays} days of the period, from ${limits.fewestA1cDays} days with readings on: every A1C whose published 95 % range of ` +
        'average glucose, widened by the error of the mean, holds this mean. Centre: (mean in mg/dL + 46.7) / 28.7; mmol/mol: (percent − 2.152) / 0.09148.' +
        (settings.targetPreset === 'pregnancy' ? ` ${capitalised(A1C_IN_PREGNANCY)}.` : ''),
      source: 'Nathan et al., Diabetes Care 2008;31:1473. Hoelzel et al., Clin Chem 2004;50:166',
    },
    indicator: INDICATOR_DEFINITION,
    markers: {
      figure: 'HI and LO',
      how:
        'Beyond the meter’s limits. Counted as the limit printed with the marker, otherwise as 600 and 20 mg/dL ' +
        '(33.3 and 1.1 mmol/L). Where they are more than one in ten, no mean, SD, CV or estimated A1C is shown.',
      source: '',
    },
    repeats: {
      figure: 'Repeat tests',
      how:
        `A set: tests at most ${settings.repeatWindowMinutes} minutes after one another, on any meter. Two agree within what the ` +
        'meter standard allows both of them, plus 2 mg/dL (0.1 mmol/L) a minute of real change in glucose; a set agrees if every pair does.',
      source: 'Limits: ISO 15197:2013, clause 6.3.3',
    },
    'two-tests': {
      figure: 'How far two tests differ',
      how:
        'From the CV within sets of one meter that agree: half of such pairs differ by less than 0.95 × CV, 19 of 20 by less ' +
        'than 2.77 × CV (0.6745 and 1.96 times the root of 2). Repeats are mostly made where a value surprises, ' +
        'which makes the figure too large; sets that disagree are left out, which makes it too small. A first value counts as no surprise between the tenth and the ninetieth percentile of all; lows are left aside.',
      source: 'Bland and Altman, BMJ 1996;313:744',
    },
    doubtful: {
      figure: 'Doubtful (?)',
      how:
        'The estimated chance that a value is more than 30 % off reaches ' +
        `${Math.round(100 * settings.doubtThreshold)} in 100, for a low ${Math.round(100 * settings.doubtThresholdLow)} in 100; or the strips ` +
        'were out of date, a control test failed, it was too cold or too hot for them, or the drop was control solution. Neighbours ' +
        'and the meter’s limits alone make no low doubtful. Where values far from the middle, or quick changes, are commoner ' +
        'in a log than the estimate expects, it takes them to be usual there.',
      source: '',
    },
    meters: {
      figure: 'Meters in pairs',
      how:
        'Difference in percent of the mean of the two; the next pair, 19 of 20: mean ± t × SD × root of (1 + 1 / pairs), from 5 pairs on. Within 15: 15 mg/dL (0.8 mmol/L) below a ' +
        'mean of 100 (5.6), 15 % above it. A line is fitted from 20 pairs on.',
      source: 'Bland and Altman, Lancet 1986;i:307. Passing and Bablok, J Clin Chem Clin Biochem 1983;21:709',
    },
    trials: {
      figure: 'Technique trials',
      how:
        'Difference from the washed tests that begin the trial, moved in a straight line towards those that end it. Smallest ' +
        'difference that can be seen: t × CV of this person’s repeat tests × root of (1 / rounds + 1 / washed tests). An effect: p below ' +
        '0.05, corrected for all conditions of the trial.',
      source: 'Holm, Scand J Stat 1979;6:65',
    },
    'left-out': {
      figure: 'Doubtful left out',
      how:
        'Doubtful readings that are not lows are left out; what is left of a set of repeats counts once, at its mean, unless the ' +
        'set holds a low. Shares of lows stay as logged.',
      source: '',
    },
    meals: {
      figure: 'By meal',
      how:
        'By the log’s own tags; ‘fasting’ counts as before breakfast. Without a tag: all other readings, also those whose tag names ' +
        'no moment, such as a snack. A rise: a test after a meal minus the latest one before ' +
        `it, 60 to 150 minutes earlier. ${goalsSentence(goals, unit)}`,
      source: 'Goals: American Diabetes Association, Standards of Care 2024, sections 6, 13 and 15',
    },
    'thin-line': {
      figure: 'Thin line of the day, where one is drawn',
      how:
        'Running median by time of day, each reading weighted by its distance in time, out to the nearest readings, 30 to 90 ' +
        'minutes away.',
      source: 'Loftsgaarden and Quesenberry, Ann Math Stat 1965;36:1049',
    },
    change: {
      figure: 'Change over the period',
      how: `Median of the slopes between all pairs of weekly medians, of weeks with ${limits.weekLeastDays} days or more, times the weeks; 95 % interval from their ranks.`,
      source: 'Sen, J Am Stat Assoc 1968;63:1379',
    },
    findings: {
      figure: 'What stands out',
      how:
        'All questions asked of a period are corrected together (Holm): in logs that hold nothing of the kind, something is said ' +
        'at most once in 20 times. Lows by hour, with activity and after contradicted highs: Fisher’s exact test. Runs of lows: all ' +
        'ways in which they could fall are counted. Highs by part of the day, from bedtime to morning, weekends, vials, meters by hour: mean ' +
        'difference of each day, night, week or vial, glucose by its logarithm; after lows: Student’s t. Trend: Kendall’s test of ' +
        'weekly medians. Shares: as under ‘known to about’.',
      source:
        'Holm, Scand J Stat 1979;6:65. Fisher, The Design of Experiments, 1935. Student, Biometrika 1908;6:1',
    },
    'next-month': {
      figure: 'Next month',
      how: 'Tests in each of two months: 2 × (2.80 × SD / change)², 80 % power at the 5 % level. Nights: Wilson interval.',
      source: 'Lehr, Stat Med 1992;11:1099',
    },
    night: {
      figure: 'Night',
      how: 'From 00:00 to before 06:00 on the meter’s own clock, of every day of the period.',
      source: '',
    },
    units: {
      figure: 'mg/dL and mmol/L',
      how: `1 mmol/L is ${MG_PER_DL_IN_ONE_MMOL_PER_L} mg/dL. A reading is compared with limits in the unit in which it was logged.`,
      source: 'Molar mass of glucose 180.156 g/mol',
    },
  }
  return codes.map((code) => all[code])
}

/** What these pages cannot tell. */
export const CAUTIONS: Readonly<Record<Caution, string>> = {
  'no-diagnosis':
    'These pages sum up readings taken at home, for discussion with the care team. They are not a diagnosis and not a basis for ' +
    'changing insulin or other doses.',
  'moments-chosen':
    'Finger-sticks show the moments at which someone chose to test. Hours without tests are unknown, not good.',
  'targets-of-sensors':
    'Published targets in percent are made for continuous sensors; a share of finger-sticks must not be compared with them.',
  'a1c-estimated':
    'An A1C estimated from readings can differ from the laboratory’s by 1 % or more and never replaces it ' +
    '(among people with an A1C of 6.9 to 7.1 % mean glucose ran from 128 to 187 mg/dL: JDRF study group, Diabetes Care 2011;34:540).',
  'a1c-of-laboratory':
    'A laboratory A1C itself reads too low with haemolytic anaemia, after blood loss or donation, often with severe kidney or ' +
    'liver disease and in pregnancy and the three months after; too high with iron deficiency; it does not represent the person ' +
    'after a transfusion; and with a haemoglobin variant it depends on the method (American Diabetes Association, Standards of Care, section 2).',
  'trust-symptoms':
    'When a value does not fit how you feel, trust the symptoms. If you feel low, treat first; otherwise test again at once. Then ask the care team or the laboratory. ' +
    'In shock, severe dehydration, with a very high or low haematocrit or high-dose vitamin C a finger-stick cannot be relied on.',
}

export const REPLACED_GLYPHS =
  '□ stands for a character of the log that the font of these pages does not have.'
