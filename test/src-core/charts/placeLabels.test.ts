import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type Box,
  boxesOverlap,
  type LabelRequest,
  placeLabels,
  spreadApart,
} from '../../../src-core/charts/placeLabels'

const FRAME: Box = { left: 0, top: 0, right: 300, bottom: 150 }

function request(x: number, y: number, parts: Partial<LabelRequest> = {}): LabelRequest {
  return { text: `${x} ${y}`, x, y, reach: 2, width: 40, height: 8, furthest: 30, ...parts }
}

function around(x: number, y: number, half: number): Box {
  return { left: x - half, right: x + half, top: y - half, bottom: y + half }
}

const anyRequests = fc.array(
  fc
    .record({ x: fc.integer({ min: 0, max: 300 }), y: fc.integer({ min: 0, max: 150 }) })
    .map(({ x, y }) => request(x, y)),
  { maxLength: 40 },
)

describe('placing labels', () => {
  it('takes the place at the right, level with the mark, where it is free', () => {
    const { placed } = placeLabels([request(100, 50)], FRAME, [], [])
    expect(placed[0].box.left).toBeGreaterThan(100)
    expect(placed[0].box.left).toBeLessThan(106)
    expect((placed[0].box.top + placed[0].box.bottom) / 2).toBeCloseTo(50, 9)
  })

  it('takes the left where the right is beyond the frame', () => {
    const { placed } = placeLabels([request(290, 50)], FRAME, [], [])
    expect(placed[0].box.right).toBeLessThan(290)
  })

  it('shifts as little as it can', () => {
    const { placed } = placeLabels([request(100, 50), request(100, 50), request(100, 50)], FRAME, [], [])
    // Right, left, then one step up or down.
    expect(placed[0].box.left).toBeGreaterThan(100)
    expect(placed[1].box.right).toBeLessThan(100)
    const shift = Math.abs((placed[2].box.top + placed[2].box.bottom) / 2 - 50)
    expect(shift).toBeGreaterThanOrEqual(8)
    expect(shift).toBeLessThanOrEqual(10)
  })

  it('goes out of the way of what it should not cover, but not a long way', () => {
    const line: Box = { left: 0, right: 300, top: 49.5, bottom: 50.5 }
    const [aside] = placeLabels([request(100, 50)], FRAME, [], [{ box: line, price: 14 }]).placed
    expect(boxesOverlap(aside.box, line)).toBe(false)
    const [across] = placeLabels([request(100, 50)], FRAME, [], [{ box: line, price: 0.1 }]).placed
    expect(boxesOverlap(across.box, line)).toBe(true)
  })

  it('never lets labels cover one another, what is forbidden, or the outside, and loses none', () => {
    fc.assert(
      fc.property(
        anyRequests,
        fc.array(fc.tuple(fc.integer({ max: 300, min: 0 }), fc.integer({ min: 0, max: 150 }))),
        (requests, marks) => {
          const forbidden = marks.map(([x, y]) => around(x, y, 2))
          const { placed, left } = placeLabels(requests, FRAME, forbidden, [])
          placed.forEach(({ box }, i) => {
            expect(
              box.left >= FRAME.left &&
                box.right <= FRAME.right &&
                box.top >= FRAME.top &&
                box.bottom <= FRAME.bottom,
            ).toBe(true)
            expect(forbidden.some((other) => boxesOverlap(box, other))).toBe(false)
            expect(placed.slice(i + 1).some((other) => boxesOverlap(box, other.box))).toBe(false)
          })
          expect(placed.length + left.length).toBe(requests.length)
          for (const label of placed) {
            expect(Math.abs((label.box.top + label.box.bottom) / 2 - label.y)).toBeLessThanOrEqual(
              label.furthest + 1e-9,
            )
          }
        },
      ),
    )
  })

  it('gives back what has no place', () => {
    const walls = [around(100, 50, 100)]
    expect(placeLabels([request(100, 50)], FRAME, walls, [])).toMatchObject({
      placed: [],
      left: [{ x: 100, y: 50 }],
    })
  })

  it('gives the same places at every run', () => {
    fc.assert(
      fc.property(anyRequests, (requests) => {
        expect(placeLabels(requests, FRAME, [], [])).toEqual(placeLabels(requests, FRAME, [], []))
      }),
    )
  })
})

describe('boxes', () => {
  it('that only touch do not overlap', () => {
    expect(boxesOverlap(around(10, 10, 5), around(20, 10, 5))).toBe(false)
    expect(boxesOverlap(around(10, 10, 5), around(19.9, 10, 5))).toBe(true)
  })
})

describe('words beside lines, spread apart', () => {
  it('stay where they are where there is room', () => {
    expect(spreadApart([10, 40, 90], 8)).toEqual([10, 40, 90])
  })

  it('move apart around the middle of where they were', () => {
    const [a, b] = spreadApart([50, 52], 8)
    expect([a, b]).toEqual([47, 55])
  })

  it('keep gap and order, and move no more than the crowd needs, in the order given', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 8 }), (centres) => {
        const gap = 8
        const spread = spreadApart(centres, gap)
        expect(spread).toHaveLength(centres.length)
        for (let i = 0; i < centres.length; i++) {
          expect(Math.abs(spread[i] - centres[i])).toBeLessThanOrEqual(gap * centres.length)
          for (let j = 0; j < i; j++) {
            expect(Math.abs(spread[i] - spread[j])).toBeGreaterThanOrEqual(gap - 1e-9)
            if (centres[i] !== centres[j]) expect(spread[i] > spread[j]).toBe(centres[i] > centres[j])
          }
        }
        const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)
        expect(sum(spread)).toBeCloseTo(sum(centres), 6)
      }),
    )
  })
})
