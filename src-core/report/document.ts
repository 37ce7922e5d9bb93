import type { Paper } from '../reference/paper'
// The pages as plain data, in the shapes that the PDF library takes: the part of them that the report uses.

/** A piece of text within a paragraph. */
export interface Run {
  readonly text: string
  readonly bold?: boolean
  readonly color?: string
  readonly fontSize?: number
  readonly noWrap?: boolean
}

export type Inline = string | Run

export interface TextStyle {
  readonly fontSize?: number
  readonly bold?: boolean
  readonly color?: string
  readonly alignment?: 'left' | 'right' | 'center'
  readonly lineHeight?: number
  readonly noWrap?: boolean
}

/** Left, top, right and bottom, points. */
export type Margin = readonly [number, number, number, number]

interface Placed {
  readonly margin?: Margin
  readonly width?: number | 'auto' | '*'
  readonly pageBreak?: 'before'
  readonly unbreakable?: boolean
  /** Begins a section, and with less room than this at the foot of a page on the next one, points. */
  readonly headlineLevel?: number
}

export interface Paragraph extends TextStyle, Placed {
  readonly text: string | readonly Inline[]
  /** Target of page references. */
  readonly id?: string
  /** Listed among the bookmarks. */
  readonly outline?: boolean
  /** Of a heading: 1 of a document, 2 of a section. */
  readonly level?: 1 | 2
}

/** The number of the page on which the block with this id stands; stands alone in its block. */
export interface PageReference extends TextStyle, Placed {
  readonly pageReference: string
}

export interface Stack extends Placed {
  readonly stack: readonly Block[]
}

export interface Columns extends Placed {
  readonly columns: readonly Block[]
  readonly columnGap?: number
  /** An item of a list: its number or sign, and what it says. */
  readonly isListItem?: true
}

export interface Table extends Placed {
  readonly table: {
    readonly widths: readonly (number | 'auto' | '*')[]
    readonly body: readonly (readonly Paragraph[])[]
    readonly headerRows?: number
    /** Rows without which the heads do not stand at the foot of a page. */
    readonly keepWithHeaderRows?: number
    readonly dontBreakRows?: boolean
  }
  readonly layout: TableLayoutName
}

/** Layouts that the PDF side knows: thin rules under the rows, also with columns close to each other; boxes to write in. */
export type TableLayoutName = 'thinRules' | 'closeColumns' | 'boxes'

export interface Picture extends Placed {
  readonly svg: string
  /** What it shows, for those who do not see it. */
  readonly alt: string
  readonly width: number
  readonly height: number
}

export interface Rule extends Placed {
  readonly canvas: readonly {
    readonly type: 'line'
    readonly x1: number
    readonly y1: number
    readonly x2: number
    readonly y2: number
    readonly lineWidth: number
    readonly lineColor: string
  }[]
}

export type Block = Paragraph | PageReference | Stack | Columns | Table | Picture | Rule

/** Everything that the PDF is made of. */
export interface PageDocument {
  readonly title: string
  readonly subject: string
  /** Name and version of the program. */
  readonly creator: string
  readonly language: string
  readonly paper: Paper
  readonly margins: Margin
  /** Stands at the head of every page but the first, which has a head of its own. */
  readonly runningHead: Block
  /** The two lines at the foot of every page; the page number is added to the right end of the first. */
  readonly foot: { readonly left: readonly [string, string]; readonly right: string }
  readonly content: readonly Block[]
}
