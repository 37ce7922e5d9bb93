import { describe, expect, it } from 'vitest'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'
import { drawnNodes, groupNamed } from '../../helpers/scenes'
import { twoPeriodsPicture } from '../../../src-core/charts/twoPeriodsPicture'
import { isLow } from '../../../src-core/log/readings'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'
import { documentOf, pageTexts, pdfOf } from '../../helpers/pages'
import { ENGLISH } from '../../../src-core/wording/english'

const versus = { from: parseIsoDay('2026-03-02') ?? 0, to: parseIsoDay('2026-03-31') ?? 0 }
const period = { from: parseIsoDay('2026-04-01') ?? 0, to: parseIsoDay('2026-04-30') ?? 0 }
const ROWS: readonly FixtureReading[] = [
  ...inventedLog({ days: 30, spread: 0.4 }),
  ...inventedLog({ days: 30, firstDay: '2026-04-01', centre: 118, spread: 0.4, seed: 2 }),
]

async function pageOf(
  analysis: ReturnType<typeof analysisOf>,
  paper: 'A4' | 'Letter' = 'A4',
): Promise<string> {
  const pages = (await pageTexts(await pdfOf(analysis, { paper }))).filter((page) =>
    page.includes('Two periods '),
  )
  expect(pages).toHaveLength(1)
  return pages[0].split(/ (?:Each low|The numbers) /)[0]
}

describe.each(['A4', 'Letter'] as const)('the page of two periods on %s', (paper) => {
  it('holds its tables and its picture on one sheet, earlier before later', async () => {
    const page = await pageOf(analysisOf(ROWS, { period, versus }), paper)
    expect(page).toContain('2–31 March 1–30 April change, earlier to later')
    for (const words of [
      'Mean at the same times of day',
      'Coefficient of variation',
      'Readings above 250',
      'Change by part of the day',
    ]) {
      expect(page).toContain(words)
    }
    expect(page).toMatch(/Mean \d+ \d+ (Lower|No clear change): −\d+, could be −\d+ to/)
    expect(page).not.toMatch(/A1C/)
  })

  it('holds them with every caution before them', async () => {
    const rows = ROWS.map((row, i) => {
      const after = row.at >= '2026-04'
      const later = after && i % 2 === 0 ? { at: row.at.replace(/ 0[5-9]:/, ' 10:') } : {}
      return { ...row, ...later, meter: after ? `SN-47${i % 3}` : 'SN-1' }
    })
    const shared = { ...versus, to: period.from + 3 }
    const page = await pageOf(analysisOf(rows, { period, versus: shared }), paper)
    expect(page.match(/Before any verdict/g)).toHaveLength(2)
    expect(page).toContain('The two periods share 4 days')
    expect(page).toContain('No verdict')
    expect(page).toContain('upper end of target')
    expect(page).toContain('Change by part of the day')
  })
})

