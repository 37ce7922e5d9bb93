// A picture as plain data: what to draw, in points, with the origin at the top left. One renderer turns it
// into SVG text, the same for the window and the paper.

export interface Point {
  readonly x: number
  readonly y: number
}

/** How a line is drawn. Colours are those of a palette. */
export interface Stroke {
  readonly color: string
  readonly width: number
  /** Lengths of dashes and gaps; a solid line where it is left out. */
  readonly dash?: readonly number[]
}

/** Marks and letters of which a picture is made. Squares and triangles are placed by their centre. */
export type SceneNode =
  | { readonly kind: 'group'; readonly name: string; readonly nodes: readonly SceneNode[] }
  | {
      readonly kind: 'line'
      readonly x1: number
      readonly y1: number
      readonly x2: number
      readonly y2: number
      readonly stroke: Stroke
    }
  | { readonly kind: 'polyline'; readonly points: readonly Point[]; readonly stroke: Stroke }
  | {
      readonly kind: 'rect'
      readonly x: number
      readonly y: number
      readonly width: number
      readonly height: number
      readonly stroke: Stroke
    }
  /** Many equal dots in one node: a year of readings stays one element of the SVG. */
  | {
      readonly kind: 'dots'
      readonly points: readonly Point[]
      readonly radius: number
      readonly fill: string
    }
  /** Many equal squares in one node. */
  | {
      readonly kind: 'squares'
      readonly points: readonly Point[]
      readonly size: number
      readonly fill: string
    }
  | {
      readonly kind: 'circle'
      readonly x: number
      readonly y: number
      readonly radius: number
      readonly fill: string
    }
  | {
      readonly kind: 'square'
      readonly x: number
      readonly y: number
      readonly size: number
      readonly fill: string
    }
  | {
      readonly kind: 'triangle'
      readonly x: number
      readonly y: number
      readonly size: number
      readonly stroke: Stroke
    }
  | SceneText

export interface SceneText {
  readonly kind: 'text'
  readonly x: number
  /** The baseline. */
  readonly y: number
  readonly text: string
  readonly size: number
  readonly fill: string
  readonly anchor: 'start' | 'middle' | 'end'
  readonly bold?: boolean
  /** Colour of an outline that keeps the letters apart from lines behind them. */
  readonly halo?: string
}

export interface Scene {
  readonly width: number
  readonly height: number
  /** What the picture shows, in words, from the same numbers; for screen readers. */
  readonly description: string
  readonly nodes: readonly SceneNode[]
}
