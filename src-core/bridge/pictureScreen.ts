import type { Analysis } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { dayPicture } from '../charts/dayPicture'
import { daysPicture } from '../charts/daysPicture'
import { distributionPicture } from '../charts/distributionPicture'
import { dayShapes, twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { FEWEST_BLOCK_DAYS, FEWEST_BLOCK_READINGS, FEWEST_READINGS } from '../statistics/heldBack'
import { TOLD_LIMITS } from '../told/limits'
import { blocksTable } from '../shown/blocksTable'
import { type ComparedPeriods, comparedPeriods } from '../shown/comparedPeriods'
import { type LargeFigure, largeFigures, markersText } from '../shown/largeFigures'
import type { PlainTable } from '../shown/plainTable'
import { timesKnown } from '../told/day'
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

export interface ComparedView extends ComparedPeriods {
  readonly picture: PictureView | null
  readonly blocksNote: string
}

/** Sizes in the window, points; it enlarges them to the room it has. */
const WIDTH = 560
const DAY_HEIGHT = 270
const SPREAD_HEIGHT = 150

export function pictureScreen(words: Words, analysis: Analysis): PictureScreenView {
  const [figures] = analysis.periods
  const compared = comparedPeriods(words, analysis)
  const shapes = dayShapes(words, analysis)
  const size = { width: WIDTH, height: DAY_HEIGHT }
  return {
    kind: 'picture',
    large: largeFigures(words, analysis, figures),
    markers: markersText(words, analysis, figures),
    figures: figuresView(words, analysis, figures),
    standsOut: standsOutView(words, analysis, figures),
    trust: trustView(words, analysis, figures),
    day: timesKnown(analysis.readings, periodReadings(analysis, figures))
      ? {
          picture: drawnView((palette) => dayPicture(words, analysis, figures, { ...size, palette })),
          table: blocksTable(words, analysis, figures),
          note: words.day.blocksNote(FEWEST_BLOCK_READINGS, FEWEST_BLOCK_DAYS, FEWEST_READINGS),
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
    compared: compared && {
      ...compared,
      picture:
        shapes && drawnView((palette) => twoPeriodsPicture(words, analysis, shapes, { ...size, palette })),
      blocksNote: words.comparison.blockChangesNote(TOLD_LIMITS),
    },
  }
}
