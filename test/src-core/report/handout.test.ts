import { extractText, getDocumentProxy } from 'unpdf'
import { describe, expect, it } from 'vitest'
import { handout } from '../../../src-core/report/handout'
import type { Block, Columns, Paragraph } from '../../../src-core/report/document'
import { renderPdf } from '../../../src-main/pdf/pdf'
import { ENGLISH } from '../../../src-core/wording/english'

const SHEETS = (['A4', 'Letter'] as const).flatMap((paper) =>
  (['mg/dL', 'mmol/L'] as const).map((unit) => ({ paper, unit })),
)
const made = ({ paper, unit }: (typeof SHEETS)[number]) =>
  handout(ENGLISH, { paper, unit, madeAt: 20_000, programVersion: '1.0.0' })
const CONTENT = made(SHEETS[0]).content

/** Every block within blocks, the outer ones first. */
function everyBlock(blocks: readonly Block[]): readonly Block[] {
  return blocks.flatMap((block) => {
    const inner = 'stack' in block ? block.stack : 'columns' in block ? block.columns : []
    return [block, ...everyBlock(inner)]
  })
}
const BLOCKS = everyBlock(CONTENT)

describe('the sheets to hand out', () => {
  it.each(SHEETS)('are two pages, each filled: $paper, $unit', async (sheet) => {
    const pdf = await getDocumentProxy(
      new Uint8Array(await renderPdf(ENGLISH, made(sheet), { madeAtMs: Date.UTC(2026, 6, 1) })),
    )
    expect(pdf.numPages).toBe(2)
    const { text } = await extractText(pdf)
    expect(text[0]).toContain('Gone through with')
    expect(text[1]).toContain('A fair trial')
    expect(text[1]).toMatch(/It does not replace the\s+blood test\./)
    for (const number of [1, 2]) {
      const page = await pdf.getPage(number)
      const { items } = await page.getTextContent()
      // Above the foot, which stands below 46 points; no more than an inch is left.
      const lowest = Math.min(
        ...items.flatMap((item) =>
          'str' in item && item.str.trim() !== '' && item.transform[5] > 46
            ? [item.transform[5] as number]
            : [],
        ),
      )
      expect(lowest).toBeLessThan(46 + 72)
    }
  })

  it('tell every step in 12 points or more', () => {
    const items = BLOCKS.filter((block): block is Columns => 'columns' in block && block.isListItem === true)
    expect(items.length).toBeGreaterThanOrEqual(14)
    for (const { columns } of items) {
      for (const part of columns) expect((part as Paragraph).fontSize).toBeGreaterThanOrEqual(12)
    }
  })

  it('draw eight of them, and say what each drawing shows', () => {
    const pictures = BLOCKS.flatMap((block) => ('svg' in block ? [block] : []))
    expect(pictures).toHaveLength(8)
    expect(new Set(pictures.map(({ alt }) => alt)).size).toBe(8)
    for (const { alt } of pictures) expect(alt.split(' ').length).toBeGreaterThan(6)
  })

  it('have boxes of 9 mm and more to write in', () => {
    const tables = BLOCKS.flatMap((block) => ('table' in block ? [block] : []))
    expect(tables.map(({ layout }) => layout)).toEqual(['boxes', 'boxes'])
    const cells = tables.flatMap(({ table }) => table.body.flat())
    const sizes = cells.flatMap(({ text }) =>
      Array.isArray(text) ? [(text as readonly { fontSize: number }[])[0].fontSize] : [],
    )
    // Three rounds by five columns, three days by eight moments and remarks.
    expect(sizes).toHaveLength(3 * 5 + 3 * 9)
    // A line of Source Sans 3 is 1.326 times as high as its size.
    for (const size of sizes) expect((size * 1.326 * 25.4) / 72).toBeGreaterThanOrEqual(9 - 1e-6)
  })

  it.each([
    ['mg/dL', '70 mg/dL', '180 mg/dL'],
    ['mmol/L', '3.9 mmol/L', '10.0 mmol/L'],
  ] as const)('explain eight words of the report, with the limits in %s', (unit, low, high) => {
    const terms = ENGLISH.handout.glossary(unit)
    expect(terms.map(({ term }) => term)).toEqual([
      'Reading',
      'Repeat test',
      'Low',
      'High',
      'Mean',
      'SD',
      'CV',
      'Estimated A1C',
    ])
    const printed = JSON.stringify(made({ paper: 'Letter', unit }).content)
    for (const { term, means } of terms) {
      expect(printed).toContain(`"${term}: "`)
      expect(printed).toContain(means)
    }
    expect(terms[2].means).toContain(`below ${low}`)
    expect(terms[3].means).toContain(`above ${high}`)
  })
})
