import { FEWEST_READINGS } from '../statistics/heldBack'
import { daysPicture } from '../charts/daysPicture'
import { distributionPicture } from '../charts/distributionPicture'
import { PRINT_PALETTE } from '../charts/palette'
import { repeatPairs, repeatsPicture } from '../charts/repeatsPicture'
import { toldOnce } from '../told/stretches'
import { type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, picture, TYPE } from './parts'

const HEIGHT = { distribution: 64, repeats: 90 } as const
/** Fewer days or pairs show no more than their list. */
const FEWEST_DAYS = 5
const FEWEST_PAIRS = 8
const KEY = { fontSize: TYPE.small } as const

/** The days under one another, in at most `mostRows` rows; nothing of a few. */
export function daysUnderOneAnother(context: ReportContext, mostRows?: number): readonly Block[] {
  const { analysis, figures, width, words } = context
  if (figures.asLogged.n < FEWEST_READINGS || figures.to - figures.from + 1 < FEWEST_DAYS) return []
  const { DAYS_TITLE, DAYS_KEY, BRACKET_KEY } = words.pictures
  const blocks = [
    heading(`${DAYS_TITLE}, ${context.unit}`),
    picture(daysPicture(words, analysis, figures, { width, palette: PRINT_PALETTE, mostRows })),
    greyParagraph(hasBracket(context) ? DAYS_KEY + BRACKET_KEY : DAYS_KEY, KEY),
  ]
  return keptTogether(blocks, width)
}

/** How the readings spread; nothing of a few. */
export function howReadingsSpread(context: ReportContext): readonly Block[] {
  const { analysis, figures, width, words } = context
  if (figures.asLogged.n < FEWEST_READINGS) return []
  const size = { width, height: HEIGHT.distribution, palette: PRINT_PALETTE }
  const spread = [
    heading(`${words.pictures.DISTRIBUTION_TITLE}, ${context.unit}`),
    picture(distributionPicture(words, analysis, figures, size)),
    greyParagraph(words.pictures.DISTRIBUTION_KEY, KEY),
  ]
  return keptTogether(spread, width)
}

function hasBracket(context: ReportContext): boolean {
  return toldOnce(context.analysis, context.figures).length > 0
}

/** Repeat tests of the whole logbook against one another; nothing where they are few. */
export function repeatsAgainstOneAnother(context: ReportContext): readonly Block[] {
  const { analysis, width, words } = context
  const sets = analysis.technique.repeatSets
  if (repeatPairs(analysis, sets).length < FEWEST_PAIRS) return []
  const size = { width, height: HEIGHT.repeats, palette: PRINT_PALETTE }
  return keptTogether(
    [
      heading(`${words.pictures.REPEATS_TITLE}, ${context.unit}`),
      picture(repeatsPicture(words, analysis, sets, size)),
      greyParagraph(words.pictures.REPEATS_KEY, KEY),
    ],
    width,
  )
}
