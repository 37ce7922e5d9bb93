import type { Scene, SceneNode, SceneText, Stroke } from '../charts/scene'
import { HALO } from '../charts/sceneToSvg'
import type { Letters } from '../layout/lines'
import type { Drawn } from '../layout/slices'
import type { Element } from '../layout/structure'
import type { EmbeddedFont } from './embeddedFont'
import { number } from './objects'

export interface Fonts {
  readonly regular: EmbeddedFont
  readonly semibold: EmbeddedFont
}

/** Names of the fonts in every page's resources. */
export const FONT_NAMES = { regular: 'F1', semibold: 'F2' } as const

/** A page's drawing as PDF operators (ISO 32000-1, annex A), and the elements of its marked pieces by their number. */
export interface PageContent {
  readonly operators: string
  readonly marked: readonly Element[]
}

export function pageContent(
  drawn: readonly Drawn[],
  paperHeight: number,
  fonts: Fonts,
  pageOf: (id: string) => string,
): PageContent {
  const pen = penOn(paperHeight, fonts)
  const marked: Element[] = []
  let open: Element | null | undefined
  const mark = (element: Element | null) => {
    if (element === open) return
    if (open !== undefined) pen.write('EMC')
    if (element === null) pen.write('/Artifact BMC')
    else pen.write(`/${element.kind} <</MCID ${marked.push(element) - 1}>> BDC`)
    open = element
  }
  for (const item of drawn) {
    mark(item.element)
    switch (item.kind) {
      case 'letters':
        for (const letters of item.letters) pen.letters(letters, item.x + letters.x, item.y)
        break
      case 'page-of':
        pen.letters({ ...item.letters, text: pageOf(item.id) }, item.x, item.y)
        break
      case 'rule':
        pen.line(item.x, item.y, item.x + item.length, item.y, item)
        break
      case 'scene':
        drawScene(pen, item.scene, item.x, item.y)
        break
    }
  }
  if (open !== undefined) pen.write('EMC')
  return { operators: pen.text(), marked }
}

/** Writes operators; places are points from the top left of the paper. A look that stays is not written again. */
function penOn(paperHeight: number, fonts: Fonts) {
  const lines: string[] = []
  const state = new Map<string, string>()
  const write = (operators: string) => lines.push(operators)
  const setTo = (what: string, operators: string) => {
    if (state.get(what) === operators) return
    state.set(what, operators)
    lines.push(operators)
  }
  const at = (x: number, y: number) => `${number(x)} ${number(paperHeight - y)}`
  const stroke = ({ color, width, dash = [] }: Stroke) => {
    setTo('stroke', `${rgb(color)} RG`)
    setTo('width', `${number(width)} w`)
    setTo('dash', `[${dash.map(number).join(' ')}] 0 d`)
  }
  const show = ({ text, size, bold }: Letters, x: number, y: number) => {
    const font = bold ? 'semibold' : 'regular'
    write(`BT /${FONT_NAMES[font]} ${number(size)} Tf ${at(x, y)} Td ${fonts[font].encode(text)} Tj ET`)
  }
  return {
    write,
    at,
    text: () => lines.join('\n'),
    widthOf: ({ text, size, bold }: Letters) => fonts[bold ? 'semibold' : 'regular'].widthOf(text, size),
    fill: (color: string) => setTo('fill', `${rgb(color)} rg`),
    stroke,
    caps: (round: boolean) => setTo('caps', round ? '1 J' : '0 J'),
    letters(letters: Letters, x: number, y: number) {
      setTo('fill', `${rgb(letters.color)} rg`)
      show(letters, x, y)
    },
    /** The outline of letters, which those who search the text do not find a second time. */
    outline(letters: Letters, x: number, y: number, color: string) {
      stroke({ color, width: HALO })
      write('/Span <</ActualText <FEFF>>> BDC 1 Tr')
      show(letters, x, y)
      write('0 Tr EMC')
    },
    line(x1: number, y1: number, x2: number, y2: number, look: Stroke) {
      stroke(look)
      write(`${at(x1, y1)} m ${at(x2, y2)} l S`)
    },
  }
}

type Pen = ReturnType<typeof penOn>

function drawScene(pen: Pen, scene: Scene, left: number, top: number): void {
  for (const node of scene.nodes) drawNode(pen, node, left, top)
}

function drawNode(pen: Pen, node: SceneNode, left: number, top: number): void {
  const at = ({ x, y }: { readonly x: number; readonly y: number }) => pen.at(left + x, top + y)
  switch (node.kind) {
    case 'group':
      for (const part of node.nodes) drawNode(pen, part, left, top)
      return
    case 'line':
      pen.line(left + node.x1, top + node.y1, left + node.x2, top + node.y2, node.stroke)
      return
    case 'polyline':
      pen.stroke(node.stroke)
      pen.write(`${node.points.map((point, i) => `${at(point)} ${i === 0 ? 'm' : 'l'}`).join(' ')} S`)
      return
    case 'rect':
      pen.stroke(node.stroke)
      pen.write(
        `${at({ x: node.x, y: node.y + node.height })} ${number(node.width)} ${number(node.height)} re S`,
      )
      return
    case 'dots':
      drawDots(pen, node.points.map(at), node.radius, node.fill)
      return
    case 'circle':
      drawDots(pen, [at(node)], node.radius, node.fill)
      return
    case 'square': {
      const half = node.size / 2
      pen.fill(node.fill)
      pen.write(
        `${at({ x: node.x - half, y: node.y + half })} ${number(node.size)} ${number(node.size)} re f`,
      )
      return
    }
    case 'triangle': {
      const { x, y, size } = node
      const half = size / 2
      const corners = [
        at({ x, y: y - half }),
        at({ x: x + half, y: y + half }),
        at({ x: x - half, y: y + half }),
      ]
      pen.stroke(node.stroke)
      pen.write(`${corners[0]} m ${corners[1]} l ${corners[2]} l s`)
      return
    }
    case 'text':
      drawText(pen, node, left, top)
  }
}

/** A line of no length with round ends is a dot; thousands of them fit into one path. */
function drawDots(pen: Pen, places: readonly string[], radius: number, fill: string): void {
  if (places.length === 0) return
  pen.stroke({ color: fill, width: 2 * radius })
  pen.caps(true)
  pen.write(`${places.map((place) => `${place} m ${place} l`).join('\n')}\nS`)
  pen.caps(false)
}

function drawText(pen: Pen, node: SceneText, left: number, top: number): void {
  const letters: Letters = { text: node.text, size: node.size, bold: node.bold ?? false, color: node.fill }
  const width = node.anchor === 'start' ? 0 : pen.widthOf(letters)
  const x = left + node.x - (node.anchor === 'middle' ? width / 2 : width)
  if (node.halo !== undefined) pen.outline(letters, x, top + node.y, node.halo)
  pen.letters(letters, x, top + node.y)
}

/** '0.09 0.13 0.17' of '#16202c'. */
function rgb(hex: string): string {
  let parts = colors.get(hex)
  if (parts === undefined) {
    parts = [1, 3, 5]
      .map((from) => String(Math.round(parseInt(hex.slice(from, from + 2), 16) / 0.255) / 1000))
      .join(' ')
    colors.set(hex, parts)
  }
  return parts
}

const colors = new Map<string, string>()
