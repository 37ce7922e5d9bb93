import type { Settings } from '../../model/settings'
import type { CountOf, DayPart, Facts, PairedDifference } from '../../findings/finding'
import type { VisibleRise } from '../../findings/highsGather'
import { LIMITS } from '../../reference/limits'
import type { GlucoseUnit } from '../../units/glucose'
import type { FindingsDoubt, FindingTold, Rests } from '../../told/findings'
import { dayText, hourText } from './dates'
import { momentName } from './meals'
import { limitsText } from './meters'
import { marksSentences } from './stretches'
import { count, glucoseText, limitText, listed, percentText, signedGlucoseText } from './numbers'

export const FINDINGS_TITLE = 'What stands out'

/** Where nothing is said; a page that is silent might be taken for unfinished, and silence for proof that there is nothing. */
export function nothingStandsOut(visible: VisibleRise | null): string {
  const silence = 'No pattern by hour, meal or day is clear enough to name, apart from what is said above.'
  return visible === null
    ? `${silence} With so few tests hardly any would have shown.`
    : `${silence} A rise of ${visible.percent} % ${partText(visible.part)} would have shown in about 9 of 10 such logs, a smaller one less often.`
}

/** Under the findings: what stands in brackets must not be taken for the spread of the readings. */
const BRACKETS = 'In brackets: how well the figure is known, 95 in 100.'

/** '28 to 79 %'. */
function knownTo({ ci95Percent: [low, high] }: CountOf): string {
  return `${percentText(low)} to ${percentText(high)} %`
}

/** '6 of 11 days (28 to 79 %)'. */
function share(of: CountOf, words = ''): string {
  return `${of.count} of ${of.n}${words} (${knownTo(of)})`
}

/** 'between 15:00 and 18:00', 'after dinner'. */
function partText(part: DayPart): string {
  if ('moment' in part)
    return part.moment === 'night' || part.moment === 'bedtime'
      ? `at ${momentName(part.moment)}`
      : momentName(part.moment)
  return `between ${hourText(part.fromHour)} and ${hourText(part.toHour)}`
}

