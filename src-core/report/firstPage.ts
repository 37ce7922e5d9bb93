import { dayPicture } from '../charts/dayPicture'
import { PRINT_PALETTE } from '../charts/palette'
import { sceneToSvg } from '../charts/sceneToSvg'
import { type RowFigures, tellsMeals } from '../day/meals'
import { LIMITS } from '../reference/limits'
import { PAPERS } from '../reference/paper'
import { A1C_DAYS } from '../statistics/latestA1c'
import { lowsOfTwoPeriods } from '../shown/comparedPeriods'
import { markedSequence } from '../shown/markedText'
import { onlyPartOfDay } from '../told/coverage'
import { hoursKnown } from '../told/day'
import { doubtsOf } from '../told/doubts'
import { periodA1c } from '../told/estimatedA1c'
import { doubtOfFindings, findingsTold } from '../told/findings'
import { highsTold } from '../told/highs'
import { areMost, type EpisodeTold, episodesTold, listedFirst, usualHours } from '../told/lowEpisodes'
import { type LowRemark, type LowsTold, lowsTold } from '../told/lows'
import { knownTo, measureOf, periodMeasure, shareCount } from '../told/measures'
import { type SensorTold, sensorTold } from '../told/sensor'
import { isMostlyTrials, trialTests, triedLately } from '../told/tried'
import { type TrustLimit, trustLimits } from '../told/trustLimits'
import { lowRemarkInWords, PAGE_MARGINS, printedNote, type ReportContext } from './context'
import type { Block, Columns, Inline, Paragraph } from './document'
import {
  FIRST_TEXT,
  headed,
  inTwoColumns,
  large,
  lowsQuestion,
  NOTE_LENGTH,
  noteLengthBeside,
} from './firstParts'
import { firstHead } from './head'
import { toldFirst } from './forTheVisit'
import { heightOf, wordCount } from './height'
import { bracketBefore } from './lowsFirst'
import { greyParagraph, paragraph, runs, table, TYPE } from './parts'
import { lacksGlyphs, oneLine } from './printable'
import { sensorLowsFirst, sensorTimes } from './sensor'

const { first: BODY, person: PERSON } = TYPE
const TEXT = FIRST_TEXT

/** How much each part tells. */
interface Size {
  readonly episodes: number
  readonly findings: number
  readonly meals: 'each' | 'kinds'
  /** Fewest points that the picture gets. */
  readonly picture: number
  /** Whether what the list of lows cannot show stands here, but for nights and lows that were not counted. */
  readonly remarks: boolean
  /** How many bounds of the trust in the numbers are told. */
  readonly limits: number
}

/** What does not fit is made shorter in this order; nothing is pushed to the next page. */
const SIZES: readonly Size[] = [
  { episodes: 8, findings: 5, meals: 'each', picture: 170, remarks: true, limits: 3 },
  { episodes: 8, findings: 5, meals: 'each', picture: 150, remarks: false, limits: 3 },
  { episodes: 8, findings: 5, meals: 'kinds', picture: 150, remarks: false, limits: 3 },
  { episodes: 8, findings: 4, meals: 'kinds', picture: 145, remarks: false, limits: 3 },
  { episodes: 8, findings: 3, meals: 'kinds', picture: 140, remarks: false, limits: 3 },
  { episodes: 6, findings: 3, meals: 'kinds', picture: 130, remarks: false, limits: 2 },
  { episodes: 6, findings: 2, meals: 'kinds', picture: 115, remarks: false, limits: 2 },
  { episodes: 4, findings: 2, meals: 'kinds', picture: 100, remarks: false, limits: 1 },
  { episodes: 2, findings: 2, meals: 'kinds', picture: 90, remarks: false, limits: 1 },
  { episodes: 2, findings: 1, meals: 'kinds', picture: 80, remarks: false, limits: 0 },
]
/** About so many words are read in the minutes of a visit. */
const MOST_WORDS = 450
/** Of them so many stand in the picture and at the foot. */
const WORDS_BESIDE = 50
/** More is white space. */
const TALLEST_PICTURE = 280
/** Kept free at the foot: line breaks are estimated, points. */
const SPARE = 12

