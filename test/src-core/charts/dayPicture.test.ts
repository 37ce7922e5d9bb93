import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { dayPicture, type PictureSize } from '../../../src-core/charts/dayPicture'
import { PRINT_PALETTE, SCREEN_PALETTE } from '../../../src-core/charts/palette'
import { boxesOverlap } from '../../../src-core/charts/placeLabels'
import type { Point, Scene, SceneNode, SceneText } from '../../../src-core/charts/scene'
import { drawnNodes, groupNamed } from '../../helpers/scenes'
import { isLow } from '../../../src-core/log/readings'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { type CrowdedLog, crowdedAnalysis } from './crowdedLogs'
import { boxOf, overlappingTexts, textsOf, textsOutside, textsTooSmall } from './sceneTexts'
import { ENGLISH } from '../../../src-core/wording/english'

/** As on A4 and Letter, on a page that leaves little room, and in the window. */
const SIZES: readonly PictureSize[] = [
  { width: 521, height: 236, palette: PRINT_PALETTE },
  { width: 538, height: 160, palette: PRINT_PALETTE },
  { width: 480, height: 250, palette: SCREEN_PALETTE },
]

function pictureOf(analysis: Analysis, size = SIZES[0]): Scene {
  return dayPicture(ENGLISH, analysis, analysis.periods[0], size)
}

type Kind<K extends SceneNode['kind']> = Extract<SceneNode, { kind: K }>

function nodesOf<K extends SceneNode['kind']>(nodes: readonly SceneNode[], kind: K): readonly Kind<K>[] {
  return nodes.filter((node): node is Kind<K> => node.kind === kind)
}

/** Where a moment and a value stand, told from the hour rules and from the ticks alone. */
function placing(scene: Scene): (second: number, printed: number) => Point {
  const rules = nodesOf(groupNamed(scene, 'blocks'), 'line').map(({ x1 }) => x1)
  const [left, right] = [Math.min(...rules), Math.max(...rules)]
  const ticks = groupNamed(scene, 'ticks')
  const heights = nodesOf(ticks, 'line').map(({ y1 }) => y1)
  const values = nodesOf(ticks, 'text').map(({ text }) => Number(text))
  const last = values.length - 1
  const pointsPerLog = (heights[last] - heights[0]) / Math.log(values[last] / values[0])
  return (second, printed) => ({
    x: left + ((right - left) * second) / 86_400,
    y: heights[0] + Math.log(printed / values[0]) * pointsPerLog,
  })
}

/** Every combination of size of log and number of lows that fits, the units in turn. */
const LOGS = ([20, 500, 5000] as const).flatMap((readings, i) =>
  ([0, 1, 8, 40] as const)
    .filter((lows) => lows < readings)
    .map((lows, j) => ({ readings, lows, unit: (['mg/dL', 'mmol/L'] as const)[(i + j) % 2], turn: i + j })),
)
/** Lows at any hour, all of them in one hour of the night, and all late in the evening, at the right edge. */
const VARIANTS: readonly Omit<CrowdedLog, 'readings' | 'lows'>[] = [
  {},
  { lowsAtHour: 3, markers: true },
  { lowsAtHour: 23, markers: true },
]

