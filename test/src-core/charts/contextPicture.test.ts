import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { contextPicture } from '../../../src-core/charts/contextPicture'
import type { PictureSize } from '../../../src-core/charts/dayPicture'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'
import type { Scene } from '../../../src-core/charts/scene'
import { drawnNodes, groupNamed } from '../../helpers/scenes'
import { readingText } from '../../../src-core/wording/english/numbers'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { type CrowdedLog, crowdedAnalysis } from './crowdedLogs'
import { overlappingTexts, textsOf, textsOutside, textsTooSmall } from './sceneTexts'
import { ENGLISH } from '../../../src-core/wording/english'

const SIZE: PictureSize = { width: 226, height: 104, palette: PRINT_PALETTE }

function day(...tests: [string, number | 'LO' | 'HI', Partial<FixtureReading>?][]): FixtureReading[] {
  return tests.map(([time, value, parts]) => ({ at: `2026-03-08 ${time}`, value, ...parts }))
}

/** The picture around the first doubtful reading. */
function firstDoubtful(analysis: Analysis): Scene {
  return contextPicture(ENGLISH, analysis, analysis.technique.doubtful[0].index, SIZE)
}

function dotsOf(scene: Scene): number {
  return drawnNodes(scene).reduce((n, node) => n + (node.kind === 'dots' ? node.points.length : 0), 0)
}

describe.each(['mg/dL', 'mmol/L'] as const)(
  'the pictures around the doubtful readings of crowded logs in %s',
  (unit) => {
    const logs: readonly CrowdedLog[] = [
      { readings: 500, lows: 8, unit, contradicted: 0.1 },
      { readings: 500, lows: 40, unit, contradicted: 0.2, markers: true, lowsAtHour: 12 },
      { readings: 500, lows: 40, unit, contradicted: 0.2, perDay: 30 },
      { readings: 5000, lows: 40, unit, perDay: 4 },
    ]
    const pictures = logs.flatMap((log) => {
      const analysis = crowdedAnalysis(log)
      return analysis.technique.doubtful.map(({ index }) => ({
        analysis,
        index,
        scene: contextPicture(ENGLISH, analysis, index, SIZE),
      }))
    })

    it('are many', () => {
      expect(pictures.length).toBeGreaterThan(100)
    })

    it('have no text below 7 points, on another, or beyond the edges', () => {
      for (const { scene } of pictures) {
        expect(textsTooSmall(scene)).toEqual([])
        expect(overlappingTexts(scene)).toEqual([])
        expect(textsOutside(scene)).toEqual([])
      }
    })

    it('give the reading in question its value with a question mark', () => {
      for (const { analysis, index, scene } of pictures) {
        const label = `? ${readingText(analysis.readings, index, unit)}`
        expect(textsOf(scene).map(({ text }) => text)).toContain(label)
      }
    })

    it('name it first in words', () => {
      for (const { analysis, index, scene } of pictures) {
        expect(scene.description).toContain(
          `The hours around ${readingText(analysis.readings, index, unit)} on `,
        )
      }
    })
  },
)

describe('the picture around one reading', () => {
  it('shows twelve hours to both sides, both ends included, of every meter', () => {
    const scene = firstDoubtful(
      analysisOf([
        ...day(['03:29', 130]),
        ...day(['03:30', 131]),
        ...day(['15:30', 255], ['15:31', 109]),
        ...day(['20:00', 128, { meter: 'meter B' }]),
        { at: '2026-03-09 03:30', value: 132 },
        { at: '2026-03-09 03:31', value: 133 },
      ]),
    )
    const values = textsOf(scene).map(({ text }) => text)
    expect(values).toEqual(expect.arrayContaining(['131', '? 255', '109', '128', '132']))
    expect(values).not.toContain('130')
    expect(values).not.toContain('133')
    expect(dotsOf(scene)).toBe(4)
    expect(scene.description).toContain('Other readings: 131 on 8 March, 03:30; 109 on 8 March, 15:31;')
    expect(scene.description).not.toMatch(/130 on|133 on/)
  })

  it('draws lows as squares on top, LO below the axis and HI above it', () => {
    const scene = firstDoubtful(
      analysisOf(day(['08:00', 'LO'], ['10:00', 66], ['14:00', 'HI'], ['15:30', 255], ['15:31', 109])),
    )
    const squares = groupNamed(scene, 'lows')
    expect(squares).toHaveLength(2)
    const ticks = groupNamed(scene, 'ticks').flatMap((node) => (node.kind === 'line' ? [node.y1] : []))
    const heights = squares.map((node) => (node.kind === 'square' ? node.y : NaN))
    expect(heights[0]).toBeGreaterThan(Math.max(heights[1], ...ticks) + 5)
    const dots = drawnNodes(scene).flatMap((node) =>
      node.kind === 'dots' ? node.points.map(({ y }) => y) : [],
    )
    expect(Math.min(...dots)).toBeLessThan(Math.min(...ticks) - 5)
    expect(textsOf(scene).map(({ text }) => text)).toEqual(expect.arrayContaining(['LO', 'HI']))
  })

  it('leads a stem to the test that contradicts it', () => {
    const scene = firstDoubtful(analysisOf(day(['12:00', 104], ['15:30', 255], ['15:36', 109])))
    expect(groupNamed(scene, 'stems')).toHaveLength(1)
    expect(groupNamed(scene, 'doubtful')).toHaveLength(1)
  })

  it('says so where there is nothing else', () => {
    const analysis = analysisOf(day(['12:00', 104]))
    expect(contextPicture(ENGLISH, analysis, 0, SIZE).description).toContain('No other reading.')
  })

  it('numbers its hours by the clock, over midnight too', () => {
    const scene = firstDoubtful(analysisOf(day(['00:20', 255], ['00:21', 109])))
    const hours = groupNamed(scene, 'hours').map((node) => (node.kind === 'text' ? node.text : ''))
    expect(hours).toEqual(['16 h', '20', '0', '4', '8', '12'].slice(0, hours.length))
    expect(hours.length).toBeGreaterThanOrEqual(5)
  })
})
