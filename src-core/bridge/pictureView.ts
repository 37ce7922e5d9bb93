import { DARK_PALETTE, type Palette, PRINT_PALETTE } from '../charts/palette'
import type { Scene } from '../charts/scene'
import { sceneToSvg } from '../charts/sceneToSvg'

/** A picture as SVG text, for a light and for a dark screen, and in words. */
export interface PictureView {
  readonly description: string
  readonly light: string
  readonly dark: string
}

/** A picture of the pages, drawn for the window: the very same scene, twice coloured. */
export function drawnView(drawn: (palette: Palette) => Scene): PictureView {
  const light = drawn(PRINT_PALETTE)
  return {
    description: light.description,
    light: sceneToSvg(light),
    dark: sceneToSvg(drawn(DARK_PALETTE)),
  }
}