describe.each(LOGS)('the picture of $readings readings with $lows lows in $unit', (log) => {
  // The largest in one variant each, in turn.
  const variants = log.readings < 5000 ? VARIANTS : [VARIANTS[log.turn % VARIANTS.length]]
  const analyses = variants.map((variant) => crowdedAnalysis({ ...log, ...variant }))
  const scenes = analyses.flatMap((analysis) => SIZES.map((size) => pictureOf(analysis, size)))

  it('has no text below 7 points', () => {
    for (const scene of scenes) expect(textsTooSmall(scene)).toEqual([])
  })

  it('has no text on another and none beyond its edges', () => {
    for (const scene of scenes) {
      expect(overlappingTexts(scene)).toEqual([])
      expect(textsOutside(scene)).toEqual([])
    }
  })

  it('draws every low as a square, LO included, each of its own', () => {
    for (const [i, scene] of scenes.entries()) {
      const analysis = analyses[Math.floor(i / SIZES.length)]
      const { readings } = analysis
      const lows = Array.from({ length: readings.n }, (_, index) => index).filter((index) =>
        isLow(readings, index),
      )
      expect(lows).toHaveLength(log.lows)
      expect(nodesOf(drawnNodes(scene), 'square')).toHaveLength(log.lows)
    }
  })

  it('hides no low under a label', () => {
    for (const scene of scenes) {
      const squares = nodesOf(groupNamed(scene, 'lows'), 'square').map(({ x, y, size }) => ({
        left: x - size / 2,
        right: x + size / 2,
        top: y - size / 2,
        bottom: y + size / 2,
      }))
      for (const text of textsOf(scene)) {
        const box = boxOf(text)
        expect(squares.filter((square) => boxesOverlap(square, box)).map(() => text.text)).toEqual([])
      }
    }
  })

  it('has a question mark near every doubtful reading; in a crowd neighbours share one', () => {
    const NEAR = 45
    for (const scene of scenes) {
      const marks = textsOf(scene).filter(({ text }) => text.includes('?'))
      for (const circle of nodesOf(groupNamed(scene, 'doubtful'), 'circle')) {
        const nearest = Math.min(...marks.map(({ x, y }) => Math.hypot(x - circle.x, y - circle.y)))
        expect(nearest).toBeLessThan(NEAR)
      }
    }
  })

  it('gives value and date of the lowest lows, eight at most, and says so where there are more', () => {
    for (const scene of scenes) {
      const labels = textsOf(scene).filter(({ text }) => text.includes(' · '))
      expect(labels).toHaveLength(Math.min(8, log.lows))
      for (const { text } of labels)
        expect(text).toMatch(/^(LO|\d+|\d\.\d) · \d{1,2} [A-Z][a-z]{2}( \d{4})?( \?)?$/)
      const note = textsOf(scene).some(({ text }) =>
        text.endsWith(`The eight lowest of ${log.lows} lows are labelled with value and date.`),
      )
      expect(note).toBe(log.lows > 8)
    }
  })
})

describe('marks', () => {
  it('stand at their time of day and their value on a ratio scale', () => {
    const rows: FixtureReading[] = [
      { at: '2026-03-02 00:00', value: 88 },
      { at: '2026-03-02 06:00', value: 55 },
      { at: '2026-03-03 12:30', value: 143 },
      { at: '2026-03-04 23:59', value: 310 },
    ]
    const scene = pictureOf(analysisOf(rows))
    const place = placing(scene)
    const marks = [
      ...nodesOf(drawnNodes(scene), 'dots').flatMap(({ points }) => points),
      ...nodesOf(drawnNodes(scene), 'square'),
    ]
    const wanted = [
      [0, 88],
      [12.5 * 3600, 143],
      [23 * 3600 + 59 * 60, 310],
      [6 * 3600, 55],
    ].map(([second, value]) => place(second, value))
    marks.forEach((mark, i) => {
      expect(mark.x).toBeCloseTo(wanted[i].x, 6)
      expect(mark.y).toBeCloseTo(wanted[i].y, 6)
    })
  })

  it('of the same low on two days stay two squares', () => {
    const scene = pictureOf(
      analysisOf([
        { at: '2026-03-02 06:00', value: 55 },
        { at: '2026-03-03 06:00', value: 55 },
      ]),
    )
    expect(groupNamed(scene, 'lows')).toHaveLength(2)
  })

  it('are as many as the readings of a usual log', () => {
    const analysis = crowdedAnalysis({ readings: 1900, lows: 8 })
    const dots = nodesOf(drawnNodes(pictureOf(analysis)), 'dots').flatMap(({ points }) => points)
    const doubtful = analysis.technique.doubtful.filter(({ index }) => !isLow(analysis.readings, index))
    expect(dots).toHaveLength(1900 - 8 - doubtful.length)
  })

  it('of a large log are drawn once only where they lie on one another', () => {
    const analysis = crowdedAnalysis({ readings: 5000, lows: 8 })
    const { readings, technique } = analysis
    const scene = pictureOf(analysis)
    const place = placing(scene)
    const dots = nodesOf(drawnNodes(scene), 'dots').flatMap(({ points }) => points)
    const doubtful = new Set(technique.doubtful.map(({ index }) => index))
    const plain = Array.from({ length: readings.n }, (_, i) => i).filter(
      (i) => !isLow(readings, i) && !doubtful.has(i),
    )
    expect(dots.length).toBeLessThan(plain.length)
    // A fifth of a point at most: far less than a dot's own width of 1.9.
    for (const i of plain.filter((_, at) => at % 5 === 0)) {
      const { x, y } = place(readings.at[i] % 86_400, readings.mgDl[i])
      const nearest = Math.min(...dots.map((dot) => Math.hypot(dot.x - x, dot.y - y)))
      expect(nearest).toBeLessThan(0.2)
    }
    // And no dot without a reading.
    const places = plain.map((i) => place(readings.at[i] % 86_400, readings.mgDl[i]))
    for (const dot of dots.slice(0, 300)) {
      expect(Math.min(...places.map(({ x, y }) => Math.hypot(dot.x - x, dot.y - y)))).toBeLessThan(0.2)
    }
  })

  it('of doubtful readings are larger, and a stem leads to the test that contradicts them', () => {
    const analysis = analysisOf([
      { at: '2026-03-02 12:00', value: 104 },
      { at: '2026-03-02 15:48', value: 255 },
      { at: '2026-03-02 15:52', value: 109 },
    ])
    const scene = pictureOf(analysis)
    const place = placing(scene)
    const [circle] = nodesOf(groupNamed(scene, 'doubtful'), 'circle')
    const [dots] = nodesOf(drawnNodes(scene), 'dots')
    expect(circle.radius).toBeGreaterThan(dots.radius)
    const doubtful = place(15.8 * 3600, 255)
    const other = place(15 * 3600 + 52 * 60, 109)
    const [stem] = nodesOf(groupNamed(scene, 'stems'), 'line')
    for (const [value, wanted] of [
      [circle.x, doubtful.x],
      [circle.y, doubtful.y],
      [stem.x1, doubtful.x],
      [stem.y1, doubtful.y],
      [stem.x2, other.x],
      [stem.y2, other.y],
    ]) {
      expect(value).toBeCloseTo(wanted, 6)
    }
  })

  it('of a doubtful low stay a square, and its label has the question mark', () => {
    const analysis = analysisOf([
      ...Array.from({ length: 20 }, (_, i) => ({
        at: `2026-03-${String(2 + i).padStart(2, '0')} 08:00`,
        value: 190,
      })),
      { at: '2026-04-02 12:00', value: 48 },
      { at: '2026-04-02 12:01', value: 188 },
      { at: '2026-04-02 12:02', value: 191 },
      { at: '2026-04-02 12:03', value: 190 },
    ])
    const low = analysis.readings.n - 4
    expect(analysis.technique.doubtful.map(({ index }) => index)).toEqual([low])
    const scene = pictureOf(analysis)
    expect(groupNamed(scene, 'lows')).toHaveLength(1)
    expect(textsOf(scene).map(({ text }) => text)).toContain('48 · 2 Apr ?')
  })
})

