// The steps of a test as line drawings: one ink, few lines, thick enough for weak eyes and for a fax, which knows no grey.
import type { Words } from '../wording/words'
import type { Scene, SceneNode } from './scene'

export type TechniqueStep = keyof Words['handout']['DRAWINGS']

/** Size of a drawing, points. */
export const DRAWING = { width: 112, height: 63 } as const
/** Of any other ink a fax makes dots. */
const INK = '#000000'
/** A dot of a fax (200 to the inch) is 0.36 points wide: no line is thinner than three. */
const LINE_WIDTH = { outline: 1.6, detail: 1.1 } as const

/** The drawing of a step, with what it shows in words. */
export function techniqueDrawing(words: Words, step: TechniqueStep): Scene {
  return { ...DRAWING, description: words.handout.DRAWINGS[step], nodes: DRAWN[step] }
}

type Corner = readonly [x: number, y: number]
type Line = readonly Corner[]

function drawn(line: Line, width: number): SceneNode {
  return { kind: 'polyline', points: line.map(([x, y]) => ({ x, y })), stroke: { color: INK, width } }
}

const outlines = (...lines: readonly Line[]) => lines.map((line) => drawn(line, LINE_WIDTH.outline))
const details = (...lines: readonly Line[]) => lines.map((line) => drawn(line, LINE_WIDTH.detail))
const blob = (x: number, y: number, radius: number): SceneNode => ({
  kind: 'circle',
  x,
  y,
  radius,
  fill: INK,
})

function figures(x: number, y: number, text: string, size: number): SceneNode {
  return { kind: 'text', x, y, text, size, fill: INK, anchor: 'middle', bold: true }
}

/** A line through points, given as x, y, x, y … */
function line(...at: readonly number[]): Line {
  return at.flatMap((x, i): Corner[] => (i % 2 === 0 ? [[x, at[i + 1]]] : []))
}

/** Part of an ellipse from one angle to another: degrees, clockwise from the right. */
function arc(x: number, y: number, across: number, down: number, from: number, to: number): Line {
  const steps = 16
  return Array.from({ length: steps + 1 }, (_, i): Corner => {
    const angle = ((from + ((to - from) * i) / steps) * Math.PI) / 180
    return [x + across * Math.cos(angle), y + down * Math.sin(angle)]
  })
}

/** A line turned clockwise about its origin, made smaller or larger, and put at a place. */
function placed(line: Line, degrees: number, size: number, [x, y]: Corner): Line {
  const cos = size * Math.cos((degrees * Math.PI) / 180)
  const sin = size * Math.sin((degrees * Math.PI) / 180)
  return line.map(([across, down]) => [x + across * cos - down * sin, y + across * sin + down * cos])
}

/** A box with round corners. */
function box(left: number, top: number, width: number, height: number, radius: number): Line {
  const [right, bottom] = [left + width - radius, top + height - radius]
  return [
    ...arc(left + radius, top + radius, radius, radius, 180, 270),
    ...arc(right, top + radius, radius, radius, 270, 360),
    ...arc(right, bottom, radius, radius, 0, 90),
    ...arc(left + radius, bottom, radius, radius, 90, 180),
    [left, top + radius],
  ]
}

/** An arrow that ends at its tip, pointing to the right or, turned, elsewhere. */
function arrow(tip: Corner, degrees: number, length: number): readonly Line[] {
  const shaft = line(-length, 0, 0, 0)
  const barbs = line(-5, -5, 0.5, 0, -5, 5)
  return [shaft, barbs].map((line) => placed(line, degrees, 1, tip))
}

const fingerEnd = (left: number, top: number): Line => arc(left + 3.5, top, 3.5, 4, 180, 360)

/** An open hand from its wrist over the thumb, fingers up; the middle of the palm is the origin. */
const THUMB_SIDE: Line = [
  [-10, 44],
  [-11, 30],
  [-13, 22],
  [-20, 12],
  [-25, 3],
  ...arc(-23, -3, 4, 5, 150, 330),
  [-17, 4],
  [-14, 7],
]
const FINGERS: Line = [
  ...fingerEnd(-14, -26),
  [-7, -3],
  ...fingerEnd(-7, -31),
  [0, -3],
  ...fingerEnd(0, -28),
  [7, -1],
  ...fingerEnd(7, -19),
]
const OUTER_SIDE = line(14, 14, 12, 29, 11, 44)

/** A finger that points up, its tip at the origin: the outline, then its nail. */
const FINGER: Line = [[-14, 40], [-14, 16], ...arc(0, 16, 14, 16, 180, 360), [14, 40]]
const NAIL: Line = [
  [-8.5, 21],
  [-8.5, 12],
  ...arc(0, 12, 8.5, 7.5, 180, 360),
  [8.5, 21],
  ...arc(0, 21, 8.5, 3, 0, 180),
]

/** A meter with its screen. */
const meter = (left: number, top: number): readonly Line[] => [
  box(left, top, 28, 44, 5),
  box(left + 5, top + 7, 18, 13, 1.5),
]