/** One finding in a sentence with its counts and its 95 % interval. */
export function findingText({ facts, lowsBeside, fasting }: FindingTold, settings: Settings): string {
  const { unit } = settings
  const beside = lowsBesideText(lowsBeside, unit)
  const signed = (mgDl: number) => signedGlucoseText(mgDl, unit)
  switch (facts.code) {
    case 'lows-after-contradicted-highs': {
      const { count: followed, n, others } = facts.evidence
      return (
        `${followed} of ${count(n, 'reading')} that a repeat contradicted as too high ${followed === 1 ? 'was' : 'were'} followed by a low ` +
        `within five hours, compared with ${others.count} of ${others.n} other tests: tell the team if a dose was taken on such a reading.`
      )
    }
    case 'lows-gather': {
      const { parts, elsewhere, seldomTested } = facts.evidence
      const where = parts.map(
        (part) => `${partText(part)} (on ${part.count} of ${part.n} occasions of testing; ${knownTo(part)})`,
      )
      return (
        `Lows cluster ${listed(where)}; at other hours on ${share(elsewhere)}.` +
        (seldomTested ? ' Few tests were made then; some may have been made because a low was felt.' : '')
      )
    }
    case 'lows-in-runs': {
      const { evidence } = facts
      return (
        `Lows follow one another: ${share(evidence, ' lows')} came within 24 hours of another; by chance about ` +
        `${Math.round(evidence.byChance)} would.`
      )
    }
    case 'lows-with-activity': {
      const { evidence } = facts
      return (
        `Lows come with activity: on ${share(evidence, ' days')} with a note of activity or the day after one; on other days on ` +
        `${share(evidence.others)}.`
      )
    }
    case 'high-mornings-after-low-nights': {
      const { evidence } = facts
      const limit = glucoseText(evidence.limitMgDl, unit)
      return (
        `After a night with a low the morning is high: above ${limit} on ${share(evidence, ' mornings')}; on other mornings on ` +
        `${share(evidence.others)}. See to the lows first; what was eaten to treat them may be the reason.`
      )
    }
    case 'highs-after-lows': {
      const { evidence } = facts
      return (
        `One to four hours after a low, readings run high: above ${limitText(settings.targetHigh, unit)} in ${share(evidence)}, where ` +
        `${percentText(evidence.basePercent)} % would be usual at these hours. See to the lows first; what was eaten to treat them may be the reason.`
      )
    }
    case 'highs-gather': {
      const { parts, elsewhere } = facts.evidence
      const where = parts.map((part) => `${partText(part)} (${part.count} of ${part.n}; ${knownTo(part)})`)
      return `Readings above ${limitText(settings.targetHigh, unit)} cluster ${listed(where)}; at other times ${share(elsewhere)}.${beside}`
    }
    case 'fasting-above-goal':
      return `${FASTING[fasting.goal](limitText(fasting.limit, unit), share(facts.evidence, ' days'))}.${beside}${lowNightsText(facts.evidence)}`
    case 'meal-rises-most': {
      const { meal, n, medianMgDl, ci95MgDl, others } = facts.evidence
      const over = meal === 'meal' ? 'meals that the log does not name' : meal
      return (
        `Glucose rises most over ${over}: by a median of ${glucoseText(medianMgDl, unit)} ${unit} in ${n} meals ` +
        `(${glucoseText(ci95MgDl[0], unit)} to ${glucoseText(ci95MgDl[1], unit)}); over ${others.n} other meals by ${glucoseText(others.medianMgDl, unit)}.`
      )
    }
    case 'trend': {
      const { perWeekMgDl, ci95MgDl, weeks, fromMgDl, toMgDl, since } = facts.evidence
      return (
        `Readings have ${perWeekMgDl > 0 ? 'risen' : 'fallen'}: the weekly median has gone from about ${glucoseText(fromMgDl, unit)} to about ${glucoseText(toMgDl, unit)} ` +
        `since ${dayText(since, 'with-year')} (${signed(ci95MgDl[0] * weeks)} to ${signed(ci95MgDl[1] * weeks)} ${unit} in all).${beside}`
      )
    }
    case 'weekends-differ': {
      const { shiftMgDl, ci95MgDl, weeks } = facts.evidence
      return (
        `Weekends run ${shiftMgDl > 0 ? 'higher' : 'lower'} than weekdays: the daily median differs by ${signed(shiftMgDl)} ${unit} ` +
        `(${signed(ci95MgDl[0])} to ${signed(ci95MgDl[1])}), over ${weeks} weeks.`
      )
    }
    case 'overnight-change': {
      const { medianMgDl, ci95MgDl, nights, inDirection } = facts.evidence
      const rises = medianMgDl > 0
      return (
        `Glucose ${rises ? 'rises' : 'falls'} from bedtime to the morning: on ${inDirection} of ${nights} nights, with a median change of ` +
        `${signed(medianMgDl)} ${unit} (${signed(ci95MgDl[0])} to ${signed(ci95MgDl[1])}).${beside}`
      )
    }
    case 'highs-at-end-of-vial': {
      const { vials, others } = facts.evidence
      return (
        `Readings run higher at the end of a vial of strips: above ${limitText(settings.targetHigh, unit)} in ${share(facts.evidence)} in the last third ` +
        `of its days, before that in ${share(others)} (${vials} vials).${beside} Ask whether the vial was kept closed and dry.`
      )
    }
    case 'meters-by-hour': {
      const { meter, fromHour, toHour, elsewhere, paired } = facts.evidence
      return (
        `The meters are used at different times of the day: ${meter} gave ${share(facts.evidence, ' tests')} between ${hourText(fromHour)} and ${hourText(toHour)}, at other hours ` +
        `${share(elsewhere)}.${pairedText(paired)} A difference between these hours may come from the meters.`
      )
    }
    case 'round-values':
      return `The last digit of ${share(facts.evidence, ' readings')} is 0 or 5, where chance gives 20 %: some may have been rounded when written down.`
  }
}

/** ' In 20 pairs it read 5 % higher (could be +2 % to +8 %).' */
function pairedText(paired: PairedDifference | undefined): string {
  if (paired === undefined)
    return ' Too few tests were made with both at the same time to say how far they differ.'
  const { pairs, differencePercent, ci95Percent } = paired
  const size = percentText(Math.abs(differencePercent))
  const how = size === '0' ? 'the same' : `${size} % ${differencePercent < 0 ? 'lower' : 'higher'}`
  return ` In ${count(pairs, 'pair')} it read ${how} on average (could be ${limitsText(ci95Percent)}).`
}

const FASTING: Readonly<Record<FindingTold['fasting']['goal'], (limit: string, share: string) => string>> = {
  'in-pregnancy': (limit, share) =>
    `Fasting readings were above ${limit}, the goal in pregnancy, on ${share}`,
  'own-in-pregnancy': (limit, share) =>
    `Fasting readings were above ${limit}, the person’s own goal, on ${share}`,
  published: (limit, share) => `Most days start above ${limit}, the goal before breakfast: ${share}`,
  own: (limit, share) => `Most days start above ${limit}, the person’s own goal before breakfast: ${share}`,
}

