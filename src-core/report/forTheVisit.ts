import { isOfMeter, unknownMeters } from '../kit/meters'
import { dayOfDate, type DayNumber, dayOf } from '../units/wallClock'
import { capitalised } from '../wording/phrases'
import {
  clockTold,
  controlsTold,
  type DisturbanceTold,
  disturbancesTold,
  isDangerous,
  kitFirst,
  yearsOfKit,
} from '../told/kit'
import { vialTold } from '../told/vials'
import type { ReportContext } from './context'
import type { Block, Paragraph, TextStyle } from './document'
import { keptTogether } from './height'
import {
  besideEachOther,
  greyParagraph,
  heading,
  heads,
  paragraph,
  right,
  sectionHeading,
  table,
} from './parts'
import { oneLine, shortened } from './printable'
import type { Years } from '../told/years'
import type { Words } from '../wording/words'

const TEXT_LENGTH = 400
const NAME_LENGTH = 60

/** What the person told besides the logs; nothing where nothing was told. */
export function forTheVisit(ofLogs: ReportContext): readonly Block[] {
  const context = { ...ofLogs, years: kitYears(ofLogs) }
  const [first, ...others] = [
    besideEachOther(questions(context), changes(context)),
    laboratory(context),
    besideEachOther(medicines(context), clocks(context)),
    controls(context),
    strips(context),
  ].filter((blocks) => blocks.length > 0)
  if (first === undefined) return []
  const unknown = unknownMeters(context.analysis.kit, context.analysis.readings.meters, context.meterNames)
  return [
    ...keptTogether(
      [
        ...sectionHeading(ofLogs.words.kit.FOR_THE_VISIT, context.width),
        greyParagraph(ofLogs.words.kit.AS_TOLD),
        ...first,
      ],
      context.width,
    ),
    ...others.flat(),
    ...(unknown.length === 0 ? [] : [paragraph(ofLogs.words.kit.unknownMeterText(unknown.map(name)))]),
  ]
}

/** On the first page, characters. */
const FIRST_LENGTH = { change: 70, question: 72 } as const

/**
 * What of the kit belongs on page 1, in short: what disturbs strips, what changed, what can cause lows, the latest
 * laboratory A1C, the first question.
 */
export function toldFirst(context: ReportContext, style: TextStyle): readonly Block[] {
  const { words } = context
  const { canCauseLows } = context.analysis.kit
  const {
    disturbances,
    change,
    laboratory: latest,
    question,
    furtherQuestions,
  } = kitFirst(context.analysis, latestDay(context))
  const facts = [
    ...(change === undefined
      ? []
      : [words.pages.sinceLastVisitText(sentence(shortened(change, FIRST_LENGTH.change)))]),
    ...(canCauseLows === undefined ? [] : [words.kit.canCauseLowsText(canCauseLows)]),
    ...(latest === undefined
      ? []
      : [words.pages.laboratoryA1cText(words.kit.laboratoryText(latest, kitYears(context)))]),
  ]
  return [
    ...disturbances.map((found) => paragraph(named(found, context), { bold: isDangerous(found), ...style })),
    ...(facts.length === 0 ? [] : [paragraph(facts.join(' '), style)]),
    ...(question === undefined
      ? []
      : [{ ...asked(words, shortened(question, FIRST_LENGTH.question), furtherQuestions), ...style }]),
  ]
}

function latestDay({ analysis: { readings } }: ReportContext): DayNumber {
  return dayOf(readings.at[readings.n - 1])
}

function kitYears(context: ReportContext): Years {
  return yearsOfKit(context.analysis.kit, latestDay(context), context.years)
}

function named(found: DisturbanceTold, { words }: ReportContext): string {
  const medicine = { ...found.medicine, name: name(found.medicine.name) }
  return capitalised(words.kit.interferenceSentence({ ...found, medicine }))
}

function name(text: string): string {
  return oneLine(text, NAME_LENGTH)
}

function sentence(text: string): string {
  const line = oneLine(text, TEXT_LENGTH)
  return /[.!?…]$/.test(line) ? line : `${line}.`
}

function asked(words: Words, question: string, more: number): Paragraph {
  return {
    text: [
      { text: words.pages.QUESTION, bold: true },
      oneLine(question, TEXT_LENGTH),
      more > 0 ? ` (${words.kit.furtherQuestionsText(more)})` : '',
    ],
    margin: [0, 0, 0, 3],
  }
}

function questions({ analysis, words }: ReportContext): readonly Block[] {
  const { questions: list = [] } = analysis.kit
  if (list.length === 0) return []
  return [
    heading(words.pages.TITLES.questions),
    ...list.map((question, i) => paragraph(`${i + 1}. ${oneLine(question, TEXT_LENGTH)}`)),
  ]
}