/** The visit at a glance, on one page: lows, highs, numbers, the day, meals, what stands out, trust. */
export function firstPage(context: ReportContext): readonly Block[] {
  const { options, width } = context
  const height = PAPERS[options.paper].height - PAGE_MARGINS[1] - PAGE_MARGINS[3] - SPARE
  const ofLows = {
    episodes: episodesTold(context.analysis, context.figures),
    ...lowsTold(context.analysis, context.figures),
    ofSensor: sensorTold(context.analysis, context.figures),
  }
  let parts = partsOf(context, SIZES[0], ofLows)
  const left = () => height - heightOf(parts.flat(), width)
  const isFull = (size: Size) => left() < size.picture || wordCount(parts.flat()) > MOST_WORDS - WORDS_BESIDE
  for (let i = 1; i < SIZES.length && isFull(SIZES[i - 1]); i++) parts = partsOf(context, SIZES[i], ofLows)
  const [above, below] = parts
  const least = SIZES[SIZES.length - 1].picture
  return [...above, ...dayBlock(context, Math.min(Math.max(left(), least), TALLEST_PICTURE)), ...below]
}

interface OfLows extends Pick<LowsTold, 'counted' | 'remarks'> {
  readonly episodes: readonly EpisodeTold[]
  /** Null of finger-sticks. */
  readonly ofSensor: SensorTold | null
}

/** What stands above the picture, and below it. */
function partsOf(
  context: ReportContext,
  size: Size,
  ofLows: OfLows,
): readonly [readonly Block[], readonly Block[]] {
  const { words, options } = context
  const { TITLES } = words.firstPage
  const above = [
    ...firstHead(context, TEXT),
    ...covered(context),
    ...toldFirst(context, TEXT),
    ...forThePen(context),
    ...lows(context, size, ofLows),
    ...(ofLows.ofSensor === null ? [] : sensorTimes(context, ofLows.ofSensor)),
    ...numbers(context),
    ...headed(context, TITLES.day, context.timesKnown ? [words.firstPage.DAY_KEY] : []),
  ]
  const below = [...meals(context, size), ...findings(context, size), ...trust(context, size, TITLES.trust)]
  const replaced = options.onePage && lacksGlyphs([...above, ...below])
  return [
    above,
    [...below, ...(replaced ? [greyParagraph(words.method.REPLACED_GLYPHS, TEXT)] : []), agreed(context)],
  ]
}

/** What is not known, as large as what is. */
function covered({ figures, words }: ReportContext): readonly Block[] {
  if (figures.kind === 'sensor') return [paragraph(words.firstPage.MADE_FOR_FINGER_STICKS, TEXT)]
  const hours = onlyPartOfDay(figures)
  if (hours === null) return []
  return [paragraph(words.firstPage.onlyHoursText(hours), { bold: true, fontSize: TYPE.covered })]
}

const DAYS_A_WEEK = 7

/** The lows as they went on, before any other figure. */
function lows(context: ReportContext, size: Size, ofLows: OfLows): readonly Block[] {
  const { episodes, counted, remarks, ofSensor } = ofLows
  const { analysis, figures, unit, words } = context
  const { firstPage: own } = words
  if (ofSensor !== null) return sensorLowsFirst(context, ofSensor.lows, remarks, size.episodes)
  const shown = listedFirst(analysis.readings, episodes, size.episodes)
  // Days alone do not tell which lows belong together.
  const n = hoursKnown(analysis.readings, context.indexes) ? episodes.length : null
  const perWeek = n === null || figures.days < DAYS_A_WEEK ? null : (DAYS_A_WEEK * n) / figures.days
  const hours = usualHours(analysis.readings, episodes).slice(0, size.episodes > 4 ? 3 : 1)
  const told = remarks
    .filter(({ code }) => size.remarks || ALWAYS.includes(code))
    .filter(({ code }) => code !== 'further')
  const ofTwo = lowsOfTwoPeriods(words, analysis, context.years, size.limits > 0)
  return [
    ...headed(context, own.TITLES.lows, own.lowsHeadline(counted, n, perWeek, unit)),
    ...(ofTwo === null ? [] : [paragraph(ofTwo, { bold: true, ...TEXT })]),
    ...inTwoColumns(shown.map((episode) => episodeItem(context, episode, noteLengthBeside(shown.length)))),
    paragraph(
      [
        ...(shown.length < episodes.length
          ? [
              own.listedText(
                shown.length,
                episodes.length,
                episodes.some(({ helped }) => helped),
              ),
            ]
          : []),
        ...(hours.length === 0 ? [] : [own.usualHoursText(hours, areMost(hours))]),
        ...told.map((remark) => lowRemarkInWords(context, remark, size.remarks)),
        ...(figures.findings.length === 0 ? [] : lowsQuestion(context)),
      ].join(' '),
      TEXT,
    ),
    paragraph(own.PEN_LINE, { fontSize: PERSON }),
  ]
}

