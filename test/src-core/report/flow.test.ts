import { spawnSync } from 'node:child_process'
import { getDocumentProxy } from 'unpdf'
import { describe, expect, it } from 'vitest'
import { EDGE_NAMES, edgeLog, pageTexts, pdfOf } from '../../helpers/pages'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

// How the pages are filled, as another reader of PDFs finds the text on them.

const HEAD_AND_FOOT = { above: 38, below: 46 } as const
/** Type of a section's heading, points. */
const HEADING = 10.5
/** What the first page holds, in its order. */
const FIRST_PAGE = [
  'Do not change doses',
  'Diabetes type',
  'Lows first',
  'Glucagon at home',
  'Highs and numbers',
  'The day',
  'What stands out',
  'Can readings be trusted?',
  'Agreed today',
]

interface Line {
  readonly text: string
  readonly size: number
  /** Points from the top of the text to its baseline. */
  readonly y: number
}

async function linesOfPages(
  pdf: Uint8Array,
): Promise<{ readonly height: number; readonly lines: readonly Line[] }[]> {
  const document = await getDocumentProxy(new Uint8Array(pdf))
  return Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const page = await document.getPage(i + 1)
      const [, , , top] = page.view
      const { items } = await page.getTextContent()
      const lines = items.flatMap((item) =>
        'str' in item && item.str.trim() !== ''
          ? [
              {
                text: item.str,
                size: Number(item.transform[3]),
                y: top - HEAD_AND_FOOT.above - Number(item.transform[5]),
              },
            ]
          : [],
      )
      const height = top - HEAD_AND_FOOT.above - HEAD_AND_FOOT.below
      return { height, lines: lines.filter(({ y }) => y > 0 && y < height) }
    }),
  )
}

const canRender = spawnSync('pdftoppm', ['-v']).status === 0
const DOTS_PER_INCH = 36

/** How far down the text's part of each page there is any ink, 0 to 1. */
function inkOfPages(pdf: Uint8Array): readonly number[] {
  const { stdout } = spawnSync('pdftoppm', ['-gray', '-r', String(DOTS_PER_INCH), '-'], {
    input: pdf,
    maxBuffer: 1 << 30,
  })
  const shares: number[] = []
  // Portable grey maps (binary, eight bits; Netpbm), one after the other.
  for (let at = 0; at < stdout.length;) {
    const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(stdout.toString('latin1', at, at + 64))
    if (header === null) throw new Error('this is no grey map')
    const [width, height] = [Number(header[1]), Number(header[2])]
    const dots = stdout.subarray(at + header[0].length, at + header[0].length + width * height)
    const rowOf = (points: number) => Math.round((points * DOTS_PER_INCH) / 72)
    const [top, end] = [rowOf(HEAD_AND_FOOT.above), height - rowOf(HEAD_AND_FOOT.below)]
    let last = end - 1
    while (last > top && dots.subarray(last * width, (last + 1) * width).every((dot) => dot > 200)) last--
    shares.push((last - top) / (end - top))
    at += header[0].length + width * height
  }
  return shares
}

describe.each(['A4', 'Letter'] as const)('the pages on %s', (paper) => {
  it.each(EDGE_NAMES)(
    `of %s: the first holds all its parts and nothing else, each behind it is filled by a third and more and heads nothing at its foot${canRender ? '' : ' (how far they are filled is skipped: no pdftoppm)'}`,
    async (name) => {
      const pdf = await pdfOf(edgeLog(name), { paper, label: 'Clinic number 7, Thursday' })
      const [first, second] = await pageTexts(pdf)
      const places = FIRST_PAGE.map((words) => first.indexOf(words))
      expect(places).toEqual([...places].sort((a, b) => a - b))
      expect(places[0]).toBeGreaterThan(0)
      // Nothing runs over: the second page begins with a section of its own.
      expect(second).toMatch(/^(Each low|The numbers) /)

      for (const { lines } of (await linesOfPages(pdf)).slice(1)) {
        const last = lines.reduce((lowest, line) => (line.y > lowest.y ? line : lowest))
        expect([last.text, last.size === HEADING]).toEqual([last.text, false])
      }
      if (!canRender) return
      const shares = inkOfPages(pdf)
      expect(shares.map((share) => share > 1 / 3 || share)).toEqual(shares.map(() => true))
    },
  )
})

describe('the method', () => {
  it('takes half a page and says where all of it is, unless it is asked for whole', async () => {
    const log = analysisOf(inventedLog({ days: 60 }))
    const [short, whole] = await Promise.all([pdfOf(log), pdfOf(log, { wholeMethod: true })])
    const [behind, full] = [(await pageTexts(short)).join(' '), (await pageTexts(whole)).join(' ')]
    expect(behind).toContain('How it was computed')
    expect(behind).toContain('--method')
    expect(behind).toContain('What these pages cannot tell')
    expect(behind).not.toContain('Hyndman and Fan')
    expect(full).toContain('Hyndman and Fan')
    expect(full).not.toContain('--method')
    const pages = await linesOfPages(short)
    const page = pages.find(({ lines }) => lines.some(({ text }) => text === 'How it was computed'))
    const [begin] = page?.lines.filter(({ text }) => text === 'How it was computed') ?? []
    expect(begin.size).toBe(HEADING)
  })
})

describe('pages without notes', () => {
  const SECRET = 'Geheimwort'
  const rows = [
    ...inventedLog({ days: 20 }),
    { at: '2026-03-24 12:00', value: 49, note: `${SECRET}, finger wet` },
    { at: '2026-03-24 12:04', value: 121, note: `${SECRET} washed` },
    { at: '2026-03-25 07:00', value: 301, note: `${SECRET} sugar on finger` },
    { at: '2026-03-25 07:03', value: 122, note: SECRET },
  ]

  it('hold none of their words anywhere, the notes’ technique named all the same', async () => {
    const log = analysisOf(rows)
    const [usual, without] = await Promise.all([
      pageTexts(await pdfOf(log)),
      pageTexts(await pdfOf(log, { withoutNotes: true })),
    ])
    expect(usual.join(' ')).toContain(SECRET)
    expect(usual.join(' ')).toContain('(‘sugar on finger’)')
    expect(without.join(' ')).not.toContain(SECRET)
    expect(without.join(' ')).not.toContain('‘sugar')
    expect(without.join(' ')).toContain('Its note mentions food or sugar on the finger')
    expect(without[0]).toContain('49')
  })
})
