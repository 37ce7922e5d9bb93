import type { Analysis } from '../analysis/analysis'
import { dayPicture } from '../charts/dayPicture'
import { daysPicture } from '../charts/daysPicture'
import { distributionPicture } from '../charts/distributionPicture'
import { twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { FEWEST_BLOCK_READINGS, FEWEST_READINGS } from '../statistics/heldBack'
import { TOLD_LIMITS } from '../told/limits'
import { reportContext } from '../report/context'
import { blocksTable, type PlainTable } from '../report/dayInNumbers'
import { type LargeFigure, largeFigures, markersText } from '../report/numbers'
import { comparedPeriods } from '../report/twoPeriods'
import { figuresView, type FiguresView } from './figuresView'
import { daysTable, spreadTable } from './pictureTables'
import { drawnView, type PictureView } from './pictureView'
import { type StandsOutView, standsOutView } from './standsOutView'
import { trustView } from './trustView'
import type { Words } from '../wording/words'

/** The figures and pictures of the visit's period, and of the one beside it. */
export interface PictureScreenView {
  readonly kind: 'picture'
  readonly large: readonly LargeFigure[]
  /** How HI and LO were counted; null where there are none. */
  readonly markers: string | null
  readonly figures: FiguresView
  readonly standsOut: StandsOutView
  /** How far the readings can be trusted, in sentences. */
  readonly trust: readonly string[]
  readonly day: DrawnTable | { readonly none: string }
  readonly days: DrawnTable
  readonly spread: DrawnTable
  readonly compared: ComparedView | null
}

/** A picture with the table of what it shows. */
export interface DrawnTable {
  readonly picture: PictureView
  readonly table: PlainTable
  readonly note: string
}

export interface ComparedView {
  readonly lows: string
  readonly introduction: string
  readonly cautions: readonly string[]
  readonly measures: PlainTable
  readonly measuresNote: string
  readonly picture: PictureView | null
  readonly blocks: PlainTable | null
  readonly blocksNote: string
}

/** Sizes in the window, points; it enlarges them to the room it has. */
const WIDTH = 560
const DAY_HEIGHT = 270
const SPREAD_HEIGHT = 150

/** The pages need more than the window knows of them; nothing of this is shown here. */
const NOT_PRINTED = { paper: 'A4', label: null, madeAt: 0, programVersion: '' } as const

export function pictureScreen(words: Words, analysis: Analysis): PictureScreenView {
  const context = reportContext(words, analysis, NOT_PRINTED)
  const { figures } = context
  const size = { width: WIDTH, height: DAY_HEIGHT }
  return {
    kind: 'picture',
    large: largeFigures(context),
    markers: markersText(context),
    figures: figuresView(words, analysis, figures),
    standsOut: standsOutView(words, analysis, figures),
    trust: trustView(words, analysis, figures),
    day: context.timesKnown
      ? {
          picture: drawnView((palette) => dayPicture(words, analysis, figures, { ...size, palette })),
          table: blocksTable(context),
          note: words.day.blocksNote(FEWEST_BLOCK_READINGS, FEWEST_READINGS),
        }
      : { none: words.day.NO_TIMES },
    days: {
      picture: drawnView((palette) => daysPicture(words, analysis, figures, { width: WIDTH, palette })),
      table: daysTable(words, analysis, figures),
      note: words.pictures.DAYS_KEY,
    },
    spread: {
      picture: drawnView((palette) =>
        distributionPicture(words, analysis, figures, { width: WIDTH, height: SPREAD_HEIGHT, palette }),
      ),
      table: spreadTable(words, analysis, figures),
      note: words.pictures.DISTRIBUTION_KEY,
    },
    compared: comparedView(words, analysis),
  }
}

function comparedView(words: Words, analysis: Analysis): ComparedView | null {
  const compared = comparedPeriods(reportContext(words, analysis, NOT_PRINTED))
  if (compared === null) return null
  const { shapes, ...texts } = compared
  const size = { width: WIDTH, height: DAY_HEIGHT }
  return {
    ...texts,
    picture:
      shapes && drawnView((palette) => twoPeriodsPicture(words, analysis, shapes, { ...size, palette })),
    blocksNote: words.comparison.blockChangesNote(TOLD_LIMITS),
  }
}
