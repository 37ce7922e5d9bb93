import type { Point, Scene, SceneNode, SceneText, Stroke } from './scene'

/** Family of the letters; the page embeds it, the window ships it. */
export const FONT_FAMILY = 'Source Sans 3'

/**
 * The scene as SVG text. Only presentation attributes are written: the PDF library knows no style
 * sheets, nor CSS variables, so that its palette must be of hexadecimal colours.
 */
export function sceneToSvg(scene: Scene): string {
  const width = number(scene.width)
  const height = number(scene.height)
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"` +
    ` viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(scene.description)}"` +
    ` font-family="${FONT_FAMILY}, sans-serif">${nodesToSvg(scene.nodes)}</svg>`
  )
}

type NodeOf<Kind extends SceneNode['kind']> = Extract<SceneNode, { kind: Kind }>

/**
 * Neighbours that are drawn alike become one element, and letters come after the lines among which they stand: the
 * PDF library spends more time on an element than on what it draws.
 */
function nodesToSvg(nodes: readonly SceneNode[]): string {
  let svg = ''
  let begin = 0
  while (begin < nodes.length) {
    const first = nodes[begin]
    let end = begin + 1
    while (end < nodes.length && isAlike(first, nodes[end])) end++
    svg += end === begin + 1 ? nodeToSvg(first) : alikeToSvg(first, nodes.slice(begin, end))
    begin = end
  }
  return svg
}

function isAlike(first: SceneNode, other: SceneNode): boolean {
  if (first.kind === 'line' || first.kind === 'text') return other.kind === 'line' || other.kind === 'text'
  if (first.kind === 'circle')
    return other.kind === 'circle' && other.radius === first.radius && other.fill === first.fill
  if (first.kind === 'square')
    return other.kind === 'square' && other.size === first.size && other.fill === first.fill
  return false
}

function alikeToSvg(first: SceneNode, nodes: readonly SceneNode[]): string {
  if (first.kind === 'circle')
    return dotsToSvg(nodes as readonly NodeOf<'circle'>[], first.radius, first.fill)
  if (first.kind === 'square')
    return squaresToSvg(nodes as readonly NodeOf<'square'>[], first.size, first.fill)
  const byStroke = new Map<string, string>()
  let letters = ''
  for (const node of nodes) {
    if (node.kind === 'text') letters += textToSvg(node)
    if (node.kind !== 'line') continue
    const attributes = strokeAttributes(node.stroke)
    const { x1, y1, x2, y2 } = node
    const path = `M${number(x1)} ${number(y1)}L${number(x2)} ${number(y2)}`
    byStroke.set(attributes, (byStroke.get(attributes) ?? '') + path)
  }
  const lines = Array.from(byStroke, ([attributes, path]) => `<path d="${path}" fill="none"${attributes}/>`)
  return lines.join('') + letters
}

function nodeToSvg(node: SceneNode): string {
  switch (node.kind) {
    case 'group':
      return `<g data-name="${escaped(node.name)}">${nodesToSvg(node.nodes)}</g>`
    case 'line':
      return (
        `<line x1="${number(node.x1)}" y1="${number(node.y1)}" x2="${number(node.x2)}"` +
        ` y2="${number(node.y2)}"${strokeAttributes(node.stroke)}/>`
      )
    case 'polyline':
      return `<polyline points="${pointList(node.points)}" fill="none"${strokeAttributes(node.stroke)}/>`
    case 'rect':
      return (
        `<rect x="${number(node.x)}" y="${number(node.y)}" width="${number(node.width)}"` +
        ` height="${number(node.height)}" fill="none"${strokeAttributes(node.stroke)}/>`
      )
    case 'dots':
      return dotsToSvg(node.points, node.radius, node.fill)
    case 'squares':
      return squaresToSvg(node.points, node.size, node.fill)
    case 'circle':
      return `<circle cx="${number(node.x)}" cy="${number(node.y)}" r="${number(node.radius)}" fill="${node.fill}"/>`
    case 'square': {
      const half = node.size / 2
      return (
        `<rect x="${number(node.x - half)}" y="${number(node.y - half)}" width="${number(node.size)}"` +
        ` height="${number(node.size)}" fill="${node.fill}"/>`
      )
    }
    case 'triangle': {
      const half = node.size / 2
      const corners = [
        { x: node.x, y: node.y - half },
        { x: node.x + half, y: node.y + half },
        { x: node.x - half, y: node.y + half },
      ]
      return `<polygon points="${pointList(corners)}" fill="none"${strokeAttributes(node.stroke)}/>`
    }
    case 'text':
      return textToSvg(node)
  }
}

/** Width of the outline around letters, points. */
const HALO = 1.6

/** Letters with a halo are drawn twice, the outline first: not every reader paints outlines below letters. */
function textToSvg(node: SceneText): string {
  const place =
    ` x="${number(node.x)}" y="${number(node.y)}" font-size="${number(node.size)}"` +
    ` text-anchor="${node.anchor}"${node.bold ? ' font-weight="600"' : ''}`
  const letters = escaped(node.text)
  const outline = node.halo
    ? `<text${place} fill="none" stroke="${node.halo}" stroke-width="${HALO}" aria-hidden="true">${letters}</text>`
    : ''
  return `${outline}<text${place} fill="${node.fill}">${letters}</text>`
}

/** A line of almost no length with round ends is a dot; thousands of them fit into one path. */
function dotsToSvg(points: readonly Point[], radius: number, fill: string): string {
  if (points.length === 0) return ''
  const path = points.map(({ x, y }) => `M${number(x)} ${number(y)}h.01`).join('')
  return `<path d="${path}" fill="none" stroke="${fill}" stroke-width="${number(2 * radius)}" stroke-linecap="round"/>`
}

/** Many squares as one path. */
function squaresToSvg(points: readonly Point[], size: number, fill: string): string {
  const half = size / 2
  const side = number(size)
  const path = points
    .map(({ x, y }) => `M${number(x - half)} ${number(y - half)}h${side}v${side}h-${side}z`)
    .join('')
  return `<path d="${path}" fill="${fill}"/>`
}

function strokeAttributes(stroke: Stroke): string {
  const dash = stroke.dash ? ` stroke-dasharray="${stroke.dash.map(number).join(' ')}"` : ''
  return ` stroke="${stroke.color}" stroke-width="${number(stroke.width)}"${dash}`
}

function pointList(points: readonly Point[]): string {
  return points.map(({ x, y }) => `${number(x)},${number(y)}`).join(' ')
}

/** At most two decimals: a hundredth of a point is finer than any printer. */
function number(value: number): string {
  return String(Math.round(value * 100) / 100)
}

/** Text and attribute values of XML 1.0; characters that XML cannot hold are left out. */
function escaped(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex -- these are the characters XML 1.0 forbids
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, '')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
  )
}