/** No finding may ask for more treatment where lows stand beside it; nothing where none do. */
function lowsBesideText(told: FindingTold['lowsBeside'], unit: GlucoseUnit): string {
  if (told === null) return ''
  if (told === 'told-above') return ' See to those lows first, too.'
  const { readingsBelow70: lows, readingsBelow70AtNight: atNight } = told
  const night = atNight === 0 ? '' : `, ${atNight} of them between ${hourText(0)} and ${hourText(6)}`
  const below = `${count(lows, 'reading')} below ${limitText(LIMITS.low, unit)}${night}`
  return lows === 1
    ? ` There is also ${below}: see to it first.`
    : ` There are also ${below}: see to them first.`
}

/** A high morning may be the answer to a low night. */
function lowNightsText({ nightsWithLows, ofThemAboveGoal }: EvidenceOf<'fasting-above-goal'>): string {
  if (ofThemAboveGoal === 0) return ''
  const nights = nightsWithLows === 1 ? 'the one night' : `${ofThemAboveGoal} of ${nightsWithLows} nights`
  return ` After ${nights} with a low the morning was above the goal.`
}

type EvidenceOf<Code extends Facts['code']> = Extract<Facts, { code: Code }>['evidence']

/** What leads the question of a finding. */
export const ASK = 'Ask:'

/** Over the questions where they stand alone, numbered as the findings are. */
export const QUESTIONS_TITLE = 'To ask about what stands out'

/** What the person and the care team may talk about: open, without blame, and never about an amount to take. */
const QUESTIONS: Readonly<Record<Facts['code'], string>> = {
  'lows-after-contradicted-highs': 'what was done after the first reading, before it was repeated?',
  'lows-gather': 'what came before these lows: food, activity, sleep, an injection?',
  'lows-in-runs': 'how was the first low of each run treated, and when was the next test?',
  'lows-with-activity': 'how long and how hard was the activity, and what was eaten around it?',
  'high-mornings-after-low-nights': 'was the low noticed, and what was eaten for it?',
  'highs-after-lows': 'what is eaten for a low, and when is the next test?',
  'highs-gather': 'what is eaten and done before this time, and what was different on the other days?',
  'fasting-above-goal': 'what are evenings, nights and waking up like?',
  'meal-rises-most': 'what is eaten at this meal, and how long after it is the test?',
  'overnight-change': 'what happens between bedtime and morning: a late meal, a snack, waking up?',
  'weekends-differ': 'what is different at weekends: meals, sleep, work, activity?',
  trend: 'what changed about then?',
  'highs-at-end-of-vial': 'where are the strips kept, and is the lid shut at once?',
  'meters-by-hour': 'why is each meter used at those hours?',
  'round-values': 'are values written down later, from memory, or rounded?',
}

/** The question for the visit that a finding leaves. */
export function findingQuestion({ code }: Pick<Facts, 'code'>): string {
  return QUESTIONS[code]
}

/**
 * 'None of these rests on a doubtful reading.', 'Finding 2 disappears without the doubtful readings.' Without them the
 * doubtful lows are still there, which is told.
 */
export function doubtOfFindings({ n, rest, noneOfTheOthers, lows, brackets }: FindingsDoubt): string {
  const none =
    n === 1 ? 'It does not rest on a doubtful reading.' : 'None of these rests on a doubtful reading.'
  return [
    ...(rest.length === 0 ? [none] : rest.map(({ how, numbers }) => RESTS[how](numbers))),
    ...(noneOfTheOthers ? ['None of the others rests on one.'] : []),
    ...(lows === null
      ? []
      : ['Lows count here whatever the doubt.', ...marksSentences(lows.marked, lows.bracketed)]),
    ...(brackets ? [BRACKETS] : []),
  ].join(' ')
}

const several = (numbers: readonly number[]) => `Findings ${listed(numbers.map(String))}`

const RESTS: Readonly<Record<Rests, (numbers: readonly number[]) => string>> = {
  'about-them': (of) =>
    of.length === 1
      ? `Finding ${of[0]} is about doubtful readings.`
      : `${several(of)} are about doubtful readings.`,
  disappears: (of) =>
    of.length === 1
      ? `Finding ${of[0]} disappears without the doubtful readings.`
      : `${several(of)} disappear without the doubtful readings.`,
  changes: (of) =>
    of.length === 1
      ? `Finding ${of[0]} holds only in part without the doubtful readings.`
      : `${several(of)} hold only in part without the doubtful readings.`,
}
