import type { SceneText } from './scene'

/** Size of the letters of axes and keys, points. */
export const LETTERS = 7
/** From a line's height to the baseline of letters that are centred on it, as a share of their size. */
export const CENTRED_BASELINE = 0.33

/** Letters of usual size, centred on a height. */
export function wordAt(
  text: string,
  x: number,
  y: number,
  fill: string,
  anchor: SceneText['anchor'],
): SceneText {
  return { kind: 'text', x, y: y + CENTRED_BASELINE * LETTERS, text, size: LETTERS, fill, anchor }
}