describe('LO and HI', () => {
  const rows: FixtureReading[] = [
    { at: '2026-03-02 03:00', value: 'LO' },
    { at: '2026-03-02 12:00', value: 'HI' },
    { at: '2026-03-02 15:00', value: 31 },
    { at: '2026-03-02 18:00', value: 596 },
  ]

  it.each(['mg/dL', 'mmol/L'] as const)(
    'stand below and above the axis, outside the scale, in %s',
    (unit) => {
      const inUnit = rows.map((row) =>
        typeof row.value === 'number' && unit === 'mmol/L'
          ? { ...row, value: Number((row.value / 18.0156).toFixed(1)) }
          : row,
      )
      const scene = pictureOf(analysisOf(inUnit, { unit }))
      const [lo, lowest] = nodesOf(groupNamed(scene, 'lows'), 'square').map(({ y }) => y)
      const [hi, highest] = nodesOf(drawnNodes(scene), 'dots')[0].points.map(({ y }) => y)
      const ticks = nodesOf(groupNamed(scene, 'ticks'), 'line').map(({ y1 }) => y1)
      expect(lo).toBeGreaterThan(Math.max(lowest, ...ticks) + 5)
      expect(hi).toBeLessThan(Math.min(highest, ...ticks) - 5)
    },
  )

  it('have a word of their own beside the axis, at their height', () => {
    const scene = pictureOf(analysisOf(rows))
    const words = textsOf(scene).filter(({ anchor }) => anchor === 'end')
    const lo = words.find(({ text }) => text === 'LO') as SceneText
    const hi = words.find(({ text }) => text === 'HI') as SceneText
    const square = nodesOf(groupNamed(scene, 'lows'), 'square')[0]
    const dot = nodesOf(drawnNodes(scene), 'dots')[0].points[0]
    expect(Math.abs((boxOf(lo).top + boxOf(lo).bottom) / 2 - square.y)).toBeLessThan(1)
    expect(Math.abs((boxOf(hi).top + boxOf(hi).bottom) / 2 - dot.y)).toBeLessThan(1)
  })

  it('are left out where there are none', () => {
    const words = textsOf(pictureOf(analysisOf(rows.slice(2)))).map(({ text }) => text)
    expect(words).not.toContain('LO')
    expect(words).not.toContain('HI')
  })
})