const ALWAYS: readonly LowRemark['code'][] = [
  'nights',
  'no-times',
  'not-counted',
  'own-readings',
  'below-meters',
  'bracketed',
]

function episodeItem(context: ReportContext, episode: EpisodeTold, noteLength: number): Paragraph {
  const { analysis, words, years } = context
  const { readings } = analysis
  const { firstPage: own, dates } = words
  const values = markedSequence(words, analysis, episode.sequence)
  const note = episode.noted === null ? '' : printedNote(context, episode.noted)
  const said = [
    ...(episode.helped ? [own.HELPED] : []),
    ...(episode.confirmed ? [words.lows.CONFIRMED] : []),
    ...(note === '' ? [] : [`‘${oneLine(note, noteLength)}’`]),
  ]
  const when = dates.readingMoment(readings, episode.lows[0], years)
  return {
    text: [
      { text: `${bracketBefore(context, episode.lows)}■ ${values}`, bold: true },
      `  ${own.episodeText(episode, when)}${said.length > 0 ? ` (${said.join('; ')})` : ''}`,
    ],
    ...TEXT,
    margin: [0, 0, 0, 1],
  }
}

/** Five large figures, each with a line of what it rests on. */
function numbers(context: ReportContext): readonly Block[] {
  const { analysis, figures, unit, words, years } = context
  const { figures: text, firstPage: own } = words
  const a1c = periodA1c(figures)
  const target = text.targetText(analysis.settings.targetLow, analysis.settings.targetHigh, unit)
  const of = (key: 'meanMgDl' | 'sdMgDl' | 'cvPercent' | 'percentInTarget', small: string | null) => {
    const measure = periodMeasure(key, figures)
    const held = measure.heldBack === null ? null : text.heldBackText(measure.heldBack)
    const sign = held === null && measure.quantity !== 'glucose' ? text.unitText(measure, unit) : ''
    const label = key === 'percentInTarget' ? target : own.SHORT_LABELS[key]
    const known = knownTo(measure, unit)
    return large(
      label,
      text.valueText(measure, unit),
      sign,
      held ?? small ?? (known === null ? '' : own.knownText(known)),
    )
  }
  const { count, n } = shareCount('percentInTarget', figures.asLogged)
  // Of a sensor it stands among the shares of time, and the indicator here.
  const isSensor = figures.kind === 'sensor'
  const indicator = words.sensor.indicatorNote(figures.asLogged)
  const high = highsTold(analysis, figures)
  const latest = high.latest.map((index) => ({
    moment: words.dates.readingMoment(analysis.readings, index, years),
    doubtful: high.doubtful.includes(index),
  }))
  const heading = headed(context, own.TITLES.numbers, own.highsText(high, latest, unit))
  if (isMostlyTrials(analysis)) return [...heading, paragraph(own.MOSTLY_TRIALS, TEXT)]
  return [
    ...heading,
    {
      columns: [
        of('meanMgDl', null),
        of('sdMgDl', own.halfLieText(text.valueText(periodMeasure('middleHalfMgDl', figures), unit))),
        of('cvPercent', own.SD_OF_MEAN),
        ...(isSensor
          ? []
          : [
              of(
                'percentInTarget',
                periodMeasure('percentInTarget', figures).counted === null
                  ? own.ofReadingsText(count, n)
                  : '',
              ),
            ]),
        large(
          own.SHORT_LABELS.a1c,
          text.a1cValueText(a1c),
          a1c.heldBack === null && !a1c.outsideTable ? '%' : '',
          a1c.heldBack !== null
            ? text.heldBackText(a1c.heldBack)
            : a1c.outsideTable
              ? own.A1C_OUTSIDE_TABLE
              : a1c.ofAllDays
                ? own.NOT_LABORATORY
                : own.latestNotLaboratory(A1C_DAYS),
        ),
      ],
      columnGap: 8,
    },
    ...(indicator === null || a1c.heldBack?.why === 'markers'
      ? []
      : [paragraph(words.sensor.indicatorSentence(indicator), TEXT)]),
  ]
}

