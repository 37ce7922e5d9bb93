import { type Palette, SCREEN_PALETTE } from '../charts/palette'
import type { Scene } from '../charts/scene'
import { sceneToSvg } from '../charts/sceneToSvg'

/** A picture as SVG text in the colours of the window's style sheet, and in words. */
export interface PictureView {
  readonly description: string
  readonly svg: string
}

/** A picture of the pages, drawn for the window: the very same scene in its colours. */
export function drawnView(drawn: (palette: Palette) => Scene): PictureView {
  const scene = drawn(SCREEN_PALETTE)
  return { description: scene.description, svg: sceneToSvg(scene) }
}
