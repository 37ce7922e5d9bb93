import type { ReadingKey } from '../model/decision'
import { isTyped } from '../log/typedByHand'
import type { Analysis } from '../analysis/analysis'
import { contextPicture } from '../charts/contextPicture'
import { isLow } from '../log/readings'
import { adviceText, lowAfterwardsText } from '../shown/adviceOnReading'
import type { PlainTable } from '../shown/plainTable'
import { keyOf } from '../analysis/readingKeys'
import type { Advice } from '../wording/english/advice'
import { metersOnPaper } from '../kit/metersOnPaper'
import { effectView, type EffectRow } from './effectView'
import { aroundTable } from './pictureTables'
import { drawnView, type PictureView } from './pictureView'
import { yearsOf } from '../told/years'
import { confirmedLows, tellOfTwoLows } from '../told/confirmedLows'
import { doubtTold } from '../told/doubts'
import { isAnothersReading } from '../told/othersReadings'
import { reasonsTold } from '../told/reasons'
import type { Words } from '../wording/words'

/** One reading with all that is known of it, and what can be decided. */
export interface ReadingView {
  readonly kind: 'reading'
  readonly index: number
  /** What a decision names it by. */
  readonly key: ReadingKey
  readonly value: string
  readonly unit: string
  /** '7 March at 20:28'. */
  readonly moment: string
  /** 'after dinner', 'meter A', 'line 27 of log 1'. */
  readonly details: readonly string[]
  readonly low: boolean
  readonly typed: boolean
  readonly doubt: DoubtView | null
  /** Its note says that it may be somebody else's: what is asked, and why; null of others. */
  readonly anothers: { readonly headline: string; readonly why: string } | null
  readonly picture: PictureView
  /** The readings that the picture shows. */
  readonly around: PlainTable
  readonly decision: DecisionView | null
  readonly leaveOutLabel: string
  /** What leaving it out does and does not. */
  readonly leavingOut: string
  readonly effect: readonly EffectRow[]
}

/** Why it is doubted; null of a reading that is not. */
export interface DoubtView {
  readonly headline: string
  readonly meaning: string
  readonly reasons: readonly string[]
  /** That it is a low either way, where only how low is in doubt; null else. */
  readonly confirmed: string | null
  readonly advice: Advice | null
  readonly afterwards: string | null
}

export interface DecisionView {
  readonly choice: 'keep' | 'leave-out'
  readonly text: string
  /** Why, in words; '' where nothing is known. */
  readonly why: string
  /** The person's own words, to change. */
  readonly reason: string
}

/** Points; the window enlarges it, so that its letters are read beside its own. */
const SIZE = { width: 330, height: 165 }

/** Null where the logbook has no such reading. */
export function readingView(words: Words, analysis: Analysis, index: number): ReadingView | null {
  const { readings, technique, sources, settings, periods } = analysis
  if (index >= readings.n) return null
  const { unit } = settings
  const [period] = periods
  const years = yearsOf(readings)
  const low = isLow(readings, index)
  const decided = technique.decided.find((decision) => decision.index === index)
  const details = [
    readings.meal(index),
    readings.note(index) === '' ? '' : `‘${readings.note(index)}’`,
    metersOnPaper(readings.meters)[readings.meter[index]],
    isTyped(readings, index)
      ? ''
      : words.tables.lineText(readings.line[index], words.logs.logName(readings.source[index])),
  ]
  return {
    kind: 'reading',
    index,
    key: keyOf(
      readings,
      index,
      sources.map(({ sha256 }) => sha256),
    ),
    value: words.numbers.readingText(readings, index, unit),
    unit,
    moment: words.dates.readingMomentAt(readings, index, years),
    details: details.filter((part) => part !== ''),
    low,
    typed: isTyped(readings, index),
    doubt: doubtView(words, analysis, index),
    anothers: isAnothersReading(readings, index)
      ? { headline: words.others.HEADLINE, why: words.others.whyAsked(readings.note(index), low) }
      : null,
    around: aroundTable(words, analysis, index),
    picture: drawnView((palette) => contextPicture(words, analysis, index, { ...SIZE, palette })),
    decision: decided
      ? {
          choice: decided.choice,
          text: words.window.decidedText(decided.choice, low),
          why: words.decided.whyDecided(decided),
          reason: decided.reason,
        }
      : null,
    leaveOutLabel: words.window.leaveOutLabel(low),
    leavingOut: words.window.LEAVING_OUT,
    effect: effectView(words, analysis, period, index),
  }
}

function doubtView(words: Words, analysis: Analysis, index: number): DoubtView | null {
  const { readings, technique, settings, periods } = analysis
  const found = [...technique.doubtful, ...technique.kept].find((reading) => reading.index === index)
  if (found === undefined) return null
  const { doubt, reasons } = found
  const told = reasonsTold(reasons, readings, index)
  const confirmed = confirmedLows(analysis, periods[0]).has(index) && !tellOfTwoLows(told)
  return {
    headline: words.doubt.doubtText(doubtTold(doubt)),
    meaning: words.doubt.DOUBT_MEANING,
    reasons: told.map((reason) => words.reasons.reasonText(reason, readings, settings.unit)),
    confirmed: confirmed ? words.lows.CONFIRMED_LOW : null,
    advice: adviceText(words, analysis, index, reasons),
    afterwards: lowAfterwardsText(words, analysis, periods[0], index),
  }
}
