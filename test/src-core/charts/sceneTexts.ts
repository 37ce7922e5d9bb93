import { type Box, boxesOverlap } from '../../../src-core/charts/placeLabels'
import type { Scene, SceneText } from '../../../src-core/charts/scene'
import { drawnNodes } from '../../helpers/scenes'
import { textWidth } from '../../../src-core/charts/textWidth'
import { inkOf } from './embeddedFont'

export function textsOf(scene: Scene): readonly SceneText[] {
  return drawnNodes(scene).filter((node) => node.kind === 'text')
}

/** The box that a text's letters take: as wide as they run, as high as their ink. */
export function boxOf(text: SceneText): Box {
  const width = textWidth(text.text, text.size, text.bold)
  const left = text.x - (text.anchor === 'end' ? width : text.anchor === 'middle' ? width / 2 : 0)
  const ink = inkOf(text.text, text.bold === true)
  return {
    left,
    right: left + width,
    top: text.y - ink.top * text.size,
    bottom: text.y + ink.bottom * text.size,
  }
}

/** Every two texts of a scene that cover one another, as 'one | other'. */
export function overlappingTexts(scene: Scene): readonly string[] {
  const texts = textsOf(scene).map((text) => ({ text: text.text, box: boxOf(text) }))
  return texts.flatMap((one, i) =>
    texts
      .slice(i + 1)
      .filter((other) => boxesOverlap(one.box, other.box))
      .map((other) => `${one.text} | ${other.text}`),
  )
}

/** Texts of a scene that reach beyond its edges. */
export function textsOutside(scene: Scene): readonly string[] {
  return textsOf(scene)
    .filter((text) => {
      const { left, right, top, bottom } = boxOf(text)
      return left < 0 || top < 0 || right > scene.width || bottom > scene.height
    })
    .map(({ text }) => text)
}

/** Sizes of type below 7 points, each with its text. */
export function textsTooSmall(scene: Scene): readonly string[] {
  return textsOf(scene)
    .filter(({ size }) => size < 7)
    .map(({ text, size }) => `${text}: ${size}`)
}