function changes({ analysis: { kit }, years, words }: ReportContext): readonly Block[] {
  const lines = [
    ...(kit.changes ?? []).map(sentence),
    ...(kit.teachings ?? []).map(({ date, about }) =>
      words.pages.taughtText(
        words.dates.dayText(dayOfDate(date), years),
        about === undefined ? null : oneLine(about, TEXT_LENGTH),
      ),
    ),
    ...(kit.canCauseLows === undefined ? [] : [words.kit.canCauseLowsText(kit.canCauseLows)]),
  ]
  return lines.length === 0
    ? []
    : [heading(words.pages.TITLES.sinceLastVisit), ...lines.map((line) => paragraph(line))]
}

function laboratory({ analysis, years, words }: ReportContext): readonly Block[] {
  const { laboratory: values } = analysis
  if (values.length === 0) return []
  return [
    heading(words.pages.TITLES.laboratory),
    table(
      heads(words.pages.COLUMNS.laboratory, [108, right(78), right(46), '*']),
      values.map((beside) => {
        const centre = beside.before.estimate?.percent ?? null
        return [
          words.kit.laboratoryText(beside, years),
          centre === null ? words.numbers.NO_NUMBER : `${words.numbers.a1cText(centre)} %`,
          words.kit.a1cDifferenceText(beside.difference),
          words.kit.besideText(beside, analysis.settings),
        ]
      }),
    ),
  ]
}

function medicines(context: ReportContext): readonly Block[] {
  const { words } = context
  const {
    analysis: { kit },
    years,
  } = context
  const list = kit.medicines ?? []
  if (list.length === 0) return []
  return [
    heading(words.pages.TITLES.medicines),
    paragraph(
      list
        .map((medicine) => {
          const detail = words.kit.medicineDetail(medicine, years)
          return detail === '' ? name(medicine.name) : `${name(medicine.name)} (${detail})`
        })
        .join('; '),
    ),
    ...disturbancesTold(kit, latestDay(context)).map((found) =>
      paragraph(`${named(found, context)} ${context.words.kit.interferenceSource(found.interference)}`),
    ),
  ]
}

/** A meter of the logs as on paper, another as it was told. */
function meterName({ analysis, meterNames }: ReportContext, told: string): string {
  const { meters } = analysis.readings
  return meterNames.find((onPaper, i) => isOfMeter(told, meters[i], onPaper)) ?? name(told)
}

function controls(context: ReportContext): readonly Block[] {
  const { words } = context
  const list = controlsTold(context.analysis.kit)
  if (list.length === 0) return []
  return [
    heading(words.pages.TITLES.controls),
    table(
      heads(words.pages.COLUMNS.controls, [90, 90, 90, right(70), '*']),
      list.map(({ control, inside }) => [
        words.dates.dayText(dayOfDate(control.date), context.years),
        control.meter === undefined ? words.numbers.NO_NUMBER : meterName(context, control.meter),
        name(control.vial ?? words.numbers.NO_NUMBER),
        `${control.result} ${control.unit}`,
        words.kit.controlOutcome(control, inside),
      ]),
    ),
    greyParagraph(words.pages.CONTROLS_NOTE),
  ]
}

function strips({ analysis: { kit }, years, words }: ReportContext): readonly Block[] {
  const list = kit.strips ?? []
  if (list.length === 0) return []
  const day = (date: string | undefined) =>
    date === undefined ? words.numbers.NO_NUMBER : words.dates.dayText(dayOfDate(date), years)
  return [
    heading(words.pages.TITLES.strips),
    table(
      heads(words.pages.COLUMNS.strips, [80, 60, 84, 84, 84, '*']),
      list.map((vial) => [
        name(vial.vial ?? words.numbers.NO_NUMBER),
        name(vial.lot ?? words.numbers.NO_NUMBER),
        day(vial.expires),
        day(vial.opened),
        day(vial.finished),
        words.kit.stripsRemark(vialTold(vial), years),
      ]),
    ),
  ]
}

function clocks(context: ReportContext): readonly Block[] {
  const { words } = context
  const list = context.analysis.kit.clocks ?? []
  if (list.length === 0) return []
  return [
    heading(words.pages.TITLES.clocks),
    ...list.map((clock) =>
      paragraph(
        words.kit.clockText(
          clock.meter === undefined ? words.pages.THE_METER : meterName(context, clock.meter),
          clockTold(clock),
          context.years,
        ),
      ),
    ),
  ]
}
