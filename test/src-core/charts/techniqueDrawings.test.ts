import { describe, expect, it } from 'vitest'
import { drawnNodes } from '../../helpers/scenes'
import { DRAWING, techniqueDrawing, type TechniqueStep } from '../../../src-core/charts/techniqueDrawings'
import { ENGLISH } from '../../../src-core/wording/english'

const STEPS = Object.keys(ENGLISH.handout.DRAWINGS) as TechniqueStep[]
/** Width of a dot of a fax, 200 to the inch, in points. */
const FAX_DOT = 72 / 200

describe('the drawing of a step', () => {
  it.each(STEPS)(
    'has one ink, black, lines of three dots of a fax and more, and stays on its paper: %s',
    (step) => {
      const scene = techniqueDrawing(ENGLISH, step)
      expect(scene.description).toBe(ENGLISH.handout.DRAWINGS[step])
      const nodes = drawnNodes(scene)
      expect(nodes.length).toBeGreaterThan(5)
      for (const node of nodes) {
        expect('stroke' in node ? node.stroke.color : node.fill).toBe('#000000')
        if ('stroke' in node) expect(node.stroke.width).toBeGreaterThanOrEqual(3 * FAX_DOT)
        const points = node.kind === 'polyline' ? node.points : 'x' in node ? [node] : []
        for (const { x, y } of points) {
          expect(x).toBeGreaterThanOrEqual(0)
          expect(x).toBeLessThanOrEqual(DRAWING.width)
          expect(y).toBeGreaterThanOrEqual(0)
          expect(y).toBeLessThanOrEqual(DRAWING.height)
        }
      }
    },
  )
})