describe('lines of limits', () => {
  it.each([
    { unit: 'mg/dL', numbers: [180, 70, 54] },
    { unit: 'mmol/L', numbers: [10, 3.9, 3] },
  ] as const)('stand at their printed numbers between the ticks, $unit', ({ unit, numbers }) => {
    const scene = pictureOf(crowdedAnalysis({ readings: 60, lows: 1, unit }))
    const place = placing(scene)
    const lines = nodesOf(groupNamed(scene, 'limits'), 'line')
    lines.forEach(({ y1, y2 }, i) => {
      expect(y1).toBe(y2)
      expect(y1).toBeCloseTo(place(0, numbers[i]).y, 6)
    })
    expect(lines).toHaveLength(3)
    expect(nodesOf(groupNamed(scene, 'limits'), 'text').map(({ text }) => parseFloat(text))).toEqual(numbers)
  })
})

describe('blocks of the day', () => {
  /** Nine tests from 6 to 9, ten from 9 to 12 and one at noon. */
  const analysis = analysisOf([
    ...Array.from({ length: 9 }, (_, i) => ({ at: `2026-03-0${1 + i} 07:00`, value: 100 + i })),
    ...Array.from({ length: 10 }, (_, i) => ({
      at: `2026-03-${String(1 + i).padStart(2, '0')} 10:00`,
      value: 110 + i,
    })),
    { at: '2026-03-01 12:00', value: 140 },
  ])
  const scene = pictureOf(analysis)
  const columns = nodesOf(groupNamed(scene, 'columns'), 'text').map(({ text }) => text)

  it('have a median and a middle half from ten readings on; below that dots alone, and words for it', () => {
    // Median of 110 to 119 is 114.5, printed 115.
    expect(columns.filter((_, i) => i % 3 === 0)).toEqual([
      'not tested',
      'not tested',
      'few tests',
      '115',
      'few tests',
      'not tested',
      'not tested',
      'not tested',
    ])
    expect(nodesOf(groupNamed(scene, 'medians'), 'rect')).toHaveLength(1)
    // The median, and its interval with an end above and one below.
    expect(nodesOf(groupNamed(scene, 'medians'), 'line')).toHaveLength(4)
    // The dots of hardly tested blocks stay.
    expect(nodesOf(drawnNodes(scene), 'dots').flatMap(({ points }) => points)).toHaveLength(20)
  })

  it('draw the median and the quartiles where the scale has them', () => {
    const place = placing(scene)
    const [rect] = nodesOf(groupNamed(scene, 'medians'), 'rect')
    const [line] = nodesOf(groupNamed(scene, 'medians'), 'line')
    // Type 7 quartiles of 110 to 119: 112.25 and 116.75.
    expect(line.y1).toBeCloseTo(place(0, 114.5).y, 6)
    expect(rect.y).toBeCloseTo(place(0, 116.75).y, 6)
    expect(rect.y + rect.height).toBeCloseTo(place(0, 112.25).y, 6)
  })

  it('show how well the median is known, of ten days that rise steadily all of them, and say what the bar is', () => {
    const place = placing(scene)
    const [, bar, ...ends] = nodesOf(groupNamed(scene, 'medians'), 'line')
    expect(bar.x1).toBe(bar.x2)
    // R 4.2.2, median_ci95 of test/reference/figures.R: 110 to 119.
    expect(bar.y1).toBeCloseTo(place(0, 119).y, 6)
    expect(bar.y2).toBeCloseTo(place(0, 110).y, 6)
    expect(ends.map(({ y1 }) => y1)).toEqual([bar.y1, bar.y2])
    expect(textsOf(scene).map(({ text }) => text)).toContain(
      'Small bar: how well the median is known. Outline: middle half of the readings.',
    )
  })

  /** Forty readings between 6 and 8 hours, of so many days in turn. */
  const ofDays = (days: number) =>
    pictureOf(
      analysisOf(
        Array.from({ length: 40 }, (_, i) => ({
          at: `2026-03-0${2 + (i % days)} 0${6 + Math.floor(i / 20)}:${10 + (i % 20)}`,
          value: 100 + i,
          sensor: true,
        })),
      ),
    )

  it('of three days have no such bar, however many readings they have', () => {
    const few = groupNamed(ofDays(3), 'medians')
    expect([nodesOf(few, 'rect').length, nodesOf(few, 'line').length]).toEqual([1, 1])
  })

  it('have no median of one day or two: it would be that of those days', () => {
    for (const days of [1, 2]) {
      const none = groupNamed(ofDays(days), 'medians')
      expect([nodesOf(none, 'rect').length, nodesOf(none, 'line').length]).toEqual([0, 0])
    }
  })

  it('have their hours and their counts below, which add up to the readings', () => {
    expect(columns.filter((_, i) => i % 3 === 1)).toEqual([
      '00–03',
      '03–06',
      '06–09',
      '09–12',
      '12–15',
      '15–18',
      '18–21',
      '21–24',
    ])
    expect(columns.filter((_, i) => i % 3 === 2).map(Number)).toEqual([0, 0, 9, 10, 1, 0, 0, 0])
  })

  it('are named at the right: medians above, readings below', () => {
    const words = textsOf(scene)
    const word = (text: string) => words.find((found) => found.text === text) as SceneText
    expect(word('median').y).toBeLessThan(word('hours').y)
    expect(word('hours').y).toBeLessThan(word('readings').y)
  })
})