describe('the page of two periods', () => {
  it('reads the same whichever period was named first, but for its marks', async () => {
    const one = await pageOf(analysisOf(ROWS, { period, versus }))
    const other = await pageOf(analysisOf(ROWS, { period: versus, versus: period }))
    const words = (page: string) => page.slice(page.indexOf('Two periods'), page.indexOf('Home finger-stick'))
    expect(words(other)).toBe(words(one))
  })

  it('begins with how the lows changed, and the first page tells it too', async () => {
    const rows = [
      ...ROWS,
      ...[5, 9, 12].map((day) => ({ at: `2026-04-${String(day).padStart(2, '0')} 03:10`, value: 48 })),
    ]
    const analysis = analysisOf(rows, { period, versus })
    const pages = await pageTexts(await pdfOf(analysis))
    const [march, april] = [versus, period].map(
      ({ from, to }) =>
        rows.filter(({ at, value }) => {
          const day = parseIsoDay(at.slice(0, 10)) ?? NaN
          return day >= from && day <= to && value !== 'HI' && (value === 'LO' || value < 70)
        }).length,
    )
    expect(april).toBeGreaterThan(march)
    const words = new RegExp(
      `More lows counted in 1–30 April than in 2–31 March: ${april} readings below 70 on .* before, ${march} on `,
    )
    expect(pages[0]).toMatch(words)
    const page = await pageOf(analysis)
    expect(page).toMatch(words)
    expect(page.search(words)).toBeLessThan(page.indexOf('as logged'))
    expect(page).not.toContain('Fewer')
  })

  it('says in a sentence what is clear, after cautions and before the table', async () => {
    const rows = ROWS.map((row) => ({ ...row, meter: row.at < '2026-04' ? 'SN-4711' : 'SN-4712' }))
    const page = await pageOf(analysisOf(rows, { period, versus }))
    const order = [
      'Two periods',
      'ore lows counted in',
      'Before any verdict',
      'lear: ',
      'as logged, mg/dL',
    ].map((words) => page.indexOf(words))
    expect(order).toEqual([...order].sort((a, b) => a - b))
    expect(Math.min(...order)).toBeGreaterThanOrEqual(0)
  })

  it('stands in no report of one period', () => {
    expect(JSON.stringify(documentOf(analysisOf(ROWS, { period })).content)).not.toContain('Two periods')
  })

  it('tells first that meters changed, by their letters', async () => {
    const rows = ROWS.map((row) => ({ ...row, meter: row.at < '2026-04' ? 'SN-4711' : 'SN-4712' }))
    const page = await pageOf(analysisOf(rows, { period, versus }))
    expect(page).toContain(
      'Before any verdict: meter A gave 100 % of the readings of 2–31 March and 0 % of those of 1–30 April',
    )
    expect(page.indexOf('Before any verdict')).toBeLessThan(page.indexOf('could be −'))
    expect(page).not.toContain('4711')
  })

  it('of a single reading against a month holds back what cannot be told', async () => {
    const rows = [...inventedLog({ days: 30 }), { at: '2026-04-10 08:00', value: 61 }]
    const page = await pageOf(analysisOf(rows, { period, versus }))
    expect(page).toContain('no interval is given')
    expect(page.match(/not shown: fewer than 15 readings/g)).toHaveLength(2)
    expect(page).toContain('Mean at the same times of day: none')
    expect(page).not.toMatch(/(Higher|Lower): /)
    expect(page).toMatch(
      /Lows, readings below 70 \d+ in \d+ episodes?, on \d+ days? \(nights tested: \d+ of 30\) 1 in 1 episode, on 1 day \(nights tested: 0 of 30\)/,
    )
  })

  it('of days without times has no picture and no blocks', async () => {
    const rows = ROWS.map((row) => ({ ...row, at: row.at.slice(0, 10) }))
    const page = await pageOf(analysisOf(rows, { period, versus }))
    expect(page).not.toContain('Change by part of the day')
    expect(page).not.toContain('upper end of target')
    expect(page).toMatch(/Mean \d+ \d+ /)
  })

  it('in mmol/L prints one decimal', async () => {
    const rows = [
      ...inventedLog({ days: 30, unit: 'mmol/L' }),
      ...inventedLog({ days: 30, firstDay: '2026-04-01', unit: 'mmol/L', centre: 110 }),
    ]
    const page = await pageOf(analysisOf(rows, { unit: 'mmol/L', period, versus }))
    expect(page).toMatch(/Mean \d+\.\d \d+\.\d Lower: −\d\.\d, could be −\d\.\d to −\d\.\d/)
    expect(page).toContain('Readings below 3.9')
  })
})

