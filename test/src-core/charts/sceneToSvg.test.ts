import { createRequire } from 'node:module'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dayPicture } from '../../../src-core/charts/dayPicture'
import { PRINT_PALETTE, SCREEN_PALETTE } from '../../../src-core/charts/palette'
import type { Scene, SceneNode } from '../../../src-core/charts/scene'
import { drawnNodes, groupNamed } from '../../helpers/scenes'
import { sceneToSvg } from '../../../src-core/charts/sceneToSvg'
import { crowdedAnalysis } from './crowdedLogs'
import { ENGLISH } from '../../../src-core/wording/english'

/** The part of the strict XML reader that the tests use; it comes with the PDF library. */
interface XmlReader {
  onopentag: (tag: { name: string; attributes: Record<string, string> }) => void
  onclosetag: (name: string) => void
  ontext: (text: string) => void
  onerror: (error: Error) => void
  write(text: string): XmlReader
  close(): void
}
const sax = createRequire(import.meta.url)('sax') as {
  parser(strict: boolean, options?: { trim?: boolean }): XmlReader
}

interface XmlElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
  text: string
}

/** Elements of well-formed XML in the order in which they open; throws where it is not well formed. */
function elementsOf(xml: string): readonly XmlElement[] {
  // XML 1.0 (fifth edition), production 2, Char.
  // eslint-disable-next-line no-control-regex -- tab, line feed and carriage return are named by it
  const forbidden = /[^\u0009\u000a\u000d\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u
  if (forbidden.test(xml)) throw new Error('a character that XML 1.0 forbids')
  const reader = sax.parser(true)
  const elements: XmlElement[] = []
  const open: XmlElement[] = []
  reader.onerror = (error) => {
    throw error
  }
  reader.onopentag = ({ name, attributes }) => {
    const element = { name, attributes, text: '' }
    elements.push(element)
    open.push(element)
  }
  reader.onclosetag = () => open.pop()
  reader.ontext = (text) => {
    open[open.length - 1].text += text
  }
  reader.write(xml).close()
  return elements
}

function sceneOf(nodes: readonly SceneNode[], description = 'a picture'): Scene {
  return { width: 100, height: 50, description, nodes }
}

function textNode(text: string): SceneNode {
  return { kind: 'text', x: 1, y: 2, text, size: 7, fill: '#16202c', anchor: 'start' }
}

describe('SVG text', () => {
  it('is well-formed XML for the pictures of real size', () => {
    for (const palette of [PRINT_PALETTE, SCREEN_PALETTE]) {
      const analysis = crowdedAnalysis({ readings: 500, lows: 40, markers: true })
      const svg = sceneToSvg(
        dayPicture(ENGLISH, analysis, analysis.periods[0], { width: 521, height: 236, palette }),
      )
      const elements = elementsOf(svg)
      expect(elements[0].name).toBe('svg')
      expect(elements[0].attributes).toMatchObject({
        xmlns: 'http://www.w3.org/2000/svg',
        viewBox: '0 0 521 236',
        role: 'img',
      })
      expect(svg).not.toMatch(/NaN|Infinity|undefined|null/)
    }
  })

  it('carries its description for screen readers', () => {
    const [svg] = elementsOf(sceneToSvg(sceneOf([], 'Lows: "two" & <three>')))
    expect(svg.attributes['aria-label']).toBe('Lows: "two" & <three>')
  })

  it('escapes what would be markup, in text and in attributes', () => {
    const tricky = `a<b & c>d "e" 'f' ]]> &amp; <script>alert(1)</script>`
    const elements = elementsOf(
      sceneToSvg(sceneOf([{ kind: 'group', name: tricky, nodes: [textNode(tricky)] }], tricky)),
    )
    expect(elements.map(({ name }) => name)).toEqual(['svg', 'g', 'text'])
    expect(elements[2].text).toBe(tricky)
    expect(elements[1].attributes['data-name']).toBe(tricky)
    expect(elements[0].attributes['aria-label']).toBe(tricky)
  })

  it('leaves out characters that XML cannot hold, and no others', () => {
    const [, text] = elementsOf(
      sceneToSvg(sceneOf([textNode('a\u0000b\u0008c\ud800d\ufffee\uffff 🤒 朝 é\u001f.')])),
    )
    expect(text.text).toBe('abcde 🤒 朝 é.')
  })

  it('stays well formed whatever the text', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.nat(0xff), fc.nat(0xffff), fc.constantFrom(0x26, 0x3c, 0x3e, 0x22, 0x27)), {
          maxLength: 30,
        }),
        (codes) => {
          const text = String.fromCharCode(...codes)
          const svg = sceneToSvg(sceneOf([{ kind: 'group', name: text, nodes: [textNode(text)] }], text))
          expect(elementsOf(svg).map(({ name }) => name)).toEqual(['svg', 'g', 'text'])
        },
      ),
    )
  })

  it('uses presentation attributes alone: the PDF library knows no style sheets', () => {
    const analysis = crowdedAnalysis({ readings: 60, lows: 8 })
    const size = { width: 521, height: 236, palette: PRINT_PALETTE }
    const elements = elementsOf(sceneToSvg(dayPicture(ENGLISH, analysis, analysis.periods[0], size)))
    for (const { name, attributes } of elements) {
      expect(name).not.toBe('style')
      expect(Object.keys(attributes)).not.toContain('style')
      expect(Object.keys(attributes)).not.toContain('class')
      for (const key of ['fill', 'stroke']) {
        if (key in attributes) expect(attributes[key]).toMatch(/^(none|#[0-9a-f]{6})$/)
      }
    }
  })
})

