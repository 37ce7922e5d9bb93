import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { dayPicture } from '../charts/dayPicture'
import { DARK_PALETTE, type Palette, PRINT_PALETTE } from '../charts/palette'
import { sceneToSvg } from '../charts/sceneToSvg'

/** A picture as SVG text, for a light and for a dark screen, and in words. */
export interface PictureView {
  readonly description: string
  readonly light: string
  readonly dark: string
}

/** The picture of the day in the window, points. The window enlarges it to the room it has. */
const SIZE = { width: 480, height: 250 }

/** The picture of a period's day, the same as on paper. */
export function pictureView(analysis: Analysis, period: PeriodFigures): PictureView {
  const drawn = (palette: Palette) => dayPicture(analysis, period, { ...SIZE, palette })
  const light = drawn(PRINT_PALETTE)
  return {
    description: light.description,
    light: sceneToSvg(light),
    dark: sceneToSvg(drawn(DARK_PALETTE)),
  }
}