/** The scene is drawn for smaller letters and enlarged, so that they are as large as all others. */
function dayBlock(context: ReportContext, height: number): readonly Block[] {
  const { analysis, figures, words, width } = context
  if (!context.timesKnown) return [paragraph(words.day.NO_TIMES, TEXT)]
  const scale = BODY / SCENE_LETTERS
  const size = { width: width / scale, height: height / scale, palette: PRINT_PALETTE, note: false }
  const scene = dayPicture(words, analysis, figures, size)
  return [{ svg: sceneToSvg(scene), alt: scene.description, width, height }]
}

const SCENE_LETTERS = 7

/** The readings by meal where the log tells them: each moment, or all meals as one. */
function meals(context: ReportContext, { meals: rows }: Size): readonly Block[] {
  const { analysis, figures, unit, words } = context
  const { byMeal } = figures
  if (!tellsMeals(byMeal)) return []
  const { pages, numbers: text, firstPage: own, meals: names } = words
  const each =
    rows === 'each' ? byMeal.moments.map((row) => ({ ...row, name: names.momentName(row.moment) })) : []
  const kinds = rows === 'each' ? [] : byMeal.kinds.map((row) => ({ ...row, name: names.kindName(row.kind) }))
  const all = [...each, ...kinds]
  const goals = all.some(({ withinGoal }) => withinGoal !== null)
  const cells = (row: RowFigures) => [
    String(row.n),
    String(row.days),
    [{ text: words.figures.valueText(measureOf('medianMgDl', row), unit), bold: true }],
    words.figures.valueText(measureOf('middleHalfMgDl', row), unit),
    text.readingText(analysis.readings, row.lowest, unit),
    text.readingText(analysis.readings, row.highest, unit),
    String(row.readingsBelow70),
  ]
  const body: (string | readonly Inline[])[][] = all.map((row) => [
    row.name,
    ...cells(row),
    ...(goals ? [metText(context, row)] : []),
  ])
  if (byMeal.untagged !== null)
    body.push([names.WITHOUT_A_TAG, ...cells(byMeal.untagged), ...(goals ? [text.NO_NUMBER] : [])])
  // Targets that the kit tells stand above in words; what is met here is not held against those.
  const ofPublished = analysis.kit.agreedTargets !== undefined && analysis.settings.ownGoal === null
  const right = { width: 'auto', align: 'right' } as const
  const columns = pages.BY_MEAL_COLUMNS
  return [
    table(
      [
        { title: own.TITLES.meals, width: '*' },
        { title: columns.n, ...right },
        { title: own.DAYS_COLUMN, ...right },
        { title: columns.median, ...right },
        { title: columns.middleHalf, ...right },
        { title: columns.lowest, ...right },
        { title: columns.highest, ...right },
        { title: `<${text.limitText(LIMITS.low, unit)}`, ...right },
        ...(goals ? [{ title: ofPublished ? own.PUBLISHED_GOAL_COLUMN : columns.withinGoal, ...right }] : []),
      ],
      body,
      { ...TEXT, margin: [0, 2, 0, 0] },
    ),
  ]
}

function metText(
  { words, unit }: ReportContext,
  {
    goal,
    withinGoal,
    n,
  }: {
    readonly goal: Parameters<typeof words.meals.goalText>[0] | null
    readonly withinGoal: number | null
    readonly n: number
  },
): string {
  if (withinGoal === null) return words.numbers.NO_NUMBER
  const met = `${withinGoal} of ${n}`
  return goal === null ? met : `${met} (${words.meals.goalText(goal, unit)})`
}