describe('the picture in words', () => {
  it.each(['mg/dL', 'mmol/L'] as const)('names the numbers that are drawn, in %s', (unit) => {
    const scene = pictureOf(crowdedAnalysis({ readings: 500, lows: 8, unit, markers: true }))
    const columns = nodesOf(groupNamed(scene, 'columns'), 'text').map(({ text }) => text)
    for (let i = 0; i < columns.length; i += 3) {
      const [median, hours, count] = columns.slice(i, i + 3)
      expect(scene.description).toContain(
        median.endsWith('tested') || median.endsWith('tests')
          ? hours
          : `${hours} ${median} (${count} reading${count === '1' ? '' : 's'})`,
      )
    }
    const labels = textsOf(scene).filter(({ text }) => text.includes(' · '))
    expect(labels).toHaveLength(8)
    for (const { text } of labels) {
      const [value, day, month] = text.split(/ · | /)
      expect(scene.description).toMatch(new RegExp(`${value.replace('.', '\\.')} on ${day} ${month}`))
    }
    expect(scene.description).toContain('8 lows, lowest first: LO on')
    expect(scene.description).toContain(`in ${unit}.`)
  })
})

describe('odd logs', () => {
  const ODD: readonly { name: string; rows: readonly FixtureReading[] }[] = [
    { name: 'one reading', rows: [{ at: '2026-03-02 07:00', value: 104 }] },
    { name: 'one LO', rows: [{ at: '2026-03-02 23:59', value: 'LO' }] },
    {
      name: 'markers alone',
      rows: Array.from(
        { length: 24 },
        (_, i) =>
          ({ at: `2026-03-02 ${String(i).padStart(2, '0')}:30`, value: i % 2 ? 'HI' : 'LO' }) as const,
      ),
    },
    {
      name: 'days without times',
      rows: [
        { at: '2026-03-02', value: 52 },
        { at: '2026-03-03', value: 140 },
      ],
    },
    {
      name: 'equal readings at one time',
      rows: Array.from({ length: 28 }, (_, i) => ({
        at: `2026-02-${String(1 + i).padStart(2, '0')} 07:00`,
        value: 58,
      })),
    },
    {
      name: 'extremes',
      rows: [
        { at: '2026-03-02 00:00', value: 1 },
        { at: '2026-03-02 23:59', value: 1000 },
      ],
    },
  ]

  it.each(ODD)('are drawn with numbers alone: $name', ({ rows }) => {
    for (const size of SIZES) {
      const scene = pictureOf(analysisOf(rows), size)
      const numbers: number[] = []
      JSON.stringify(scene.nodes, (_, value: unknown) => {
        if (typeof value === 'number') numbers.push(value)
        return value
      })
      expect(numbers.filter((value) => !Number.isFinite(value))).toEqual([])
      expect(overlappingTexts(scene)).toEqual([])
      expect(textsOutside(scene)).toEqual([])
      const { readings } = analysisOf(rows)
      const timedLows = rows.filter((row, i) => row.at.includes(' ') && isLow(readings, i)).length
      expect(groupNamed(scene, 'lows')).toHaveLength(timedLows)
    }
  })

  it('with readings of no time leave them out of the day', () => {
    const scene = pictureOf(
      analysisOf([
        { at: '2026-03-02', value: 52 },
        { at: '2026-03-03 08:00', value: 140 },
      ]),
    )
    expect(nodesOf(drawnNodes(scene), 'square')).toEqual([])
    expect(nodesOf(drawnNodes(scene), 'dots').flatMap(({ points }) => points)).toHaveLength(1)
  })
})
