import type { Facts } from '../../findings/finding'
import type { Settings } from '../../model/settings'
import { RECOVERY_SEEN_WITHIN_MINUTES } from '../../reference/dayParts'
import { LIMITS } from '../../reference/limits'
import type { Doubts } from '../../told/doubts'
import type { Hours } from '../../told/coverage'
import type { FindingTold, FindingsDoubt } from '../../told/findings'
import type { HighsTold } from '../../told/highs'
import type { EpisodeTold, UsualHours } from '../../told/lowEpisodes'
import type { LowsCounted } from '../../told/lows'
import type { MarkersTold } from '../../told/markers'
import type { KnownTo } from '../../told/measures'
import type { Tried } from '../../told/tried'
import type { TrustLimit } from '../../told/trustLimits'
import type { Years } from '../../told/years'
import { glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { capitalised, type Phrase, strong } from '../phrases'
import { dayText, durationText, gapText, hourText } from './dates'
import { DOUBTFUL_HI } from './highs'
import { hourPairText, knownToAmount, withoutMarkersText } from './figures'
import { laboratoryText } from './kit'
import { momentName } from './meals'
import { signedPercent } from './meters'
import { markersNotJudged } from './trust'
import { count, glucoseText, limitText, listed, percentText, signedGlucoseText } from './numbers'
import { stretchText } from './stretches'

// The first page: what is told at a glance, in as few words as it can be said; the same in full stands behind.

export const TITLES = {
  lows: 'Lows first',
  numbers: 'Highs and numbers',
  day: 'The day',
  meals: 'By meal',
  findings: 'What stands out',
  trust: 'Can readings be trusted?',
} as const

/** '8 episodes, 11 readings below 70, 3 of them below 54; 0.6 episodes a week. All count, doubtful or not.' */
export function lowsHeadline(
  { below70, below54, days, marked, bracketed }: LowsCounted,
  episodes: number | null,
  perWeek: number | null,
  unit: GlucoseUnit,
): readonly Phrase[] {
  if (below70 === 0) return [strong('No low was recorded.'), ' That does not show that there were none.']
  const deep = below54 === 0 ? 'none' : String(below54)
  // Fewer than one in twenty weeks would read as none.
  const rate = perWeek === null || fixed(perWeek, 1) === fixed(0, 1) ? '' : `; ${fixed(perWeek, 1)} a week`
  return [
    strong(
      `${episodes === null ? '' : `${count(episodes, 'episode')}, `}${count(below70, 'reading')} below ${limitText(LIMITS.low, unit)}, ${deep} below ${limitText(LIMITS.veryLow, unit)}${episodes === null ? `, on ${count(days, 'day')}` : ''}`,
    ),
    `${rate}.${marked + bracketed > 0 ? ' All count, doubtful or not.' : ''}`,
  ]
}

/**
 * How long an episode went on, and when it began: '45 min, 14 April, 16:21'. Where nobody tested for long after its last
 * low, the time to the next test is told as such: it says little of how long the low went on.
 */
export function episodeText(episode: EpisodeAround, moment: string): string {
  const { lows, showsAllLows } = episode
  return `${whenText(episode, moment)}${showsAllLows ? '' : `; ${lows.length} lows in a row`}`
}

type EpisodeAround = Pick<
  EpisodeTold,
  'minutes' | 'minutesToNext' | 'seenToEnd' | 'lowAgainAfter' | 'lows' | 'showsAllLows'
>

function whenText(
  { minutes, minutesToNext, seenToEnd, lowAgainAfter }: EpisodeAround,
  moment: string,
): string {
  if (lowAgainAfter !== null)
    return `${lasted(minutes)}${moment}; low again ${durationText(lowAgainAfter)} later`
  if (seenToEnd === false)
    return `${lasted(minutes)}${moment}; end not seen in ${RECOVERY_SEEN_WITHIN_MINUTES / 60} h`
  if (minutesToNext === null) return `${lasted(minutes)}${moment}`
  return `${moment}; next test ${durationText(minutesToNext)} later`
}

function lasted(minutes: number | null): string {
  return minutes === null ? '' : `${durationText(minutes)}, `
}

export const HELPED = 'help needed'

/** 'Most begin between 15:00 and 18:00 or 09:00 and 12:00 (12 and 6 of 24).' 'Many' where these are half of them or fewer. */
export function usualHoursText(usual: readonly UsualHours[], areMost: boolean): string {
  const hours = usual.map(({ fromHour, toHour }) => `${hourText(fromHour)} and ${hourText(toHour)}`)
  const counts = listed(usual.map(({ n }) => String(n)))
  return `${areMost ? 'Most' : 'Many'} begin between ${hours.join(' or ')} (${counts} of ${usual[0].of}).`
}

/** 'The 6 lowest of 41 are listed.'; those with help come before the lowest. */
export const listedText = (shown: number, of: number, helped: boolean) =>
  helped
    ? `${shown} of ${of} are listed: those with help, then the lowest.`
    : `The ${shown} lowest of ${of} are listed.`

export const PEN_LINE =
  'Lows that needed another person’s help: ______   I feel a low at: ______   Glucagon at home: yes / no'

/** '85 readings above 180, 21 above 250; 1 HI, the latest 12 May, 10:14: follow your plan for highs, contact the team.' */
export function highsText(
  { above180, above250, beyond }: HighsTold,
  latest: readonly { readonly moment: string; readonly doubtful: boolean }[],
  unit: GlucoseUnit,
): readonly Phrase[] {
  const [high, veryHigh] = [limitText(LIMITS.high, unit), limitText(LIMITS.veryHigh, unit)]
  const counts = strong(
    above180 === 0
      ? `No reading above ${high}`
      : `${count(above180, 'reading')} above ${high}, ${above250 === 0 ? 'none' : above250} above ${veryHigh}`,
  )
  if (beyond === 0) return [counts, '.']
  const when = `${beyond > latest.length ? 'the latest ' : ''}${latest.map(({ moment, doubtful }) => (doubtful ? `${moment} (${DOUBTFUL_HI})` : moment)).join('; ')}`
  return [counts, '; ', strong(`${beyond} HI`), `, ${when}: follow your plan for highs, contact the team.`]
}

export const SHORT_LABELS = {
  meanMgDl: 'Mean',
  sdMgDl: 'SD',
  cvPercent: 'CV',
  a1c: 'Estimated A1C',
} as const

/** Under a large figure. */
export const NOT_LABORATORY = 'not a laboratory A1C'
/** Under the dash in the place of an estimate. */
export const A1C_OUTSIDE_TABLE = 'outside the published table, 5 to 12 %'
export const latestNotLaboratory = (days: number) => `latest ${days} days; not a laboratory A1C`
export const ofReadingsText = (of: number, n: number) => `${of} of ${count(n, 'reading')}`
export const knownText = (known: KnownTo) => `known to ${knownToAmount(known)}`
export const halfLieText = (range: string) => `middle half ${range}`
export const SD_OF_MEAN = 'SD in % of mean'

/** Under the section of what stands out where nothing does: no all-clear beside lows. */
export function nothingStandsOut(lows: number): string {
  if (lows === 0) return 'No pattern by hour, meal or day is clear enough to name.'
  return `No clear pattern by hour, meal or day; the ${lows === 1 ? 'low above still counts' : 'lows above still count'}.`
}

/** Of the findings shown, of so many; the doubt of those that stand behind is told there. */
export function findingsDoubt({ rest, n }: FindingsDoubt, of: number): string {
  const more = of > n ? ` ${of - n} more behind.` : ''
  if (rest.length === 0)
    return `${n === 1 ? 'It rests on no doubtful reading.' : 'None rests on a doubtful reading.'}${more}`
  const numbers = rest.flatMap((each) => each.numbers).sort((a, b) => a - b)
  return numbers.length === 1
    ? `Finding ${numbers[0]} partly rests on doubtful readings.${more}`
    : `Findings ${listed(numbers.map(String))} partly rest on doubtful readings.${more}`
}

/** A finding in one short sentence with its counts; the long one stands behind. */
export function findingText({ facts, lowsBeside, fasting }: FindingTold, settings: Settings): string {
  const { unit } = settings
  const beside = lowsBeside === null ? '' : ' See to the lows first.'
  const high = limitText(settings.targetHigh, unit)
  switch (facts.code) {
    case 'lows-after-contradicted-highs': {
      const { count: followed, n } = facts.evidence
      return `After ${followed} of ${n} highs that a repeat contradicted, a low came within five hours.`
    }
    case 'lows-gather': {
      const { parts, elsewhere } = facts.evidence
      const where = parts.map((part) => `${partText(part)} (${part.count} of ${part.n} times tested)`)
      return `Lows cluster ${listed(where)}; otherwise ${elsewhere.count} of ${elsewhere.n}.`
    }
    case 'lows-in-runs':
      return `Lows follow one another: ${ofText(facts.evidence)} came within a day of another.`
    case 'lows-with-activity':
      return `Lows come with activity: ${ofText(facts.evidence)} such days, ${ofText(facts.evidence.others)} others.`
    case 'high-mornings-after-low-nights':
      return `After a night with a low the morning is high: ${ofText(facts.evidence)}, otherwise ${ofText(facts.evidence.others)}. See to the lows first.`
    case 'highs-after-lows':
      return `One to four hours after a low, readings run above ${high}: ${ofText(facts.evidence)}. See to the lows first.`
    case 'highs-gather': {
      const { parts, elsewhere } = facts.evidence
      const where = parts.map((part) => `${partText(part)} (${ofText(part)})`)
      return `Readings above ${high} cluster ${listed(where)}; otherwise ${ofText(elsewhere)}.${beside}`
    }
    case 'fasting-above-goal': {
      const whose = fasting.goal === 'own' || fasting.goal === 'own-in-pregnancy' ? 'own goal' : 'goal'
      return `Mornings are above the ${whose} of ${limitText(fasting.limit, unit)} on ${ofText(facts.evidence)} days.${beside}`
    }
    case 'meal-rises-most': {
      const { meal, n, medianMgDl, others } = facts.evidence
      const over = meal === 'meal' ? 'unnamed meals' : meal
      return `Glucose rises most over ${over}: ${signedGlucoseText(medianMgDl, unit)} (${n} meals), over others ${signedGlucoseText(others.medianMgDl, unit)}.`
    }
    case 'trend': {
      const { perWeekMgDl, weeks, fromMgDl, toMgDl } = facts.evidence
      return `Readings ${perWeekMgDl > 0 ? 'rose' : 'fell'}: weekly median ${glucoseText(fromMgDl, unit)} to ${glucoseText(toMgDl, unit)} in ${weeks} weeks.${beside}`
    }
    case 'weekends-differ': {
      const { shiftMgDl, weeks } = facts.evidence
      return `Weekends run ${shiftMgDl > 0 ? 'higher' : 'lower'}: ${signedGlucoseText(shiftMgDl, unit)} over ${weeks} weeks.`
    }
    case 'overnight-change': {
      const { medianMgDl, nights, inDirection } = facts.evidence
      return `Glucose ${medianMgDl > 0 ? 'rises' : 'falls'} overnight: ${inDirection} of ${nights} nights, median ${signedGlucoseText(medianMgDl, unit)}.${beside}`
    }
    case 'highs-at-end-of-vial':
      return `Readings above ${high} are commoner at the end of a vial of strips: ${ofText(facts.evidence)}, before ${ofText(facts.evidence.others)}.${beside}`
    case 'meters-by-hour': {
      const { meter, fromHour, toHour, elsewhere } = facts.evidence
      return `The meters are used at different hours: ${meter} gave ${ofText(facts.evidence)} between ${hourText(fromHour)} and ${hourText(toHour)}, otherwise ${ofText(elsewhere)}.`
    }
    case 'round-values':
      return `${ofText(facts.evidence)} readings end in 0 or 5, where chance gives 20 %.`
  }
}

const ofText = ({ count: some, n }: { readonly count: number; readonly n: number }) => `${some} of ${n}`

type Part = Extract<Facts, { code: 'lows-gather' }>['evidence']['parts'][number]

function partText(part: Part): string {
  if (!('moment' in part)) return `between ${hourText(part.fromHour)} and ${hourText(part.toHour)}`
  const at = part.moment === 'night' || part.moment === 'bedtime'
  return `${at ? 'at ' : ''}${momentName(part.moment)}`
}

/** In a few words, open and without blame; never about an amount to take. */
const QUESTIONS: Readonly<Record<Facts['code'], string>> = {
  'lows-after-contradicted-highs': 'what was done after the first reading?',
  'lows-gather': 'what came before these lows?',
  'lows-in-runs': 'how was the first low treated?',
  'lows-with-activity': 'how long and how hard; what was eaten?',
  'high-mornings-after-low-nights': 'was the low noticed; what was eaten?',
  'highs-after-lows': 'what is eaten for a low?',
  'highs-gather': 'what is eaten and done before?',
  'fasting-above-goal': 'how are evenings, nights and waking?',
  'meal-rises-most': 'what is eaten, and when is the test?',
  'overnight-change': 'what happens between bedtime and morning?',
  'weekends-differ': 'what is different at weekends?',
  trend: 'what changed about then?',
  'highs-at-end-of-vial': 'where are the strips kept?',
  'meters-by-hour': 'why is each meter used then?',
  'round-values': 'are values rounded or written down later?',
}

/** Of lows of which no finding asks; `named`: right behind the words for them. */
export const lowsQuestion = (lows: number, named: boolean) =>
  `what came before ${lows === 1 ? (named ? 'it' : 'the low') : named ? 'them' : 'the lows'}?`

export function questionText({ code }: Pick<Facts, 'code'>): string {
  return QUESTIONS[code]
}

/**
 * '10 of 478 readings are doubtful (‘?’). A wrong reading that nobody repeated is seldom found.' `besides`: whether others,
 * which bear no mark, are told of right under it.
 */
export function trustText(doubts: Doubts, besides = false): readonly Phrase[] {
  const { found, doubtful, of, manyMarkers, repeats, tooMany, bracketed } = doubts
  if (found === 'not-judged') return ['Sensor readings are not judged one by one.']
  const { sets, agreeing } = repeats
  const agree =
    sets === 0
      ? ' No test was repeated within ten minutes.'
      : ` Repeat tests: ${agreeing} of ${count(sets, 'set')} ${sets === 1 ? 'agrees' : 'agree'}.`
  const told =
    found === 'none-beside-markers'
      ? markersNotJudged(of)
      : doubtful.length === 0
        ? besides
          ? 'Beside what is told here, no reading was found doubtful'
          : 'No reading was found doubtful'
        : `${doubtful.length} of ${count(of.n, 'reading')} ${doubtful.length === 1 ? 'is' : 'are'} doubtful${bracketed === doubtful.length ? '' : ' (‘?’)'}`
  // Where most have one fault, it is told behind and not looked for.
  const causeKnown = 2 * bracketed > doubtful.length
  return [
    strong(told),
    tooMany && causeKnown
      ? ', more than one in ten.'
      : tooMany
        ? ', more than one in ten: look for one cause: strips, a meter or a habit.'
        : found === 'none-beside-markers'
          ? ''
          : doubtful.length === 0
            ? '; that does not prove them right. A wrong one that nobody repeated is seldom found.'
            : '. A wrong one that nobody repeated is seldom found.',
    manyMarkers && found === 'some' ? ` ${markersNotJudged(of)}` : '',
    agree,
  ]
}

/** What bounds the trust in the numbers, each in a sentence or two. */
export function trustLimitText(
  limit: TrustLimit,
  meterNames: readonly string[],
  unit: GlucoseUnit,
  years: Years,
): string {
  switch (limit.code) {
    case 'half-day-off':
      return `${gapText(limit.from, limit.to, years)}: ${count(limit.readings, 'reading')} look half a day out; the hours told of them, lows too, may be wrong. Ask: was the meter’s clock right?`
    case 'fault':
      return stretchText(limit.stretch)
    case 'markers':
      return markersText(limit.markers, unit)
    case 'meters-differ': {
      const { first, second, meanDifferencePercent, pairs, reads } = limit.pair
      return `${capitalised(meterNames[first])} read ${percentText(Math.abs(meanDifferencePercent))} % ${reads} than ${meterNames[second]} (${count(pairs.length, 'pair')}); which is nearer the truth is not known.`
    }
    case 'laboratory':
      return `The laboratory A1C, ${laboratoryText(limit.beside, years)}, is ${limit.position === 'above' ? 'higher' : 'lower'} than the range estimated from the readings before it: untested hours, the meter or a condition may be behind it.`
    case 'others':
      return `The notes of ${count(limit.n, 'reading')} (${listed(limit.days.map((day) => dayText(day, years)))}) say that ${limit.n === 1 ? 'it' : 'they'} may be somebody else’s; counted until you decide.`
    case 'trials':
      return `${count(limit.n, 'test')} of technique trials ${limit.n === 1 ? 'is' : 'are'} not judged.`
    case 'repeated-days':
      return `${count(limit.n, 'row')} with the same day and value as another ${limit.n === 1 ? 'was' : 'were'} set aside; without times ${limit.n === 1 ? 'it may have been a test of its own' : 'they may have been tests of their own'}; a low among them counts once.`
    case 'mixed-units':
      return 'A log mixes mg/dL and mmol/L: the size of each value decided its unit, as answered.'
  }
}

/** 'HI counts as 600, LO as 20 mg/dL. Without them: mean 150, SD 39, estimated A1C 5.9–8.2 %.' */
function markersText({ upperLimits, lowerLimits, without }: MarkersTold, unit: GlucoseUnit): string {
  const as = (limits: readonly number[]) => listed(limits.map((limit) => fixed(limit, glucoseDecimals(unit))))
  const counts =
    lowerLimits.length === 0
      ? `HI counts as ${as(upperLimits)} ${unit}.`
      : upperLimits.length === 0
        ? `LO counts as ${as(lowerLimits)} ${unit}.`
        : `HI counts as ${as(upperLimits)}, LO as ${as(lowerLimits)} ${unit}.`
  return `${counts} ${withoutMarkersText(without, unit)}`
}

/** 'Without doubtful readings, repeats merged: mean 143, SD 40, 84 % from 70 to 180; lows always counted.' */
export function withoutDoubtfulText(
  mean: string,
  sd: string,
  share: string,
  target: string,
  without: { readonly doubtful: boolean; readonly trials: boolean },
): string {
  const left = [
    ...(without.doubtful ? ['doubtful readings'] : []),
    ...(without.trials ? ['changed trial tests'] : []),
  ]
  const of = left.length === 0 ? 'Repeats merged' : `Without ${listed(left)}, repeats merged`
  return `${of}: mean ${mean}, SD ${sd}, ${share} from ${target}; all lows count.`
}

/** 'Tried: ‘juice on the finger’ +51 %, an effect; ‘wet’ −9 %, not proven (below 14 % cannot be seen).' */
export function triedText(tried: readonly (Tried & { readonly label: string })[]): string {
  const each = tried.map(({ label, differencePercent, effect, smallestVisiblePercent }) => {
    const found = effect
      ? 'an effect'
      : `not proven (below ${fixed(smallestVisiblePercent)} % cannot be seen)`
    return `‘${label}’ ${signedPercent(differencePercent)}, ${found}`
  })
  return `Tried: ${each.join('; ')}.`
}

/** All tests lie within a few hours: what is not known is said as large as what is. */
export function onlyHoursText(hours: Hours): string {
  return `All tests were between ${hourPairText(hours)}. The rest of the day is unknown.`
}

/** Of a sensor: what is printed for each reading, and what is looked for, needs finger-sticks. */
export const MADE_FOR_FINGER_STICKS =
  'This sheet is made for finger-sticks: for a sensor it shows the level, the day and the lows, and judges no reading.'

/** Most readings are trials of technique: their figures would be figures of the trials. */
export const MOSTLY_TRIALS =
  'Most of these tests are trials of technique on a day or two: no mean, SD or A1C is shown. What was tried is listed below.'

/** What a practice writes: as it was told, else for the pen. */
export const PRACTICE = {
  diabetes: { name: 'Diabetes type / since: ', blank: '____________' },
  treatment: { name: 'Treatment: ', blank: '________________________' },
  agreedTargets: { name: 'Target: ', blank: '____________' },
} as const
export const MY_QUESTION = 'My first question: '
export const AGREED_TODAY = 'Agreed today: '

/** Beside the name of the day's picture. */
export const DAY_KEY =
  'Thick line: median of three hours; outline: middle half of readings; thin bar: how well the median is known.'

export const DAYS_COLUMN = 'days'
/** Where the person’s own targets stand in words above. */
export const PUBLISHED_GOAL_COLUMN = 'in published goal'