describe('each kind of node', () => {
  const stroke = { color: '#16202c', width: 0.5 }

  it('becomes the element that draws it', () => {
    const elements = elementsOf(
      sceneToSvg(
        sceneOf([
          { kind: 'line', x1: 1, y1: 2, x2: 3, y2: 4.126, stroke: { ...stroke, dash: [4, 2.5] } },
          {
            kind: 'polyline',
            points: [
              { x: 1, y: 2 },
              { x: 3, y: 4 },
            ],
            stroke,
          },
          { kind: 'rect', x: 1, y: 2, width: 3, height: 4, stroke },
          { kind: 'circle', x: 1, y: 2, radius: 3, fill: '#16202c' },
          { kind: 'square', x: 10, y: 20, size: 4, fill: '#16202c' },
          { kind: 'triangle', x: 10, y: 20, size: 4, stroke },
        ]),
      ),
    )
    expect(elements.slice(1).map(({ name, attributes }) => ({ name, ...attributes }))).toEqual([
      {
        name: 'line',
        x1: '1',
        y1: '2',
        x2: '3',
        y2: '4.13',
        stroke: '#16202c',
        'stroke-width': '0.5',
        'stroke-dasharray': '4 2.5',
      },
      { name: 'polyline', points: '1,2 3,4', fill: 'none', stroke: '#16202c', 'stroke-width': '0.5' },
      {
        name: 'rect',
        x: '1',
        y: '2',
        width: '3',
        height: '4',
        fill: 'none',
        stroke: '#16202c',
        'stroke-width': '0.5',
      },
      { name: 'circle', cx: '1', cy: '2', r: '3', fill: '#16202c' },
      // Squares and triangles are placed by their centre.
      { name: 'rect', x: '8', y: '18', width: '4', height: '4', fill: '#16202c' },
      { name: 'polygon', points: '10,18 12,22 8,22', fill: 'none', stroke: '#16202c', 'stroke-width': '0.5' },
    ])
  })

  it('drawn alike as its neighbours shares an element with them, letters above the lines', () => {
    const thick = { ...stroke, width: 2 }
    const line = (x: number, of: typeof stroke) =>
      ({ kind: 'line', x1: x, y1: 2, x2: x, y2: 9, stroke: of }) as const
    const fill = '#16202c'
    const word = { kind: 'text', x: 1, y: 2, text: 'word', size: 8, fill, anchor: 'start' } as const
    const elements = elementsOf(
      sceneToSvg(
        sceneOf([
          line(1, stroke),
          word,
          line(2, thick),
          line(3, stroke),
          { kind: 'circle', x: 1, y: 2, radius: 3, fill },
          { kind: 'circle', x: 4, y: 5, radius: 3, fill },
          { kind: 'circle', x: 4, y: 5, radius: 2, fill },
          { kind: 'square', x: 10, y: 20, size: 4, fill },
          { kind: 'square', x: 30, y: 20, size: 4, fill },
        ]),
      ),
    )
    expect(elements.slice(1).map(({ name, attributes }) => [name, attributes.d])).toEqual([
      ['path', 'M1 2L1 9M3 2L3 9'],
      ['path', 'M2 2L2 9'],
      ['text', undefined],
      ['path', 'M1 2h.01M4 5h.01'],
      ['circle', undefined],
      ['path', 'M8 18h4v4h-4zM28 18h4v4h-4z'],
    ])
    expect(elements[1].attributes).toMatchObject({ fill: 'none', stroke: '#16202c', 'stroke-width': '0.5' })
  })

  it('of many dots is one path of round dots, and of none is nothing', () => {
    const dots = (points: { x: number; y: number }[]) =>
      elementsOf(sceneToSvg(sceneOf([{ kind: 'dots', points, radius: 0.95, fill: '#16202c' }]))).slice(1)
    const [path, ...others] = dots([
      { x: 1, y: 2 },
      { x: 3, y: 4 },
      { x: 5, y: 6 },
    ])
    expect(others).toEqual([])
    expect(path.attributes).toMatchObject({
      'stroke-width': '1.9',
      'stroke-linecap': 'round',
      stroke: '#16202c',
    })
    expect(path.attributes.d.match(/M[\d.]+ [\d.]+/g)).toEqual(['M1 2', 'M3 4', 'M5 6'])
    expect(dots([])).toEqual([])
  })

  it('of text keeps size, place, weight and anchor', () => {
    const [, text] = elementsOf(
      sceneToSvg(
        sceneOf([
          { kind: 'text', x: 1, y: 2, text: '48', size: 7, fill: '#16202c', anchor: 'end', bold: true },
        ]),
      ),
    )
    expect(text).toMatchObject({
      text: '48',
      attributes: {
        x: '1',
        y: '2',
        'font-size': '7',
        'text-anchor': 'end',
        'font-weight': '600',
        fill: '#16202c',
      },
    })
  })

  it('of text with an outline is read out once', () => {
    const node: SceneNode = {
      kind: 'text',
      x: 1,
      y: 2,
      text: '48',
      size: 7,
      fill: '#16202c',
      anchor: 'end',
      halo: '#ffffff',
    }
    const texts = elementsOf(sceneToSvg(sceneOf([node]))).filter(({ name }) => name === 'text')
    expect(texts.filter(({ attributes }) => attributes['aria-hidden'] !== 'true')).toHaveLength(1)
    // The letters come last, on top of their outline.
    expect(texts.at(-1)?.attributes.fill).toBe('#16202c')
  })
})

describe('nodes of a scene', () => {
  const line: SceneNode = { kind: 'line', x1: 0, y1: 0, x2: 1, y2: 1, stroke: { color: '#000000', width: 1 } }
  const scene = sceneOf([
    line,
    {
      kind: 'group',
      name: 'outer',
      nodes: [textNode('a'), { kind: 'group', name: 'inner', nodes: [textNode('b')] }],
    },
  ])

  it('are found in the order drawn, out of all groups', () => {
    expect(drawnNodes(scene)).toEqual([line, textNode('a'), textNode('b')])
  })

  it('are found by the name of their group, at any depth', () => {
    expect(groupNamed(scene, 'inner')).toEqual([textNode('b')])
    expect(groupNamed(scene, 'other')).toEqual([])
  })
})