/** What stands out, in the order of harm, each with one question. */
function findings(context: ReportContext, size: Size): readonly Block[] {
  const { analysis, figures, words } = context
  if (figures.kind === 'sensor') return []
  const { settings } = analysis
  const all = figures.findings
  const shown = all.slice(0, size.findings)
  const { firstPage: own } = words
  if (all.length === 0)
    return headed(context, own.TITLES.findings, [
      [own.nothingStandsOut(figures.lows.readingsBelow70), ...lowsQuestion(context, true)].join(' '),
    ])
  return [
    ...headed(context, own.TITLES.findings, [
      own.findingsDoubt(doubtOfFindings(analysis, { ...figures, findings: shown }), all.length),
    ]),
    ...findingsTold(shown, settings).map((told, i): Columns => ({
      columns: [
        { text: `${i + 1}.`, width: 11, bold: true, ...TEXT },
        {
          text: runs([
            `${own.findingText(told, settings)} `,
            { strong: words.findings.ASK },
            ` ${own.questionText(shown[i])}`,
          ]),
          width: '*',
          ...TEXT,
        },
      ],
      columnGap: 2,
      isListItem: true,
      margin: [0, 0, 0, 1],
    })),
  ]
}

const MOST_TRIED = 3
const NOT_MARKED: readonly TrustLimit['code'][] = ['others', 'trials', 'half-day-off']

function trust(context: ReportContext, size: Size, title: string): readonly Block[] {
  const { analysis, figures, unit, words, years, meterNames } = context
  const { firstPage: own, figures: text } = words
  const doubts = doubtsOf(analysis, figures)
  const tried = triedLately(analysis, MOST_TRIED)
  const bounds = trustLimits(analysis, figures)
  const limits = isMostlyTrials(analysis) ? [] : bounds.slice(0, size.limits)
  // What is told right under it is in doubt too, though no reading is marked for it.
  const besides = bounds.some(({ code }) => NOT_MARKED.includes(code))
  const trials = trialTests(analysis) > 0
  const checked = (['meanMgDl', 'sdMgDl', 'percentInTarget'] as const).map((key) =>
    periodMeasure(key, figures, 'checked'),
  )
  const [mean, sd, share] = checked.map((measure) => text.valueWithPercent(measure, unit))
  const changes =
    doubts.found !== 'not-judged' &&
    !doubts.tooMany &&
    figures.checked.n !== figures.asLogged.n &&
    checked.every(({ heldBack }) => heldBack === null) &&
    !isMostlyTrials(analysis)
  const target = text.targetText(analysis.settings.targetLow, analysis.settings.targetHigh, unit)
  return [
    ...headed(context, title, own.trustText(doubts, besides)),
    ...(limits.length === 0
      ? []
      : [
          paragraph(
            limits.map((limit) => own.trustLimitText(limit, meterNames, unit, years)).join(' '),
            TEXT,
          ),
        ]),
    ...(changes
      ? [
          greyParagraph(
            own.withoutDoubtfulText(mean, sd, share, target, {
              doubtful: doubts.doubtful.length > 0,
              trials,
            }),
            { ...TEXT, margin: [0, 0, 0, 2] },
          ),
        ]
      : []),
    ...(tried.length === 0
      ? []
      : [
          paragraph(
            own.triedText(tried.map((one) => ({ ...one, label: oneLine(one.label, NOTE_LENGTH.many) }))),
            TEXT,
          ),
        ]),
  ]
}

/** With how many characters of each have room. */
const PRACTICE_FIELDS = [
  ['diabetes', 26],
  ['treatment', 40],
  ['agreedTargets', 24],
] as const

/** What a practice writes, and the person's question where the kit has none. */
function forThePen({ analysis, words }: ReportContext): readonly Block[] {
  const { PRACTICE, MY_QUESTION } = words.firstPage
  const line = PRACTICE_FIELDS.flatMap(([field, length], i): Inline[] => {
    const told = analysis.kit[field]
    const { name, blank } = PRACTICE[field]
    return [
      `${i === 0 ? '' : '   '}${name}`,
      told === undefined ? blank : { text: oneLine(told, length), bold: true },
    ]
  })
  return [
    { text: line, fontSize: PERSON, margin: [0, 2, 0, 2] },
    ...(analysis.kit.questions?.length
      ? []
      : [paragraph(`${MY_QUESTION}${'_'.repeat(74)}`, { fontSize: PERSON })]),
  ]
}

/** For the pen. */
function agreed({ words }: ReportContext): Block {
  return paragraph(`${words.firstPage.AGREED_TODAY}${'_'.repeat(78)}`, {
    fontSize: PERSON,
    margin: [0, 5, 0, 0],
  })
}
