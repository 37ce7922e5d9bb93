import { PAPERS, type Paper } from '../reference/paper'
import type { Printed } from '../model/printed'
import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import type { DoubtfulReading } from '../technique/technique'
import type { GlucoseUnit } from '../units/glucose'
import { type DayNumber } from '../units/wallClock'
import { metersOnPaper } from '../kit/metersOnPaper'
import { timesKnown } from '../told/day'
import { type LowRemark, withoutRows } from '../told/lows'
import { type ReasonTold, withoutNoteWords } from '../told/reasons'
import { type Years, yearsOf } from '../told/years'
import type { Carried } from '../wording/english/attachments'
import type { Words } from '../wording/words'

/** What the pages depend on besides the figures. */
export interface PageOptions extends Printed {
  readonly paper: Paper
  /** What stands at the head of the report; null prints nothing. */
  readonly label: string | null
  readonly madeAt: DayNumber
  /** How many days the diary shows, up to the last reading: 0 none, Infinity all; four weeks if absent. */
  readonly diaryDays?: number
  readonly programVersion: string
  /** What the PDF carries beside its pages; null and left out: nothing. */
  readonly carries?: Carried | null
}

/** Distance of the text from the paper's edges, points. */
export const PAGE_MARGINS = [37, 38, 37, 46] as const

/** What every part of the report needs at hand. */
export interface ReportContext {
  readonly words: Words
  readonly analysis: Analysis
  readonly figures: PeriodFigures
  readonly options: PageOptions
  readonly unit: GlucoseUnit
  readonly years: Years
  /** Indexes of the readings that the period's figures are made of. */
  readonly indexes: readonly number[]
  /** Whether any of them has a time of day. */
  readonly timesKnown: boolean
  /** Width of the text, points. */
  readonly width: number
  /** Doubtful readings of the whole logbook by index. */
  readonly doubtful: ReadonlyMap<number, DoubtfulReading>
  /** Name on paper of each of the logbook's meters. */
  readonly meterNames: readonly string[]
}

export function reportContext(words: Words, analysis: Analysis, options: PageOptions): ReportContext {
  const figures = analysis.periods[0]
  const { readings } = analysis
  const indexes = periodReadings(analysis, figures)
  return {
    words,
    analysis,
    figures,
    options,
    unit: analysis.settings.unit,
    years: yearsOf(readings),
    indexes,
    timesKnown: timesKnown(readings, indexes),
    width: PAPERS[options.paper].width - PAGE_MARGINS[0] - PAGE_MARGINS[2],
    doubtful: new Map(analysis.technique.doubtful.map((reading) => [reading.index, reading])),
    meterNames: metersOnPaper(readings.meters),
  }
}

/** The note of a reading as far as notes are printed; '' where it has none. */
export function printedNote({ analysis, options }: ReportContext, index: number): string {
  return options.withoutNotes ? '' : analysis.readings.note(index)
}

/** Why a reading is doubted, in few words; where notes are not printed, without the words of its note. */
export function reasonsInWords(
  { analysis, options, unit, words }: ReportContext,
  reasons: readonly ReasonTold[],
): string {
  const told = options.withoutNotes ? withoutNoteWords(reasons) : reasons
  return words.reasons.briefReasonsText(told, analysis.readings, unit)
}

/**
 * What the list of lows cannot show, in words; where notes are not printed, without rows that may hold some. `rows`: whether
 * there is room for those.
 */
export function lowRemarkInWords(
  { options, unit, words }: ReportContext,
  remark: LowRemark,
  rows = true,
): string {
  const told =
    (options.withoutNotes || !rows) && remark.code === 'not-counted'
      ? { ...remark, groups: withoutRows(remark.groups) }
      : remark
  return words.lows.lowRemarkSentence(told, unit)
}

/** Whether a reading lies in the report's period. */
export function isInPeriod(context: ReportContext, index: number): boolean {
  return index >= context.figures.start && index < context.figures.end
}