const DRAWN: Record<TechniqueStep, readonly SceneNode[]> = {
  // A vial with a strip on its label; its lid is pressed down.
  vial: [
    ...outlines(box(37, 19, 38, 10, 2), [[41, 29], [41, 58], ...arc(56, 58, 15, 3.5, 180, 0), [71, 29]]),
    ...details(...[44, 50, 56, 62, 68].map((x) => line(x, 21.5, x, 26.5))),
    ...details([[41, 36], ...arc(56, 36, 15, 2.5, 180, 0)], [[41, 53], ...arc(56, 53, 15, 2.5, 180, 0)]),
    ...details(box(46, 42.5, 20, 7, 1), line(60, 42.5, 60, 49.5)),
    ...outlines(...arrow([56, 15], 90, 14)),
  ],
  // A tap from the right, its water, a hand under it, drips below.
  wash: [
    ...outlines([[110, 5], [72, 5], ...arc(72, 15, 10, 10, 270, 180), [74, 15], [110, 15]]),
    ...outlines(line(90, 5, 90, 1), line(80, 1, 100, 1)),
    ...details(...[64, 67.5, 71].map((x) => line(x, 18, x, 29))),
    ...outlines(placed([...THUMB_SIDE, ...FINGERS, ...OUTER_SIDE], 90, 0.85, [48, 42])),
    ...details(...[57, 63, 69].map((x, i) => line(x, 57 + (i % 2), x, 61 + (i % 2)))),
  ],
  // A towel that hangs from a rail; a hand reaches into it.
  dry: [
    ...outlines(line(46, 4, 108, 4), line(55, 4, 55, 55, 100, 55, 100, 4)),
    ...details(...Array.from({ length: 10 }, (_, i) => line(55 + 5 * i, 55, 55 + 5 * i, 61))),
    ...details(line(55, 12, 100, 12), line(55, 16, 100, 16), line(55, 44, 100, 44), line(55, 48, 100, 48)),
    ...outlines(
      ...[[...THUMB_SIDE, [-14, -8]] as Line, [[14, -8], ...OUTER_SIDE] as Line].map((line) =>
        placed(line, 90, 0.85, [48, 36]),
      ),
    ),
    ...outlines(...[-7, 0, 7].map((x) => placed(line(x, 2, x, -8), 90, 0.85, [48, 36]))),
  ],
  // A finger with its nail; a lancet pricks it from the side.
  side: [
    ...outlines(placed(FINGER, 0, 1.4, [34, 3]), line(24, 47, 44, 47), line(26, 51, 42, 51)),
    ...details(placed(NAIL, 0, 1.4, [34, 3])),
    ...outlines(box(76, 14, 34, 14, 3), line(76, 17, 69, 19.5, 69, 22.5, 76, 25), line(69, 21, 54, 21)),
    ...details(line(88, 14, 88, 28)),
    blob(53.5, 21, 2),
  ],
  // A fingertip that points down, three times: the drop at its end grows.
  drop: [
    ...[18, 56, 94].flatMap((x) => [
      ...outlines(placed(FINGER, 180, 0.85, [x, 37])),
      ...details(placed(NAIL, 180, 0.85, [x, 37])),
    ]),
    blob(18, 38.5, 2),
    blob(56, 40, 4),
    blob(94, 42, 6.5),
    ...outlines(...arrow([42, 56], 0, 11), ...arrow([80, 56], 0, 11)),
  ],
  // A strip in its meter touches the drop on a fingertip, once.
  strip: [
    ...outlines(placed(FINGER, 90, 1, [40, 34])),
    ...details(placed(NAIL, 90, 1, [40, 34])),
    blob(45, 34, 5.5),
    ...outlines(line(82, 30.5, 49, 30.5, 49, 37.5, 82, 37.5), ...meter(82, 12)),
    figures(64, 20, '1×', 17),
  ],
  // First a glass to drink, then the meter.
  low: [
    figures(6, 16, '1', 17),
    figures(74, 16, '2', 17),
    ...outlines(line(16, 14, 21, 61, 39, 61, 44, 14), line(33, 52, 38, 6, 47, 2), ...arrow([67, 40], 0, 14)),
    ...details(line(17.5, 26, 42.5, 26)),
    ...outlines(...meter(82, 17), line(92, 17, 92, 4, 99, 4, 99, 17)),
  ],
  // A dropper bottle; a pencil writes a date on its label.
  bottle: [
    ...outlines(
      line(12, 62, 12, 27, 20, 20, 46, 20, 54, 27, 54, 62, 11.2, 62),
      line(26, 20, 30, 3, 36, 3, 40, 20),
    ),
    ...details(line(12, 32, 54, 32), line(12, 55, 54, 55)),
    figures(33, 48, '7/7/27', 13),
    ...outlines(
      line(57, 49, 62, 37, 95, 4, 103, 12, 70, 45, 57, 49),
      line(62, 37, 70, 45),
      line(89, 10, 97, 18),
    ),
  ],
}