describe('the picture of two periods', () => {
  function sceneOf(rows: readonly FixtureReading[]) {
    const analysis = analysisOf(rows, { period, versus })
    const [first, second] = analysis.periods
    const scene = twoPeriodsPicture(
      ENGLISH,
      analysis,
      [
        { figures: second, name: 'March', sign: 'triangles' },
        { figures: first, name: 'April', sign: 'dots' },
      ],
      { width: 520, height: 215, palette: PRINT_PALETTE },
    )
    return { analysis, scene, first, second }
  }
  const lowsOf = ({ analysis, first, second }: ReturnType<typeof sceneOf>) =>
    [first, second].map(({ start, end }) => {
      let lows = 0
      for (let i = start; i < end; i++) if (isLow(analysis.readings, i)) lows++
      return lows
    })

  it('draws every reading once, and every low as a square or a heavy triangle', () => {
    const pictured = sceneOf(ROWS)
    const [first, second] = lowsOf(pictured)
    expect(Math.min(first, second)).toBeGreaterThan(3)
    const triangles = groupNamed(pictured.scene, 'triangles')
    expect(triangles).toHaveLength(pictured.second.asLogged.n)
    const heavy = triangles.filter((node) => node.kind === 'triangle' && node.stroke.width > 1)
    expect(heavy).toHaveLength(second)
    const dots = groupNamed(pictured.scene, 'dots')
    expect(dots.filter((node) => node.kind === 'square')).toHaveLength(first)
    const others = dots.find((node) => node.kind === 'dots')
    expect(others?.kind === 'dots' && others.points.length).toBe(pictured.first.asLogged.n - first)
  })

  it('tells the periods apart without colour: by shape, and by dashes of the medians', () => {
    const { scene } = sceneOf(ROWS)
    const dashed = (name: string) =>
      groupNamed(scene, name).map(
        (node) => (node.kind === 'line' || node.kind === 'rect') && node.stroke.dash !== undefined,
      )
    expect(new Set(dashed('medians of triangles'))).toEqual(new Set([true]))
    expect(new Set(dashed('medians of dots'))).toEqual(new Set([false]))
  })

  it('says in words what it shows', () => {
    const { scene, analysis } = sceneOf(ROWS)
    const { lows } = analysis.periods[0]
    expect(scene.description).toMatch(
      /^Readings of two periods by time of day, in mg\/dL\. March, triangles: medians 06–09 \d+ \(\d+ readings\)/,
    )
    expect(scene.description).toContain(`April, dots: medians`)
    expect(scene.description).toContain(`${lows.readingsBelow70} lows.`)
  })

  it('stays inside its frame, LO and HI outside the axis', () => {
    const { scene } = sceneOf([
      ...ROWS,
      { at: '2026-03-05 23:59', value: 'LO' },
      { at: '2026-04-05 00:00', value: 'HI' },
    ])
    for (const node of drawnNodes(scene)) {
      if (!('x' in node)) continue
      expect(node.x).toBeGreaterThanOrEqual(0)
      expect(node.x).toBeLessThanOrEqual(scene.width)
      expect(node.y).toBeGreaterThanOrEqual(0)
      expect(node.y).toBeLessThanOrEqual(scene.height)
    }
    const texts = drawnNodes(scene).flatMap((node) => (node.kind === 'text' ? [node.text] : []))
    expect(texts).toEqual(expect.arrayContaining(['LO', 'HI']))
  })

  it('of thousands of readings draws the lows alone, and says so', () => {
    const many = Array.from({ length: 12 }, (_, i) => [
      ...inventedLog({ days: 30, seed: i + 5, spread: 0.4 }),
      ...inventedLog({ days: 30, firstDay: '2026-04-01', seed: i + 50, spread: 0.4 }),
    ]).flat()
    const pictured = sceneOf(many)
    const [, second] = lowsOf(pictured)
    expect(groupNamed(pictured.scene, 'triangles')).toHaveLength(second)
    const texts = drawnNodes(pictured.scene).flatMap((node) => (node.kind === 'text' ? [node.text] : []))
    expect(texts.some((text) => text.startsWith('With so many readings, only the lows are drawn'))).toBe(true)
  })

  it('marks every doubtful reading with a question mark', () => {
    const rows = [
      ...inventedLog({ days: 30, repeats: 0.4, wrong: 0.4 }),
      ...inventedLog({ days: 30, firstDay: '2026-04-01', repeats: 0.4, wrong: 0.4, seed: 9 }),
    ]
    const { analysis, scene } = sceneOf(rows)
    expect(analysis.technique.doubtful.length).toBeGreaterThan(5)
    expect(groupNamed(scene, 'questions')).toHaveLength(analysis.technique.doubtful.length)
  })
})
